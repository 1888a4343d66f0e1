"""Documents, payments, prices, stock and the forecast."""

from storage.rows.base import (
    Day,
    Json,
    Number,
    Pence,
    TableRow,
    Yes,
    belongs_to,
    key,
    shares_key_of,
)


class DocumentRow(TableRow, table=True):
    """An issued paper; it never changes."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    series: str
    number: int
    kind: str
    issued_on: Day
    tax_point: Day
    due_on: Day
    gross: Pence
    snapshot: Json
    refers_to: int | None
    cis: Pence = 0
    customer_kind: str = "householder"
    """What the customer was as it was issued."""


class ToSendRow(TableRow, table=True):
    """A paper that was made final before it went out."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    paper: str
    number: int
    sent_on: Day | None


class PaymentRow(TableRow, table=True):
    """Money in; it never changes."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    received_on: Day
    pence: Pence
    method: str
    cis: Pence = 0


class AllocationRow(TableRow, table=True):
    """The part of a payment that settles one document."""

    id: int | None = key()
    payment_id: int = belongs_to("payment")
    document_id: int = belongs_to("document")
    pence: Pence
    cis: Pence = 0


class WriteOffRow(TableRow, table=True):
    """What is owed on an invoice given up, or a write-off taken back; it never changes."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    document_id: int = belongs_to("document")
    on: Day
    pence: Pence
    vat: Pence
    reason: str
    takes_back: int | None


class FreedRow(TableRow, table=True):
    """What was taken off a document again that a payment had settled."""

    id: int | None = key()
    payment_id: int = belongs_to("payment")
    document_id: int = belongs_to("document")
    pence: Pence
    cis: Pence = 0


class CounterEntryRow(TableRow, table=True):
    """What cancels a payment, or pays part of it back; it never changes."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    payment_id: int = belongs_to("payment")
    kind: str
    on: Day
    pence: Pence
    reason: str
    document_id: int = belongs_to("document")


class StatementRow(TableRow, table=True):
    """The statement of what was deducted from a payment."""

    payment_id: int = shares_key_of("payment")
    job_id: int = belongs_to("job")
    on: Day


class ChaseRow(TableRow, table=True):
    """An invoice that is not chased again before a day."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    document_id: int = belongs_to("document")
    on: Day
    until: Day
    promised: Yes
    further: Yes = 0


class PriceRow(TableRow, table=True):
    """What a pack costs from a day on."""

    id: int | None = key()
    material: str
    merchant: str
    per_pack: Number
    net: Pence
    vat_rate: Number
    since: Day
    colour: str
    kg: Number | None
    starting: Yes = 0
    with_vat: Pence | None = None


class StockMoveRow(TableRow, table=True):
    """In or out of stock."""

    id: int | None = key()
    material: str
    colour: str
    quantity: Number
    on: Day
    words: str
    job_id: int | None


class ForecastRow(TableRow, table=True):
    """The forecast for a day."""

    __tablename__ = "outlook"  # the name it was made with

    day: Day = key()
    low_c: Number | None
    wind_mph: Number | None
    gust_mph: Number | None
    version: int = 0
    sky: str
    dry_hours: Json
    rain_from: int | None
