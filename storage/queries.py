"""Rows read from the book: all that belongs to one job, and what is not of any job."""

from collections.abc import Sequence
from datetime import date
from typing import Any, TypeVar

from sqlmodel import Session, col, desc, select

from domain.estimate.quoting import kept_basis
from domain.estimate.reserved import Reservation, reservations_of
from domain.estimate.stock import Price, StockLine, StockMove, replay
from domain.job import Job
from domain.trader import Trader
from domain.week import Forecast
from storage.errors import no_such_job
from storage.mapping.codec import value_of
from storage.mapping.whole_job import JobRows, job_of
from storage.rows import (
    AcceptanceRow,
    AllocationRow,
    BookingRow,
    CautionNoteRow,
    CustomerRow,
    DocumentRow,
    ExtraRow,
    ForecastRow,
    JobRow,
    LayRow,
    LineRow,
    OptionRow,
    PaymentRow,
    PriceRow,
    QuoteRow,
    SignoffRow,
    SiteRow,
    SnagRow,
    StockMoveRow,
    StripRow,
    SurveyRow,
    TableRow,
    TraderRow,
    UsageRow,
)
from storage.transaction import rows_of_table

R = TypeVar("R", bound=TableRow)


def read_job(session: Session, job_id: int | None) -> Job:
    """Return a job. Raises :class:`Refused` if there is none of that number."""
    row = session.get(JobRow, job_id)
    if row is None:
        raise no_such_job(job_id)
    return job_of(_rows_of(session, row))


def read_trader(session: Session) -> Trader:
    """Return the trader's details; until they are first saved, a beginning."""
    row = session.get(TraderRow, 1)
    return Trader() if row is None else value_of(Trader, row.model_dump())


def read_prices(session: Session) -> tuple[Price, ...]:
    """Return all prices, the newest first."""
    wanted = select(PriceRow).order_by(desc(PriceRow.since), desc(PriceRow.id))
    return tuple(value_of(Price, row.model_dump()) for row in session.exec(wanted))


def read_stock(session: Session) -> tuple[StockLine, ...]:
    """Return what stock holds, by material and colour; nothing of what has run out."""
    return replay(read_moves(session)).lines


def read_moves(session: Session) -> tuple[StockMove, ...]:
    """Return every move of stock, in the order in which they were first recorded."""
    return tuple(
        value_of(StockMove, row.model_dump()) for row in rows_of_table(session, StockMoveRow)
    )


def read_reservations(session: Session) -> tuple[Reservation, ...]:
    """Return what jobs that are agreed, and whose use is not recorded, take out of stock."""
    recorded = select(UsageRow.job_id)
    agreed = (
        select(JobRow, SiteRow.place, OptionRow.basis)
        .join(SiteRow, col(SiteRow.id) == JobRow.site_id)
        .join(QuoteRow, col(QuoteRow.job_id) == JobRow.id)
        .join(AcceptanceRow, col(AcceptanceRow.quote_id) == QuoteRow.id)
        .join(OptionRow, col(OptionRow.id) == AcceptanceRow.option_id)
        .where(col(JobRow.ended).is_(None), col(JobRow.id).not_in(recorded))
        .order_by(col(JobRow.id), col(QuoteRow.number))
    )
    newest = {job.id: (job, place, text) for job, place, text in session.exec(agreed)}
    return tuple(
        reservation
        for job, place, text in newest.values()
        if (basis := kept_basis(text)) is not None
        for reservation in reservations_of(job.id or 0, job.ref, place, basis)
    )


def read_forecasts(session: Session, first: date, last: date) -> tuple[Forecast, ...]:
    """Return the recorded forecasts for the days from first to last."""
    within = col(ForecastRow.day).between(first.isoformat(), last.isoformat())
    found = session.exec(select(ForecastRow).where(within).order_by(ForecastRow.day))
    return tuple(value_of(Forecast, row.model_dump()) for row in found)


def _rows_of(session: Session, job: JobRow) -> JobRows:
    """Read every row that belongs to a job."""

    def of_job(kind: type[R]) -> Sequence[R]:
        return rows_of_table(session, kind, job_id=job.id)

    site = session.get_one(SiteRow, job.site_id)
    quotes = of_job(QuoteRow)
    options = _children(session, OptionRow, OptionRow.quote_id, quotes)
    payments = of_job(PaymentRow)
    return JobRows(
        job=job,
        site=site,
        customer=session.get_one(CustomerRow, site.customer_id),
        survey=session.get(SurveyRow, job.id),
        quotes=quotes,
        options=options,
        lines=_children(session, LineRow, LineRow.option_id, options),
        acceptances=_children(session, AcceptanceRow, AcceptanceRow.quote_id, quotes),
        bookings=of_job(BookingRow),
        strip=session.get(StripRow, job.id),
        extras=of_job(ExtraRow),
        lay=session.get(LayRow, job.id),
        usages=of_job(UsageRow),
        signoff=session.get(SignoffRow, job.id),
        snags=of_job(SnagRow),
        documents=of_job(DocumentRow),
        payments=payments,
        allocations=_children(session, AllocationRow, AllocationRow.payment_id, payments),
        notes=of_job(CautionNoteRow),
    )


def _children(session: Session, kind: type[R], parent: Any, parents: Sequence[Any]) -> Sequence[R]:
    """Read the rows that belong to any of the parents, in the order of their keys."""
    if not parents:
        return ()
    wanted = select(kind).where(col(parent).in_([row.id for row in parents]))
    return session.exec(wanted.order_by(*kind.__table__.primary_key)).all()  # type: ignore[attr-defined]
