"""Registered for VAT after the quote: the invoice asks once how it stands to the price."""

from pathlib import Path

import pytest

from domain.job import Stage, VatTerms
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import (
    TODAY,
    app_on,
    by_another_hand,
    carried_to,
    registers_for_vat,
)
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, cut_off, sees


@pytest.mark.parametrize("size", SIZES)
async def test_it_asks_once_and_goes_on_to_the_invoice(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, registers_for_vat)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        app.open_job(1, PageName.MONEY)  # to invoice it
        await sees(pilot, "VAT on this price", "VAT is")
        await hands.press("escape")
        await hands.press(key("money", "deposit"))
        await hands.hears("The accepted quote asks for no deposit.")  # before it is asked for good
        await hands.press(key("money", "send"))
        await sees(pilot, "VAT on this price", "VAT is")
        assert await cut_off(pilot) == []
        await hands.press(key("dialog", "save"))
        await hands.hears("Choose one with the arrow keys.")
        await hands.write({"VAT is": "added, as agreed in writing"})
        await hands.press(key("dialog", "save"))
        await hands.hears("Give the day on which they agreed to it in writing.")
        await hands.write({"Agreed on": "yesterday"})
        await hands.press(key("dialog", "save"))
        await sees(pilot, "Including VAT", "£458.53")
        await hands.press(key("issue", "save"))
        await hands.hears("Issued: the invoice.")
    job = read_again(path)
    assert job.vat_terms is VatTerms.ADDED
    assert job.vat_agreed_on is not None
    assert job.vat_agreed_on < TODAY
    assert job.invoice is not None


async def test_sent_from_tonight_it_is_asked_there(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, registers_for_vat)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the invoice")
        await hands.press(key("week", "send"))
        await sees(pilot, "VAT on this price", "VAT is")
        await hands.write({"VAT is": "inside the agreed price"})
        await hands.press(key("dialog", "save"))
        await sees(pilot, "Including VAT", "£382.11")
        await hands.press(key("issue", "save"))
        await hands.hears("is final. Saved as")
    job = read_again(path)
    assert job.vat_terms is VatTerms.INSIDE
    assert job.invoice is not None
