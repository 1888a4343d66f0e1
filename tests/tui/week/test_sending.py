"""Sending from Tonight: final first, handed on from the list, then marked as sent."""

from datetime import timedelta
from email import message_from_bytes
from email.policy import default
from pathlib import Path

import pytest

from domain.job import Job, Stage
from storage.book import Book
from tests import builders, priced
from tests.storage.books import query
from tests.tui.books.a_job_at_a_stage import NOW, TODAY, app_on, by_another_hand, carried_to
from tests.tui.hands import Hands, key, said
from tests.tui.sight import SIZES, cut_off, sees, text
from tui.shell.app import make_app
from tui.week.task_strip import TaskStrip

SEND, DRAFT, COPY, OPEN = (key("week", c) for c in ("send", "draft", "copy", "open_pdf"))
YES, SAVE = key("issue", "save"), key("dialog", "save")
WAITS = "SELECT paper, number, sent_on FROM to_send"


def _to_quote(book: Book, job: Job) -> Job:
    job = book.save_survey(job, builders.survey())
    return book.save_quote(job, priced.quote(job=job))


def _with_a_draft(path: Path) -> None:
    carried_to(path, Stage.SURVEY)
    by_another_hand(path, _to_quote)


def _told_of_the_line_in_front(hands: Hands) -> str:
    """What the strip says: a long path may lie over it."""
    task = hands.app.screen.query_one(TaskStrip).of_task
    return task.about if task is not None else ""


@pytest.mark.parametrize("size", SIZES)
async def test_an_invoice_is_issued_drafted_and_marked_as_sent_in_three_keys(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    async with app_on(path).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the invoice", f"{DRAFT} e-mail", f"{COPY} message", f"{OPEN} opens")
        await hands.press(DRAFT)
        await sees(pilot, "Issue the invoice", "Once issued it cannot be changed.")
        await sees(pilot, "■ Before “signed off”: Customer")
        await hands.press(YES)
        await hands.until(lambda: ".eml" in said(hands.app))
        await sees(pilot, "Mark as sent: INV-1")
        assert _told_of_the_line_in_front(hands) == "issued, dated 24 Jun"
        assert await cut_off(pilot) == []
        assert query(path, WAITS) == [("invoice", 1, None)]
        await hands.press(SEND)
        await hands.hears("Marked as sent on Wed 24 Jun 2026. F8 to undo.")
        assert "Mark as sent" not in text(hands.app)
        assert hands.pressed == 3
        assert query(path, WAITS) == [("invoice", 1, TODAY.isoformat())]
        await hands.press("f8", "f8")
        await sees(pilot, "Mark as sent: INV-1")
    (draft,) = (tmp_path / "papers").glob("*.eml")
    message = message_from_bytes(draft.read_bytes(), policy=default)
    assert [part.get_filename() for part in message.iter_attachments()] == ["invoice-inv-1.pdf"]


async def test_a_quote_is_made_final_drafted_and_marked_as_sent_in_three_keys(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    _with_a_draft(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the quote")
        await hands.press(DRAFT)
        await sees(pilot, "Make quote 1 final", "A final quote cannot be changed.", "Valid for")
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.until(lambda: ".eml" in said(hands.app))
        await sees(pilot, "Mark as sent: quote")
        assert _told_of_the_line_in_front(hands) == "final, dated 24 Jun"
        await hands.press(SEND)
        await hands.hears("Marked as sent on Wed 24 Jun 2026.")
        assert "Mark as sent" not in text(hands.app)
        assert hands.pressed == 3
    assert query(path, WAITS) == [("quote", 1, TODAY.isoformat())]
    assert query(path, "SELECT sent_on FROM quote") == [(TODAY.isoformat(),)]


async def test_what_lay_a_day_is_sent_today_and_both_days_are_said(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _with_a_draft(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the quote")
        await hands.press(SEND)
        await sees(pilot, "Make quote 1 final")
        await hands.press(SAVE)
        await hands.hears("is final. Saved as ")
    tomorrow = NOW + timedelta(days=1)
    async with make_app(path, lambda: tomorrow).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Mark as sent: quote")
        await hands.press(SEND)
        await hands.hears("today, Thu 25 Jun 2026; it is dated Wed 24 Jun 2026.")
    assert query(path, WAITS) == [("quote", 1, tomorrow.date().isoformat())]


async def test_leaving_the_question_issues_nothing(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the invoice")
        await hands.press(SEND)
        await sees(pilot, "Issue the invoice")
        await hands.press("enter")
        await sees(pilot, "Send the invoice")
    assert query(path, "SELECT number FROM document") == []
    assert not (tmp_path / "papers").exists()


async def test_a_line_that_sends_nothing_says_so(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press(SEND)
        await hands.hears("Pick")
