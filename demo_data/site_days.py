"""The story's work on the roof and its money."""

from collections.abc import Callable, Mapping
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from domain.checks.stages import LAYING_TICKS
from domain.estimate.usage import UsageRecord, estimate, leftovers_to_stock, with_used
from domain.job import (
    Cover,
    Extra,
    ExtraState,
    Job,
    Laying,
    Means,
    Outgoing,
    Received,
    SignOff,
    Snag,
    Stage,
    StageMove,
    Stripping,
    Usage,
)
from domain.money import times
from storage.book import Book

_To = Callable[[Job, Stage, date], Job]
_On = Callable[[date], Book]
"""The book on the evening of a day."""

_DRY_DAY_C = (7, 7, 9, 12, 15, 18, 20, 20, 17, 13, 9, 7)
"""Degrees at which a British roof is laid on a dry day, January first; invented."""


def finish(on: _On, told: Mapping[str, Any], job: Job, stage: Stage, day: date, to: _To) -> Job:
    """Strip, lay and sign off, as far as the story goes."""
    cover = Cover.SHEETED if told.get("cover") == "sheeted" else Cover.LAID
    job = on(day).record_stripping(
        job,
        Stripping(
            on=day,
            found=told["found"],
            cover=cover,
            waste_kg=Decimal(told["waste_kg"]),
            waste_to="Harrowmere tip",
            transfer_note=f"WTN {job.ref}",
            suspect=False,
        ),
    )
    if "extra" in told:
        job = on(day).save_extra(job, _extra(told, job))
    job = to(job, Stage.STRIPPED, day)
    if stage is Stage.STRIPPED:
        return job
    day = job.days[-1].day
    job = on(day).record_laying(job, _laying(job, day))
    if told.get("used") == "no":
        return job
    usages = _used(told, job)
    record = UsageRecord(usages, leftovers_to_stock(job, usages, day))
    job = on(day).record_usage(job, record)
    job = to(job, Stage.LAID, day)
    if "snag" in told:
        job = on(day).save_snag(job, Snag(told["snag"], day + timedelta(days=9)))
    return job


def bill(on: _On, told: Mapping[str, Any], job: Job, today: date) -> None:
    """Invoice and payments of a job that is signed off."""
    if job.stage is not Stage.LAID or told["stage"] != "signed off":
        return
    issued = min(job.days[-1].day + timedelta(days=told["lag"]), today)
    book = on(issued)
    job = book.issue_invoice(job, issued)
    number = job.documents[-1].number
    job = book.mark_sent(job, Outgoing.INVOICE, number, issued)
    job = book.sign_off(job, SignOff(job.customer.name, issued))
    job = book.move_stage(job, StageMove(Stage.SIGNED_OFF, issued, {}))
    invoice = job.invoice
    if invoice is None or told["paid"] == "no":
        return
    pence = invoice.gross if told["paid"] == "yes" else invoice.gross // 2
    paid_on = min(issued + timedelta(days=6 + told["lag"] * 3), today)
    received = Received(invoice.id or 0, pence, paid_on, "bank transfer")
    on(paid_on).record_payment(job, received)


def _laying(job: Job, day: date) -> Laying:
    """All looked at, on a dry day as the month has them; the wind differs from job to job."""
    return Laying(
        on=day,
        ticks=frozenset(LAYING_TICKS),
        temperature_c=Decimal(_DRY_DAY_C[day.month - 1]),
        wind_mph=Decimal(5 + int(job.ref) * 5 % 9),
        deck_dry=True,
    )


def _extra(told: Mapping[str, Any], job: Job) -> Extra:
    metres = Decimal(told["extra_m"])
    rate = job.quote.deck_rate if job.quote else 0
    price = times(rate, metres)
    on = job.days[0].day
    agreed = {"agreed_by": job.customer.name, "agreed_on": on, "means": Means.TEXT}
    return Extra(told["extra"], metres, "m", price, Decimal(0), ExtraState.AGREED, **agreed)  # type: ignore[arg-type] # all keys fit


def _used(told: Mapping[str, Any], job: Job) -> tuple[Usage, ...]:
    """The estimate, moved by the story's per cents."""
    quote = job.quote
    rows = estimate(quote.counting.basis) if quote else ()
    return tuple(
        with_used(row, _moved(row.estimated, told.get(_key(row), 100), row.unit)) for row in rows
    )


def _key(row: Usage) -> str:
    return "used_hours" if row.unit == "hour" else f"used_{row.element}"


def _moved(estimated: Decimal, percent: int, unit: str) -> Decimal:
    moved = estimated * percent / 100
    return round(moved * 4) / Decimal(4) if unit == "hour" else Decimal(round(moved))
