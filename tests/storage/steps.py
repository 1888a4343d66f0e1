"""Anything that can be done to a book, as random steps."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import TypeAlias

from hypothesis import strategies as st

from domain.checks.stages import next_stage
from domain.coverings.materials import Material
from domain.estimate.stock import StockMove
from domain.estimate.usage import UsageRecord
from domain.job import (
    Booking,
    Closing,
    DayAnswer,
    DaysMoved,
    Ending,
    EnquiryRecord,
    Extra,
    ExtraState,
    Job,
    Reopening,
    Rung,
    SignOff,
    Site,
    Snag,
    Stage,
    StageBack,
    StageMove,
    WentAhead,
)
from storage.book import Book
from tests import builders, priced
from tests.storage.all_sorts import NOTES
from tests.storage.books import NOW, one_option

Step: TypeAlias = tuple[str, int, int]
"""What is done, to the job of which number, and a number that makes it differ."""

TODAY = NOW.date()


def _draft(book: Book, job: Job, n: int) -> None:
    sent = sum(quote.sent_on is not None for quote in job.quotes)
    book.save_quote(job, replace(one_option(job), number=sent + 1, deposit=n))


def _accept(book: Book, job: Job, n: int) -> None:
    options = [option for quote in job.quotes for option in quote.options]
    chosen = options[n % len(options)].id if options else 0
    book.accept_quote(job, builders.acceptance(option_id=chosen, who=f"Mrs {n}"))


def _answered(book: Book, job: Job, n: int) -> None:
    day = job.days[n % len(job.days)].day if job.days else TODAY
    book.answer_day(job, DayAnswer(day, list(WentAhead)[1 + n % 2]))


def _kept(book: Book, job: Job, _n: int) -> None:
    days = [booked.day for booked in job.days] or [TODAY]
    book.keep_days(job, tuple(Rung(day, TODAY, "r") for day in dict.fromkeys(days)))


def _extra(book: Book, job: Job, n: int) -> None:
    extra = Extra(f"board {n}", Decimal(n), "m", n, Decimal(0), ExtraState.NOT_CHARGED)
    known = job.extras[n % len(job.extras)].id if job.extras and n % 3 else None
    if known is not None and n % 3 == 1:
        book.delete_extra(job, known)
    else:
        book.save_extra(job, replace(extra, id=known))


def _snag(book: Book, job: Job, n: int) -> None:
    known = job.snags[0].id if job.snags and n % 2 else None
    book.save_snag(job, Snag(f"snag {n}", TODAY if n % 3 else None, id=known))


def _used(book: Book, job: Job, n: int) -> None:
    moves = (StockMove(Material.MASTIC, "", Decimal(n - 4), TODAY, "counted"),)
    book.record_usage(job, UsageRecord(builders.usages()[: n % 5], moves[: n % 2]))


def _on(book: Book, job: Job, n: int) -> None:
    book.move_stage(job, StageMove(next_stage(job) or Stage.ENQUIRY, TODAY, NOTES if n % 3 else {}))


def _again(book: Book, job: Job, n: int) -> None:
    customer = replace(job.customer, phone=f"0{n}") if n % 2 else builders.customer()
    book.take_enquiry(EnquiryRecord(customer, Site(f"place {n}"), builders.enquiry(rough=n)))


def _corrected(book: Book, job: Job, n: int) -> None:
    customer, site = replace(job.customer, name=f"name {n}"), Site(f"place {n}")
    book.change_enquiry(job, EnquiryRecord(customer, site, builders.enquiry(rough=n)))


ACTIONS: Mapping[str, Callable[[Book, Job, int], object]] = {
    "asks again": _again,
    "corrected": _corrected,
    "surveyed": lambda book, job, n: book.save_survey(
        job, builders.survey(measures=builders.measures(span=builders.mm(1800 + n)))
    ),
    "drafted": _draft,
    "accepted": _accept,
    "booked": lambda book, job, n: book.book_days(
        job, Booking((builders.booked_day(hours=Decimal(n)),) * (n % 3), bool(n % 2))
    ),
    "answered": _answered,
    "moved": lambda book, job, n: book.move_days(job, DaysMoved(job.days, 1 + n)),
    "kept": _kept,
    "stripped": lambda book, job, n: book.record_stripping(
        job, builders.stripping(found=f"{n} boards")
    ),
    "extra": _extra,
    "laid": lambda book, job, n: book.record_laying(job, builders.laying(temperature_c=Decimal(n))),
    "used": _used,
    "snag": _snag,
    "signed": lambda book, job, n: book.sign_off(job, SignOff(f"Mrs {n}", TODAY)),
    "on": _on,
    "back": lambda book, job, n: book.go_back(job, StageBack(list(Stage)[n % 7], "why", TODAY)),
    "ended": lambda book, job, n: book.end_job(job, Closing(list(Ending)[n % 2], "why", TODAY)),
    "reopened": lambda book, job, n: book.reopen(job, Reopening(f"why {n}", TODAY)),
    "price": lambda book, job, n: book.set_price(priced.price(Material.SHINGLE_NAILS, n, "9")),
    "stock": lambda book, job, n: book.move_stock(
        StockMove(Material.SHINGLE_NAILS, "", Decimal(n), TODAY)
    ),
    "trader": lambda book, job, n: book.save_trader(replace(book.trader(), phone=f"0{n}")),
    "forecast": lambda book, job, n: book.save_forecasts(
        [
            replace(
                next(iter(book.forecasts(TODAY, TODAY)), builders.forecast(TODAY)),
                low_c=Decimal(n),
            )
        ]
    ),
}
"""What can be taken back; the domain refuses some of it for some jobs."""


def take(book: Book, step: Step) -> None:
    """Take a step. Raises what the book raises."""
    name, job_id, n = step
    ACTIONS[name](book, book.job(job_id), n)


def steps(most: int) -> st.SearchStrategy[list[Step]]:
    """Give steps on the jobs of all sorts."""
    names = st.sampled_from(sorted(ACTIONS))
    step = st.tuples(names, st.integers(1, 14), st.integers(0, 9))
    return st.lists(step, min_size=1, max_size=most)
