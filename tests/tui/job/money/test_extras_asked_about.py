"""An extra that is agreed is not done yet: the invoice that charges it asks."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from domain.job import Extra, ExtraState, Means, Stage
from domain.page_names import PageName
from tests import builders
from tests.tui.books.a_job_at_a_stage import app_on, by_another_hand, carried_to
from tests.tui.hands import Hands, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.job.money.invoice_dialog import IssueDialog, all_done

EXTRA = Extra(
    "rotten boards by the gutter", Decimal(1), "job", 38_00, Decimal(0), ExtraState.AGREED,
    agreed_by="Mrs Adeyemi", agreed_on=builders.LAY_DAY, means=Means.TEXT,
)  # fmt: skip


def test_extras_that_are_charged_are_asked_about_in_one_line() -> None:
    free = replace(EXTRA, state=ExtraState.NOT_CHARGED)
    assert all_done([]) == all_done([free]) == ""
    assert all_done([free, EXTRA]) == (
        "▲ Done: rotten boards by th…? If not, mark it not charged first."
    )
    many = all_done([EXTRA] * 12)
    assert "and 11 more" in many
    assert len(many) <= 76


@pytest.mark.parametrize("size", SIZES)
async def test_an_agreed_extra_is_asked_about_before_the_invoice_is_issued(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, lambda book, job: book.save_extra(job, EXTRA))
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        await hands.turn_to(PageName.MONEY)
        await click_on(pilot, "s send")
        await hands.until(lambda: isinstance(app.screen, IssueDialog))
        await sees(pilot, "▲ Done: rotten boards", "If not, mark it not charged first.")
        assert await cut_off(pilot) == []
