"""The days, what stripping found, laying, what was used, and signing off."""

from storage.rows.base import Day, Json, Number, Row, Yes, key, of, one_a


class BookingRow(Row, table=True):
    """A day kept for a job."""

    id: int | None = key()
    job_id: int = of("job")
    day: Day
    hours: Number
    task: str


class StripRow(Row, table=True):
    """What stripping found."""

    job_id: int = one_a("job")
    on: Day
    found: str
    cover: str
    waste_kg: Number | None
    waste_to: str
    transfer_note: str


class ExtraRow(Row, table=True):
    """Work that was not in the quote."""

    id: int | None = key()
    job_id: int = of("job")
    words: str
    quantity: Number
    unit: str
    price: int
    vat_rate: Number
    state: str
    agreed_by: str
    agreed_on: Day | None
    means: str | None
    begun_before: Yes


class LayRow(Row, table=True):
    """The laying day."""

    job_id: int = one_a("job")
    on: Day
    ticks: Json
    temperature_c: Number | None
    wind_mph: Number | None
    deck_dry: Yes | None


class UsageRow(Row, table=True):
    """One element, estimated against taken."""

    id: int | None = key()
    job_id: int = of("job")
    element: str
    unit: str
    estimated: Number
    used: Number
    wasted: Number
    left: Number
    returned: Number


class SnagRow(Row, table=True):
    """Something to put right."""

    id: int | None = key()
    job_id: int = of("job")
    words: str
    done_on: Day | None


class SignoffRow(Row, table=True):
    """The customer's word that it is done."""

    job_id: int = one_a("job")
    who: str
    on: Day
    guarantee_until: Day | None
    guarantee_words: str


class CautionNoteRow(Row, table=True):
    """A caution that was passed, and why."""

    id: int | None = key()
    job_id: int = of("job")
    check_id: str
    words: str
    on: Day
