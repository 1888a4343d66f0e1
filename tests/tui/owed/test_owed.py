"""What is owed by age: each line's next thing, done from where it stands."""

from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from domain.accounts.chasing import taken_further
from domain.job import Chase, Job
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.storage.ledger.agreed_jobs import Price, agreed_job
from tests.tui.books.an_overdue_invoice import overdue
from tests.tui.hands import Clock, Hands, key
from tests.tui.sight import SIZES, cut_off, lines, sees, text
from tui.papers.paper_screen import PaperScreen
from tui.shell.app import make_app
from tui.week.week_screen import WeekScreen

OWED, SAVE = key("anywhere", "go('owed')"), key("dialog", "save")


def _book(path: Path) -> Clock:
    """Mrs Adeyemi owes on two jobs, the older 30 days overdue and reminded of twice; a firm too."""
    clock = overdue(path, 30)
    with closing(Book.open(path, clock)) as book:
        job, today = book.job(1), clock.now.date()
        for price in priced.PRICES:
            book.set_price(price)
        for days in (20, 8):
            on = today - timedelta(days=days)
            until = on + timedelta(days=7)
            job = book.chase(job, Chase(1, on, until, promised=False))
        other = agreed_job(book, Price(net=(250_00,)), job.customer, registered=False)
        book.issue_invoice(other, today)
        firm = agreed_job(book, Price(net=(300_00,)), "Rook Lane Stores", registered=False)
        firm = book.issue_invoice(firm, today - timedelta(days=40))
        promise = Chase(firm.documents[0].id or 0, today, today + timedelta(days=5), promised=True)
        book.chase(firm, promise)
    return clock


async def _owed(hands: Hands) -> None:
    await hands.until(lambda: isinstance(hands.app.screen, WeekScreen))
    await hands.press(OWED)
    await sees(hands.pilot, "overdue", "INV-1")


def _jobs(path: Path, clock: Clock) -> list[Job]:
    with closing(Book.open(path, clock)) as book:
        return [book.job(key) for key in (1, 2, 3)]


@pytest.mark.parametrize("size", SIZES)
async def test_it_stands_by_age_with_the_next_thing_and_is_whole(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    clock = _book(path)
    async with make_app(path, clock).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _owed(hands)
        await sees(pilot, "not due", "up to 30 days overdue", "decide now", "will pay on", "due ")
        shown = [line for line in lines(hands.app) if "INV-" in line]
        assert ["INV-1" in shown[0], "INV-2" in shown[2]] == [True, True]
        assert await cut_off(pilot) == []
        await hands.press("enter")
        await sees(pilot, "ask for a day, write it off, or f for taken further", "second reminder")
        assert await cut_off(pilot) == []
        await hands.press(key("chase", "write_off"))
        await sees(pilot, "Write off INV-1", "chased no more")
        assert await cut_off(pilot) == []
        await hands.type_in("moved away")
        await hands.press(SAVE)
        await hands.until(lambda: "INV-1  " not in text(hands.app))
        hands.app.open_job(_jobs(path, clock)[0].id or 0, PageName.MONEY)
        await hands.shows(PageName.MONEY)
        await hands.ask(key("money", "write_off"))
        await sees(pilot, "INV-1", "owed again")
        await hands.press("escape")
    (job, _, _) = _jobs(path, clock)
    assert (job.owed, job.write_offs[0].reason) == (0, "moved away")


async def test_a_payment_in_full_takes_three_keys(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    clock = _book(path)
    async with make_app(path, clock).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _owed(hands)
        await hands.ask(key("owed", "payment"))
        await sees(pilot, "Payment for invoice INV-1")
        await hands.press(SAVE)
        await hands.hears("received")
        assert hands.pressed <= 3, "published with the project's aims: 3"
    assert _jobs(path, clock)[0].owed == 0


async def test_one_transfer_pays_the_invoices_of_two_jobs_that_due_first_first(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    clock = _book(path)
    first, second, _ = _jobs(path, clock)
    async with make_app(path, clock).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _owed(hands)
        await hands.ask(key("owed", "transfer"))
        await sees(pilot, "One transfer from Mrs Adeyemi", "INV-1 0001", "INV-2 0002", "paid off")
        assert await cut_off(pilot) == []
        await hands.type_in(f"{(first.owed + 100_00) / 100:.2f}")
        await sees(pilot, "£100.00, £150.00 left")
        await hands.press(SAVE)
        await hands.hears("for 2 invoices")
    paid, part, _ = _jobs(path, clock)
    assert (paid.owed, part.owed, len(paid.payments)) == (0, second.owed - 100_00, 1)
    assert [part.pence for part in paid.payments[0].allocations] == [first.owed, 100_00]


async def test_a_statement_of_account_and_the_second_reminder_are_papers(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    clock = _book(path)
    async with make_app(path, clock).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _owed(hands)
        await hands.press(key("owed", "statement"))
        await hands.until(lambda: isinstance(hands.app.screen, PaperScreen))
        await sees(pilot, "Statement", "INV-1", "INV-2", "To pay")
        await hands.press(key("paper", "copy"))
        await hands.until(lambda: "is to pay on INV-1, INV-2" in hands.app.clipboard)
        await hands.press("escape")
        await sees(pilot, "decide now")
        await hands.press("enter")
        await sees(pilot, "second reminder")
        await hands.press(key("chase", "second"))
        await hands.until(lambda: isinstance(hands.app.screen, PaperScreen))
        await sees(pilot, "Second reminder INV-1", "Was due on", "£382.11")
    assert len(_jobs(path, clock)[0].chased) == 3


def test_what_is_taken_further_is_quiet_for_a_month() -> None:
    chase = taken_further(1, builders.DUE)
    assert (chase.until - builders.DUE, chase.further) == (timedelta(days=30), True)
