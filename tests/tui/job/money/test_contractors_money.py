"""A contractor's invoice on the money page: paid with CIS deducted, its statement ticked off."""

from datetime import datetime, time, timedelta
from pathlib import Path

import pytest

from domain.job import Job, Outgoing, Stage
from domain.page_names import PageName
from storage.book import Book
from tests.tui.books.a_job_at_a_stage import (
    TODAY,
    app_on,
    by_another_hand,
    carried_to,
    for_a_contractor,
)
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import Clock, Hands, key, turn_to
from tests.tui.sight import SIZES, cut_off, sees
from tui.shell.app import make_app


def _invoiced(book: Book, job: Job) -> Job:
    return book.issue_invoice(for_a_contractor(book, job), TODAY)


@pytest.mark.parametrize("size", SIZES)
async def test_a_contractor_pays_with_cis_deducted_and_their_statement_is_ticked_off(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    job = by_another_hand(path, _invoiced)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        await hands.press(key("money", "send"))
        await hands.hears("Marked as sent: INV-1.")
        # 382.11 less 20 % of what is left after materials
        await sees(pilot, "Owed £330.08 after £52.03 CIS", "£382.11", "£52.03", "CIS")
        assert await cut_off(pilot) == []
        await hands.ask(key("money", "put_right"))
        await sees(pilot, "£52.03 of it CIS", "CIS −£52.03, £0.00 to pay")
        await hands.write({"Take off": "10"})
        await sees(pilot, "CIS −£2.00, £322.08 to pay")
        await hands.write({"It is": "materials at cost"})
        await sees(pilot, "CIS as it was, £320.08 to pay")
        assert await cut_off(pilot) == []
        await hands.press("escape", "escape")
        await hands.ask(key("money", "money_in"))
        await sees(pilot, "Deducted (CIS)", "pays it off")
        assert await cut_off(pilot) == []
        await hands.write({"Deducted (CIS)": "0"})
        await sees(pilot, "leaves £52.03 owed")
        await hands.write({"Deducted (CIS)": "52.03"})
        await hands.press(key("dialog", "save"))
        await hands.hears("£330.08 received.")
        await sees(pilot, "CIS £52.03, no statement", "✓ paid")
        await hands.press(key("money", "statement"))
        await hands.hears("the statement of £52.03 deducted came.")
        await sees(pilot, "CIS £52.03 ✓ statement")
        assert await cut_off(pilot) == []
        await hands.press(key("job", "customer"))
        await sees(pilot, "Received", "£330.08", "CIS deducted", "£52.03", "Owed")
        assert await cut_off(pilot) == []
    paid = read_again(path)
    assert job.owed == 330_08
    (payment,) = paid.payments
    assert (payment.money, payment.cis, paid.owed) == (330_08, 52_03, 0)
    assert payment.statement_on is not None


async def test_paid_from_tonight_the_deduction_is_kept_too(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    job = by_another_hand(path, _invoiced)
    by_another_hand(path, lambda book, of: book.mark_sent(of, Outgoing.INVOICE, 1, TODAY))
    late = datetime.combine(job.documents[0].due_on + timedelta(days=8), time(19))
    async with make_app(path, Clock(late)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Overdue 8 days", "£330.08")
        await hands.ask(key("week", "open"))
        await hands.ask(key("chase", "payment"))
        await sees(pilot, "Deducted (CIS)", "pays it off")
        await hands.press(key("dialog", "save"))
        await hands.hears("£330.08 received.")
    (payment,) = read_again(path).payments
    assert (payment.money, payment.cis) == (330_08, 52_03)


@pytest.mark.parametrize("size", SIZES)
async def test_what_a_contractor_deducts_of_an_advance_is_typed_with_it(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, for_a_contractor)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        await hands.turn_to(PageName.MONEY)
        await hands.press(key("money", "money_in"))
        await sees(pilot, "Payment that no invoice asks for", "Deducted (CIS)")
        assert await cut_off(pilot) == []
        await hands.write({"Amount": "80", "Deducted (CIS)": "20"})
        await hands.press(key("dialog", "save"))
        await hands.hears("£80.00 received.")
        await sees(pilot, "£80.00 paid ahead after £20.00 CIS (credit).")
        assert await cut_off(pilot) == []
        await hands.press(key("money", "send"))
        # 382.11 less 52.03 CIS is 330.08; materials at cost 121.97 (both below and above).
        await sees(pilot, "Materials at cost", "CIS £52.03, £250.08 to pay")
        assert await cut_off(pilot) == []
        await hands.write({"Cost to you": "400"})
        await hands.press(key("dialog", "save"))
        await hands.hears("more than the £382.11 of the invoice")
        await hands.write({"Cost to you": "131.98"})
        await sees(pilot, "CIS £50.03, £252.08 to pay")
        await hands.write({"Cost to you": "121.97"})
        await hands.press(key("dialog", "save"))
        # 382.11 less 52.03 CIS is 330.08 to pay (above), of which 80.00 came.
        await sees(pilot, "Less what they paid already", "−£80.00", "CIS deducted", "£250.08")
        await hands.press(key("issue", "save"))
        await sees(pilot, "Owed £250.08 after £32.03 CIS")
    (payment,) = read_again(path).payments
    assert (payment.money, payment.cis, payment.wants_statement) == (80_00, 20_00, True)
