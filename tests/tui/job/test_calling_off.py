"""Calling off a job whose deposit was paid, and paying back what is not kept of it."""

from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.job import Ending, Job, Received, Stage
from domain.page_names import PageName
from storage.book import Book
from tests.storage.books import DEPOSIT, booked, opened, settle
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.hands import key, turn_to, until
from tests.tui.sight import lines, sees, text
from tui.week.week_screen import WeekScreen


def _deposit_paid(book: Book, job: Job) -> Job:
    job = book.issue_deposit_invoice(job, TODAY)
    return book.record_payment(job, Received(job.documents[0].id or 0, DEPOSIT, TODAY, "cash"))


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_what_is_not_kept_is_credited_and_paid_back_from_its_line(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    with opened(path) as book:
        settle(book)
        _deposit_paid(book, booked(book))
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await turn_to(pilot, app, PageName.MONEY)
        await pilot.press(key("job", "end"))
        await until(pilot, lambda: isinstance(app.screen, ModalScreen))
        assert "declined" not in text(app).casefold()  # they had agreed
        await pilot.press("tab", *"sold it", "tab", "tab", *"40", "tab")
        await sees(pilot, "£60.00 back by 8 Jul")
        await pilot.press(*"felt cut to size", key("dialog", "save"))
        await sees(pilot, "Issued: CRN-1. £60.00 goes back to them by")
        await sees(pilot, f"{key('money', 'put_right')} on its receipt", "✓ rest paid")
        await pilot.press(key("money", "put_right"))
        await sees(pilot, "Payment of £100.00, receipt REC-1", "paid back to them")
        await pilot.press("escape")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, WeekScreen))
        await sees(pilot, "Pay back by 8 Jul")
        await pilot.press(key("week", "open"))
        await until(pilot, lambda: isinstance(app.screen, ModalScreen))
        await pilot.press(key("dialog", "save"))
        await sees(pilot, "£60.00 paid back")
        await until(pilot, lambda: "Pay back by" not in text(app))
    job = by_another_hand(path, lambda _book, job: job)
    assert (job.ended, job.owed, job.credit) == (Ending.CALLED_OFF, 0, 0)
    assert [each.label for each in job.documents] == ["INV-1", "REC-1", "CRN-1", "RFD-1"]


async def test_the_part_done_is_invoiced_once_that_was_asked_about(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.QUOTE)
        await pilot.press(key("job", "end"))
        await until(pilot, lambda: isinstance(app.screen, ModalScreen))
        await pilot.press("c", "tab", *"moving", "tab", "tab", *"250", "tab", *"stripped")
        await pilot.press(key("dialog", "save"))
        await sees(pilot, "It issues an invoice for the part done, £250.00 in all, for good")
        assert by_another_hand(path, lambda _book, job: job).ended is None
        await pilot.press(key("dialog", "save"))
        await sees(pilot, "The job is called off. Issued: INV-1.")
        await turn_to(pilot, app, PageName.QUOTE)
        assert key("quote", "accepted") not in lines(app)[-1]
    job = by_another_hand(path, lambda _book, job: job)
    assert (job.ended, job.owed) == (Ending.CALLED_OFF, 250_00)
