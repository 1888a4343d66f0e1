"""The job with its enquiry, the survey, what was offered and what was accepted."""

from storage.rows.base import (
    Day,
    Json,
    Number,
    Pence,
    TableRow,
    Time,
    Yes,
    belongs_to,
    key,
    shares_key_of,
)


class JobRow(TableRow, table=True):
    """A job and how far it has come."""

    id: int | None = key()
    ref: str
    site_id: int = belongs_to("site")
    stage: str
    ended: str | None = None
    ended_why: str = ""
    materials_in_hand: Yes = 0
    received_on: Day
    said: str
    building: str
    nominal: str
    rough: Pence | None
    visit_on: Day | None
    visit_at: Time | None
    version: int = 0
    on_foundation: Yes = 1
    told_on: Day | None = None
    kept: Pence = 0
    kept_why: str = ""
    vat_terms: str | None = None
    vat_agreed_on: Day | None = None


class SurveyRow(TableRow, table=True):
    """What was measured and seen."""

    job_id: int = shares_key_of("job")
    roof: Json
    covering: Json | None
    deck: Json
    old_covering: Json
    edges: Json
    access: Json
    visited_on: Day | None
    around: Json = "{}"


class QuoteRow(TableRow, table=True):
    """An offer; frozen once it was sent."""

    id: int | None = key()
    job_id: int = belongs_to("job")
    number: int
    drafted_on: Day
    deposit: Pence
    deck_rate: Pence
    sent_on: Day | None
    holds_until: Day | None
    sent_as: str = ""


class OptionRow(TableRow, table=True):
    """One covering of a quote; ``gross`` is what it comes to, worked out when it was saved."""

    id: int | None = key()
    quote_id: int = belongs_to("quote")
    covering: str
    colour: str
    basis: str
    gross: Pence
    plans: str = ""
    own_gross: Pence | None = None


class LineRow(TableRow, table=True):
    """One line of an option."""

    id: int | None = key()
    option_id: int = belongs_to("option")
    kind: str
    words: str
    quantity: Number
    unit: str
    cost: Pence
    price: Pence
    vat_rate: Number


class AcceptanceRow(TableRow, table=True):
    """The customer's yes to a quote."""

    quote_id: int = shares_key_of("quote")
    option_id: int = belongs_to("option")
    who: str
    on: Day
    means: str
    made_at: str
    notice_on: Day | None
    early_request_on: Day | None
    knows_right_ends: Yes
    request_means: str | None = None
    materials_on: Day | None = None
    urgent_why: str = ""
