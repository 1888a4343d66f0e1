"""What a customer is called is shown as it is written, whatever it looks like to a program."""

from contextlib import closing
from dataclasses import replace
from datetime import datetime, time
from pathlib import Path

from domain.job import EnquiryRecord, Job
from domain.page_names import PageName
from storage.book import Book
from tests import builders
from tests.storage.books import laid, settle
from tests.tui.hands import Clock, Hands, key
from tests.tui.sight import text
from tui.papers.paper_screen import PaperScreen
from tui.shell.app import make_app

EVENING = Clock(datetime.combine(builders.LAY_DAY, time(19, 0)))
NAME = "Smith [/] & [b]"
PLACE = "[red]Ro"  # short enough for a day of the week
SEEN = (NAME, PLACE)


def _book(path: Path) -> int:
    """A laid job of that customer at that place, which the week reminds of, and one invoiced."""
    with closing(Book.open(path, EVENING)) as book:
        settle(book)
        _, named = (_renamed(book, laid(book)) for _ in range(2))
        return book.issue_invoice(named, EVENING.now.date()).id or 0


def _renamed(book: Book, job: Job) -> Job:
    customer, site = replace(job.customer, name=NAME), replace(job.site, place=PLACE)
    return book.change_enquiry(job, EnquiryRecord(customer, site, job.enquiry))


async def _sees(hands: Hands, *words: str) -> None:
    await hands.until(lambda: all(each in text(hands.app) for each in words))


async def _paper(hands: Hands, command_key: str) -> None:
    await hands.press(command_key)
    await hands.until(lambda: isinstance(hands.app.screen, PaperScreen))
    await hands.until(lambda: NAME in text(hands.app) or PLACE in text(hands.app))
    await hands.press(key("paper", "save"))
    await hands.hears("Saved as")
    await hands.press("escape")


async def test_markup_in_names_is_shown_as_written(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job = _book(path)
    async with make_app(path, EVENING).run_test(size=(120, 40)) as pilot:
        hands = Hands(pilot)
        await _sees(hands, *SEEN)
        await hands.press(key("anywhere", "go('jobs')"))
        await _sees(hands, *SEEN)
        await hands.press("escape")
        hands.app.open_job(job, PageName.MONEY)
        await hands.shows(PageName.MONEY)
        await _sees(hands, *SEEN)
        await _paper(hands, "enter")
        await _paper(hands, key("job", "site_sheet"))  # a quote says who was asked when it went out
    kept = sorted((path.parent / "papers").rglob("*.txt"))
    assert len(kept) == 2
    assert all(PLACE in paper.read_text("utf-8") for paper in kept)
