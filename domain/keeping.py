"""How long what is recorded has to be kept, and which enquiry may be deleted."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from domain.books.purchase import Purchase
from domain.days.calendar import months_after, show_in_full
from domain.errors import NotNow
from domain.job import Document, Job, Stage
from domain.money import show_money
from domain.tax.years import tax_year_of

_YEARS = 5
_VAT_YEARS = 6


@dataclass(frozen=True, slots=True)
class Kept:
    """What has to be kept for the tax, and until when."""

    words: str
    """What it is, as a sentence begins: "Invoice INV-7"."""
    on: date
    until: date
    """The last day on which it has to be there."""


def keep_until(on: date, *, holds_vat: bool = False) -> date:
    """The last day that what belongs to the tax year of a day has to be kept.

    At least five years after the 31 January submission deadline of the tax year; gov.uk, "Business
    records if you're self-employed: how long to keep your records": quoted. A record of VAT is
    kept six years from its own day too, whichever is later: from memory.
    """
    deadline = tax_year_of(on).deadline
    kept = deadline.replace(year=deadline.year + _YEARS)
    return max(kept, months_after(on, 12 * _VAT_YEARS)) if holds_vat else kept


def kept_of(job: Job) -> tuple[Kept, ...]:
    """What of a job has to be kept: its papers and payments, what is kept longest first."""
    kept = [
        Kept(words, on, keep_until(on, holds_vat=holds_vat))
        for words, on, holds_vat in _papers_and_payments(job)
    ]
    return tuple(sorted(kept, key=lambda each: each.until, reverse=True))


def demand_deletable(job: Job, today: date) -> None:
    """Raise :class:`NotNow` unless nothing came of an enquiry.

    What was sent, issued or paid is kept, and what was done on the roof is no mere enquiry.
    """
    kept = next(iter(kept_of(job)), None)
    if kept is not None and kept.until >= today:
        raise NotNow(f"{kept.words} has to be kept until {show_in_full(kept.until)}.")
    if kept is not None:
        raise NotNow(f"{kept.words} stays: papers and payments are never deleted.")
    if _is_begun(job):
        raise NotNow(
            f"Work is recorded on {job.ref}, so it stays: close it as declined or called off."
        )


def demand_nothing_bought(purchases: Iterable[Purchase], today: date) -> None:
    """Raise :class:`NotNow` while a purchase is in the books for a job: it stays there."""
    for bought in purchases:
        until = keep_until(bought.on, holds_vat=bool(bought.vat))
        kept = f"has to be kept until {show_in_full(until)}" if until >= today else "is kept"
        raise NotNow(
            f"{show_money(bought.pence)} at {bought.merchant} of {show_in_full(bought.on)} was for "
            f"it, and {kept}: put it to no job in the books first."
        )


def is_deletable(job: Job, today: date) -> bool:
    """Whether nothing came of an enquiry: :func:`demand_deletable` says why not."""
    try:
        demand_deletable(job, today)
    except NotNow:
        return False
    return True


def _papers_and_payments(job: Job) -> Iterator[tuple[str, date, bool]]:
    """Each as a sentence begins, its day, and whether it is a record of VAT."""
    for document in job.documents:
        kind = "invoice" if document.kind.asks else document.kind
        yield f"{kind.capitalize()} {document.label}", document.issued_on, _holds_vat(document)
    for payment in job.payments:
        yield f"The payment of {show_in_full(payment.received_on)}", payment.received_on, False
    for quote in job.quotes:
        if quote.sent_on is not None:
            yield f"Quote {quote.number}, sent {show_in_full(quote.sent_on)},", quote.sent_on, False


def _holds_vat(document: Document) -> bool:
    """Whether its trader was registered when it was issued."""
    return bool(json.loads(document.snapshot).get("seller", {}).get("vat_number"))


def _is_begun(job: Job) -> bool:
    """Whether it is past the survey, or anything was done or found on the roof."""
    single = (job.stripping, job.laying, job.sign_off)
    several = (job.extras, job.usages, job.snags)
    return job.stage.rank > Stage.SURVEY.rank or any(single) or any(several)
