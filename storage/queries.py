"""Rows read from the book: all that belongs to one job, and what is not of any job."""

from base64 import b64decode, b64encode
from collections.abc import Iterable
from datetime import date
from operator import itemgetter

from domain.errors import NotNow
from domain.estimate.nails_chosen import nailed_with
from domain.estimate.quoting import kept_basis
from domain.estimate.reserved import Reservation, reservations_of
from domain.estimate.stock import Price, StockLine, StockMove, replay
from domain.job import CreditElsewhere, Job
from domain.look import Picture
from domain.trader import Trader
from domain.week import Forecast
from storage.errors import Damaged, no_such_job
from storage.mapping.codec import Cell, Record, as_written, value_of
from storage.mapping.whole_job import JobRows, job_of
from storage.rows import (
    AcceptanceRow,
    AllocationRow,
    BookingRow,
    CautionNoteRow,
    ChaseRow,
    CounterEntryRow,
    CustomerRow,
    DocumentRow,
    ExtraRow,
    ForecastRow,
    FreedRow,
    JobRow,
    LayRow,
    LineRow,
    NoteRow,
    OptionRow,
    PaymentRow,
    PictureRow,
    PriceRow,
    QuoteRow,
    RungRow,
    SignoffRow,
    SiteRow,
    SnagRow,
    StatementRow,
    StockMoveRow,
    StripRow,
    SurveyRow,
    TableRow,
    ToSendRow,
    TraderRow,
    UsageRow,
    WriteOffRow,
)
from storage.tables import Tables
from storage.texts import without_control

_AGREED = """
    SELECT job.id, job.ref, site.place, option.basis,
        (SELECT json_extract(deck, '$.nail_mm') FROM survey WHERE job_id = job.id) AS nail
    FROM job
    JOIN site ON site.id = job.site_id
    JOIN quote ON quote.job_id = job.id
    JOIN acceptance ON acceptance.quote_id = quote.id
    JOIN option ON option.id = acceptance.option_id
    WHERE job.ended IS NULL AND NOT EXISTS (SELECT 1 FROM usage WHERE job_id = job.id)
    ORDER BY job.id, quote.number
"""
"""What was agreed of jobs that go on and whose use is not recorded; the newest of a job last."""


_ALL_HERE = """
    SELECT max(settled) = 1 AND min(came = packs) = 1 FROM ordered_for
    JOIN ordered ON ordered.id = ordered_id WHERE job_id = ?
"""
_TO_COME = """
    SELECT merchant FROM ordered_for
    JOIN ordered ON ordered.id = ordered_id WHERE job_id = ? AND came < packs
"""


_OF_A_JOB: tuple[type[TableRow], ...] = (
    *(SurveyRow, QuoteRow, BookingRow, RungRow, StripRow, ExtraRow, LayRow, UsageRow, SignoffRow),
    *(SnagRow, DocumentRow, PaymentRow, CounterEntryRow, StatementRow, ChaseRow, ToSendRow),
    *(CautionNoteRow, NoteRow, WriteOffRow),
)
"""What has rows that tell their job."""


_CREDIT_ELSEWHERE = """
    SELECT * FROM (
        SELECT payment.id, payment.received_on, pence
            - coalesce((SELECT sum(pence) FROM counter_entry WHERE payment_id = payment.id), 0)
            - coalesce((SELECT sum(pence) FROM allocation WHERE payment_id = payment.id), 0)
            + coalesce((SELECT sum(pence) FROM freed WHERE payment_id = payment.id), 0) AS rest,
            payment.cis - coalesce((SELECT sum(cis) FROM allocation
                                    WHERE payment_id = payment.id), 0)
            + coalesce((SELECT sum(cis) FROM freed WHERE payment_id = payment.id), 0) AS cis
        FROM site JOIN job ON job.site_id = site.id JOIN payment ON payment.job_id = job.id
        WHERE customer_id = ? AND job.id <> ? AND ended IS NULL ORDER BY payment.id)
    WHERE rest > 0
"""


def read_job(tables: Tables, job_id: int | None) -> Job:
    """Return a job. Raises :class:`Refused` if there is none of that number."""
    return tables.once(("job", job_id), lambda: _job(tables, job_id))


def _job(tables: Tables, job_id: int | None) -> Job:
    row = tables.read_one(JobRow, job_id)
    if row is None:
        raise no_such_job(job_id)
    rows = _rows_of(tables, row)
    in_hand = bool(row["materials_in_hand"]) or is_in_hand(tables, job_id)
    credit = _credit_elsewhere(tables, rows.customer["id"], job_id)
    return job_of(rows, materials_in_hand=in_hand, credit_elsewhere=credit)


def _credit_elsewhere(
    tables: Tables, customer_id: Cell, job_id: int | None
) -> tuple[CreditElsewhere, ...]:
    """What stands to the customer's credit on their other jobs that go on."""
    found = tables.found(_CREDIT_ELSEWHERE, customer_id, job_id)
    return tuple(
        CreditElsewhere(payment, date.fromisoformat(on), left, cis)
        for payment, on, left, cis in found
    )


def is_in_hand(tables: Tables, job_id: int | None) -> bool:
    """Tell whether all that was ordered for a job is here, and nothing was left to order."""
    return bool(tables.first(_ALL_HERE, job_id))


def goes_through_stock(tables: Tables, job_id: int | None) -> bool:
    """Tell whether all that a job takes comes out of stock, since its order went into it."""
    return bool(tables.first("SELECT max(settled) FROM ordered_for WHERE job_id = ?", job_id))


