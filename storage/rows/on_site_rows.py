"""The days, what stripping found, laying, what was used, and signing off."""

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


class BookingRow(TableRow, table=True):
    """A day kept for a job."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    day: Day
    hours: Number
    task: str


class RungRow(TableRow, table=True):
    """A booked day that stays: the customer was rung about its weather."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    day: Day
    on: Day
    forecast: str


class StripRow(TableRow, table=True):
    """What stripping found."""

    job_id: int = shares_key_of("job")
    on: Day
    found: str
    cover: str
    waste_kg: Number | None
    waste_to: str
    transfer_note: str
    suspect: Yes | None = None


class ExtraRow(TableRow, table=True):
    """Work that was not in the quote."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    words: str
    quantity: Number
    unit: str
    price: Pence
    vat_rate: Number
    state: str
    agreed_by: str
    agreed_on: Day | None
    means: str | None
    begun_before: Yes
    with_vat: Yes = 0


class LayRow(TableRow, table=True):
    """The laying day."""

    job_id: int = shares_key_of("job")
    on: Day
    ticks: Json
    temperature_c: Number | None
    wind_mph: Number | None
    deck_dry: Yes | None


class UsageRow(TableRow, table=True):
    """One element, estimated against taken."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    element: str
    unit: str
    estimated: Number
    used: Number
    wasted: Number
    left: Number
    returned: Number


class SnagRow(TableRow, table=True):
    """Something to put right, and what that took."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    words: str
    done_on: Day | None
    hours: Number
    materials: str
    cost: Pence


class SignoffRow(TableRow, table=True):
    """The customer's word that it is done."""

    job_id: int = shares_key_of("job")
    who: str
    on: Day
    guarantee_until: Day | None
    guarantee_words: str


class CautionNoteRow(TableRow, table=True):
    """A caution that was passed, and why."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    check_id: str
    words: str
    on: Day


class NoteRow(TableRow, table=True):
    """Something that the trader noted of a job."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    words: str
    on: Day


class PutOffRow(TableRow, table=True):
    """A kind of task of a job that is not shown in Tonight before a day."""

    __tablename__ = "put_off"

    id: int | None = key()
    job_id: int = belongs_to("job")
    kind: str
    until: Day
