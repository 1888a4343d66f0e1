"""What a trader does to a book, by chance: for one number always the same, on the same book.

Every figure that is typed carries the number, so that what was saved is known again.
"""

import random
from collections.abc import Callable, Mapping
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

from domain.coverings.materials import Material
from domain.estimate.stock import StockMove
from domain.estimate.usage import UsageRecord, estimate, leftovers_to_stock
from domain.job import (
    Booking,
    Closing,
    Ending,
    EnquiryRecord,
    Job,
    Received,
    Reopening,
    Sending,
    SignOff,
    Site,
    Snag,
    Stage,
    StageMove,
)
from domain.scope import ListName
from storage.book import Book
from tests import builders, priced
from tests.storage.all_sorts import NOTES
from tests.storage.books import NOW, query, quote_for, redo, undo

_LATEST = 4
"""Jobs that are worked on at a time."""
_ONWARD = 0.7
"""The part of the actions that bring a job a step further."""
_NEW = 0.03
"""The part that is a new job, while others wait."""
TODAY = NOW.date()

_Act = Callable[[Book, Job, int], object]


def act(book: Book, path: Path, seed: int, number: int) -> None:
    """Do the action of a number. Raises what the book raises: some of them are refused."""
    chance = random.Random(f"{seed} {number}")  # noqa: S311 -- chance that can be repeated
    ids = [key for (key,) in query(path, "SELECT id FROM job ORDER BY id DESC LIMIT 4")]
    if len(ids) < _LATEST or chance.random() < _NEW:
        _ring(book, number)
        return
    job = book.job(chance.choice(ids))
    does = _onward if chance.random() < _ONWARD else chance.choice(ASIDE)
    does(book, job, number)


def _ring(book: Book, n: int) -> None:
    customer = builders.customer(name=f"caller {n}")
    book.take_enquiry(EnquiryRecord(customer, Site(f"place {n}"), builders.enquiry(rough=n)))


def _onward(book: Book, job: Job, n: int) -> None:
    """Do what the job needs next; once it is signed off, take its money."""
    if job.ended is not None:
        book.reopen(job, Reopening(f"why {n}", TODAY))
        return
    if job.stage is Stage.SIGNED_OFF:
        _pay(book, job, n)
        return
    missing = (needed for needed, act in _RECORDS[job.stage].items() if _lacks(job, needed))
    needed = next(missing, None)
    if needed is not None:
        _RECORDS[job.stage][needed](book, job, n)
    else:
        book.move_stage(job, StageMove(list(Stage)[job.stage.rank + 1], TODAY, NOTES))


def _lacks(job: Job, needed: str) -> bool:
    if needed == "sent":
        return job.newest_sent is None
    if needed == "yes":
        return not any(quote.acceptance for quote in job.quotes)
    return not getattr(job, needed)


def _survey(book: Book, job: Job, n: int) -> None:
    usual = builders.survey()
    book.save_survey(job, replace(usual, access=replace(usual.access, photos=f"photo {n}")))


def _quote(book: Book, job: Job, n: int) -> None:
    sent = sum(quote.sent_on is not None for quote in job.quotes)
    book.save_quote(job, replace(quote_for(job), number=sent + 1, deposit=100 + n))


def _send(book: Book, job: Job, n: int) -> None:
    if n % 3 == 0:  # the survey may have changed since it was priced
        _quote(book, job, n)
        return
    book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, NOTES))


def _accept(book: Book, job: Job, n: int) -> None:
    options = job.newest_sent.options if job.newest_sent else ()
    option_id = options[n % len(options)].id if options else 0
    book.accept_quote(job, builders.acceptance(option_id=option_id, who=f"Mrs {n}"))


def _use(book: Book, job: Job, n: int) -> None:
    rows = estimate(job.quote.counting.basis) if job.quote else ()
    moves = leftovers_to_stock(job, rows, builders.LAY_DAY)
    book.record_usage(job, UsageRecord(rows, moves))


def _pay(book: Book, job: Job, n: int) -> None:
    """Issue the invoice where none is, take a part of what is owed or all, or turn to another."""
    owing = next((document for document in job.documents if document.owed), None)
    if owing is not None:
        part = owing.owed if n % 2 else max(1, owing.owed // 3)
        book.record_payment(job, Received(owing.id or 0, part, builders.DUE, "cash"))
    elif job.invoice is not None:
        _ring(book, n)
    else:
        book.issue_invoice(job, builders.SIGNED)


def _ask_again(book: Book, job: Job, n: int) -> None:
    customer = replace(job.customer, phone=f"0{n}")
    book.take_enquiry(EnquiryRecord(customer, Site(f"place {n}"), builders.enquiry(rough=n)))


def _correct(book: Book, job: Job, n: int) -> None:
    customer, site = replace(job.customer, name=f"name {n}"), Site(f"place {n}")
    book.change_enquiry(job, EnquiryRecord(customer, site, builders.enquiry(rough=n)))


_RECORDS: Mapping[Stage, Mapping[str, _Act]] = {
    Stage.ENQUIRY: {"survey": _survey},
    Stage.SURVEY: {"quotes": _quote, "sent": _send},
    Stage.QUOTED: {
        "yes": _accept,
        "days": lambda book, job, n: book.book_days(
            job, Booking((builders.booked_day(hours=Decimal(n % 9 + 1)),), materials_in_hand=True)
        ),
    },
    Stage.BOOKED: {
        "stripping": lambda book, job, n: book.record_stripping(
            job, builders.stripping(found=f"{n} boards")
        )
    },
    Stage.STRIPPED: {
        "laying": lambda book, job, n: book.record_laying(
            job, builders.laying(temperature_c=Decimal(n % 20))
        ),
        "usages": _use,
    },
    Stage.LAID: {
        "sign_off": lambda book, job, n: book.sign_off(job, SignOff(f"Mrs {n}", TODAY)),
        "invoice": lambda book, job, n: book.issue_invoice(job, builders.SIGNED),
    },
}
"""What is recorded at each stage, in order, before the next."""

ASIDE: tuple[_Act, ...] = (
    _ask_again,
    _correct,
    _survey,
    _quote,
    _accept,
    _use,
    _pay,
    _pay,
    lambda book, job, n: book.issue_deposit_invoice(job, builders.SIGNED),
    lambda book, job, n: book.save_snag(job, Snag(f"snag {n}")),
    lambda book, job, n: book.end_job(job, Closing(list(Ending)[n % 2], f"why {n}", TODAY)),
    lambda book, job, n: book.delete_enquiry(job),
    lambda book, job, n: book.set_price(priced.price(Material.SHINGLE_NAILS, n, "9")),
    lambda book, job, n: book.move_stock(StockMove(Material.SHINGLE_NAILS, "", Decimal(n), TODAY)),
    lambda book, job, n: book.save_trader(replace(book.trader(), phone=f"0{n}")),
    lambda book, job, n: undo(book, job.id or 0),
    lambda book, job, n: undo(book, job.id or 0),
    lambda book, job, n: redo(book, job.id or 0),
    lambda book, job, n: undo(book, list(ListName)[n % len(ListName)]),
    lambda book, job, n: redo(book, list(ListName)[n % len(ListName)]),
)
"""What is done beside that, or against it."""