def demand_come(tables: Tables, job_id: int | None) -> None:
    """Raise :class:`NotNow` while something is on its way that was ordered for a job."""
    merchant = tables.first(_TO_COME, job_id)
    if merchant is not None:
        at = f" at {merchant}" if merchant else ""
        raise NotNow(f"Materials for this job are on order{at}. Mark them as here in Orders first.")


def read_trader(tables: Tables) -> Trader:
    """Return the trader's details; until they are first saved, a beginning."""
    row = tables.read_one(TraderRow, 1)
    return Trader() if row is None else value_of(Trader, row)


def read_picture(tables: Tables, key: str) -> bytes:
    """Return what a picture that the book keeps is made of."""
    row = tables.read_one(PictureRow, key)
    if row is None:
        raise Damaged
    with as_written():
        return b64decode(str(row["content"]), validate=True)


def picture_row(picture: Picture) -> PictureRow:
    """Return the row of a picture."""
    content = b64encode(picture.content).decode()
    return PictureRow(key=picture.key, name=without_control(picture.name), content=content)


def read_prices(tables: Tables) -> tuple[Price, ...]:
    """Return all prices, the newest first."""
    rows = sorted(tables.read(PriceRow), key=itemgetter("since", "id"), reverse=True)
    return tuple(value_of(Price, row) for row in rows)


def read_stock(tables: Tables) -> tuple[StockLine, ...]:
    """Return what stock holds, by material and colour; nothing of what has run out."""
    return replay(read_moves(tables)).lines


def read_moves(tables: Tables) -> tuple[StockMove, ...]:
    """Return every move of stock, in the order in which they were first recorded."""
    return tuple(value_of(StockMove, row) for row in tables.read(StockMoveRow))


def read_reservations(tables: Tables) -> tuple[Reservation, ...]:
    """Return what jobs that are agreed, and whose use is not recorded, take out of stock."""
    newest = {row[0]: row for row in tables.found(_AGREED)}
    nailing = read_trader(tables).nailing
    return tuple(
        reservation
        for job, ref, place, text, nail in newest.values()
        if (basis := kept_basis(text)) is not None
        for reservation in reservations_of(
            job,
            ref,
            place,
            nailed_with(basis.supplies, nail, nailing),
            whole=goes_through_stock(tables, job),
        )
    )


def read_forecasts(tables: Tables, first: date, last: date) -> tuple[Forecast, ...]:
    """Return the recorded forecasts for the days from first to last."""
    found = tables.read_between(ForecastRow, "day", first.isoformat(), last.isoformat())
    return tuple(value_of(Forecast, row) for row in found)


def _rows_of(tables: Tables, job: Record) -> JobRows:
    """Read every row that belongs to a job; of most jobs most tables hold none."""
    of_job = tables.of_job(_OF_A_JOB, job["id"])

    def at_most_one(kind: type[TableRow]) -> Record | None:
        return next(iter(of_job[kind]), None)

    def the_one(kind: type[TableRow], key: Cell) -> Record:
        found = tables.read_one(kind, key)
        if found is None:
            raise Damaged
        return found

    site = the_one(SiteRow, job["site_id"])
    quotes, payments, documents = of_job[QuoteRow], of_job[PaymentRow], of_job[DocumentRow]
    allocations = _of_money(tables, AllocationRow, payments, documents)
    own = {row["id"] for row in documents}
    elsewhere = {row["document_id"] for row in allocations} - own
    options = tables.read_children(OptionRow, "quote_id", _keys(quotes))
    return JobRows(
        job=job,
        site=site,
        customer=the_one(CustomerRow, site["customer_id"]),
        survey=at_most_one(SurveyRow),
        quotes=quotes,
        options=options,
        lines=tables.read_children(LineRow, "option_id", _keys(options)),
        acceptances=tables.read_children(AcceptanceRow, "quote_id", _keys(quotes)),
        bookings=of_job[BookingRow],
        rung=of_job[RungRow],
        strip=at_most_one(StripRow),
        extras=of_job[ExtraRow],
        lay=at_most_one(LayRow),
        usages=of_job[UsageRow],
        signoff=at_most_one(SignoffRow),
        snags=of_job[SnagRow],
        documents=documents,
        payments=payments,
        settled_elsewhere=tables.read_children(DocumentRow, "id", list(elsewhere)),
        allocations=allocations,
        freed=_of_money(tables, FreedRow, payments, documents),
        counter_entries=of_job[CounterEntryRow],
        statements=of_job[StatementRow],
        write_offs=of_job[WriteOffRow],
        chased=of_job[ChaseRow],
        to_send=of_job[ToSendRow],
        notes=of_job[CautionNoteRow],
        own_notes=of_job[NoteRow],
    )


def _of_money(
    tables: Tables, kind: type[TableRow], payments: Iterable[Record], documents: Iterable[Record]
) -> list[Record]:
    """Read what a job's payments settle, and what settles its invoices of another job's."""
    of_payments = tables.read_children(kind, "payment_id", _keys(payments))
    known = {row["id"] for row in of_payments}
    of_documents = tables.read_children(kind, "document_id", _keys(documents))
    return [*of_payments, *(row for row in of_documents if row["id"] not in known)]


def _keys(rows: Iterable[Record]) -> list[Cell]:
    return [row["id"] for row in rows]
