"""A book whose one job was carried to a stage by the actions of the book, and an app on it."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from domain.estimate.usage import UsageRecord
from domain.job import (
    Booking,
    CustomerKind,
    EnquiryRecord,
    Job,
    Outgoing,
    Sending,
    SignOff,
    Stage,
    StageMove,
)
from domain.trader import CisStanding, VatStanding
from storage.book import Book
from tests import builders, priced
from tui.shell.app import HeadlapApp, make_app

NOW = datetime(2026, 6, 24, 19, 0)
"""The evening of the day on which the roof is stripped and laid."""
TODAY = NOW.date()

Step = Callable[[Book, Job], Job]


def settled_for(path: Path, stage: Stage) -> Job:
    """A job one previous stage, with everything recorded that the stage asks for."""
    return _carried(path, list(Stage)[stage.rank - 1], and_settled=True)


def carried_to(path: Path, stage: Stage) -> Job:
    """A job at a stage, with nothing recorded beyond what that stage asked for."""
    return _carried(path, stage, and_settled=False)


def app_on(path: Path) -> HeadlapApp:
    """The app on that evening."""
    return make_app(path, lambda: NOW)


def by_another_hand(path: Path, change: Step) -> Job:
    """Change the job in another window: recorded, while the app shows what it read before."""
    book = Book.open(path, lambda: NOW)
    try:
        return change(book, book.job(1))
    finally:
        book.close()


def registers_for_vat(book: Book, job: Job) -> Job:
    """The trader registers, and the job stays as it was agreed."""
    now = replace(book.trader(), vat_standing=VatStanding.STANDARD, vat_number="980780684")
    book.save_trader(now)
    return job


def for_a_contractor(book: Book, job: Job) -> Job:
    """The customer is a contractor, and the trader registered for CIS."""
    book.save_trader(replace(book.trader(), utr="1955839661", cis_standing=CisStanding.REGISTERED))
    who = replace(job.customer, kind=CustomerKind.CONTRACTOR)
    return book.change_enquiry(job, EnquiryRecord(who, job.site, job.enquiry))


def _carried(path: Path, stage: Stage, *, and_settled: bool) -> Job:
    """Put a copy of the book there: it takes the actions of a whole job to make one."""
    book, job = _made(stage, and_settled=and_settled)
    path.write_bytes(book)
    return job


@cache
def _made(stage: Stage, *, and_settled: bool) -> tuple[bytes, Job]:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "book.headlap"
        job = _worked(path, stage, and_settled=and_settled)
        return path.read_bytes(), job


def _worked(path: Path, stage: Stage, *, and_settled: bool) -> Job:
    book = Book.open(path, lambda: NOW)
    book.save_trader(replace(builders.trader(), version=book.trader().version))
    for price in priced.PRICES:
        book.set_price(price)
    job = book.take_enquiry(EnquiryRecord(builders.customer(), builders.site(), builders.enquiry()))
    for to in list(Stage)[1 : stage.rank + 1]:
        job = _STEPS[to](book, job)
        if job.stage is not to:
            notes = {"measured": "by his brother"} if to is Stage.SURVEY else {}
            job = book.move_stage(job, StageMove(to, TODAY, notes))
    if and_settled and stage is Stage.ENQUIRY:
        job = book.save_survey(job, builders.survey())
    elif and_settled:
        job = _STEPS[list(Stage)[stage.rank + 1]](book, job)
    book.close()
    return job


def _surveyed_and_quoted(book: Book, job: Job) -> Job:
    job = book.save_survey(job, builders.survey())
    job = book.save_quote(job, priced.quote(job=job))
    return book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))


def _agreed_and_booked(book: Book, job: Job) -> Job:
    option = job.quotes[0].options[0]
    job = book.accept_quote(job, builders.acceptance(option_id=option.id))
    return book.book_days(job, Booking((builders.booked_day(id=None),), materials_in_hand=True))


def _laid(book: Book, job: Job) -> Job:
    job = book.record_laying(job, builders.laying())
    return book.record_usage(
        job, UsageRecord(tuple(replace(u, id=None) for u in builders.usages()), ())
    )


def _signed_off(book: Book, job: Job) -> Job:
    job = book.issue_invoice(job, TODAY)
    job = book.mark_sent(job, Outgoing.INVOICE, 1, TODAY)
    return book.sign_off(job, SignOff("Mrs Adeyemi", TODAY))


_STEPS: dict[Stage, Step] = {
    Stage.SURVEY: lambda _, job: job,
    Stage.QUOTED: _surveyed_and_quoted,
    Stage.BOOKED: _agreed_and_booked,
    Stage.STRIPPED: lambda book, job: book.record_stripping(job, builders.stripping()),
    Stage.LAID: _laid,
    Stage.SIGNED_OFF: _signed_off,
}
"""What records what each stage asks for."""
