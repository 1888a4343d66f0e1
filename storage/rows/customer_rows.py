"""The trader, the customers and where the roofs are."""

from sqlmodel import Field

from storage.rows.base import Day, Json, Number, TableRow, Time, Yes, belongs_to, key


class TraderRow(TableRow, table=True):
    """The one person whose book this is: there is one row."""

    id: int | None = key()
    name: str
    trading_as: str
    address: str
    phone: str
    email: str
    bank_name: str
    sort_code: str
    account: str
    vat_standing: str
    vat_number: str
    utr: str
    waste_carrier: str
    waste_expires: Day | None
    liability_policy: str
    liability_expires: Day | None
    days_to_pay: int
    quote_days: int
    hours_a_day: Number
    working_days: Json
    nation: str
    rates: Json
    limits: Json
    van: Json
    version: int = 0
    backup_folder: str = ""
    work_from: Time = "07:30:00"
    work_until: Time = "18:00:00"
    look: Json = "{}"
    nailing: Json = "{}"
    employers_policy: str = ""
    employers_expires: Day | None = None
    expense_headings: Yes = 0
    cis_standing: str = "not matched"
    guarantee_years: int = 0


class PictureRow(TableRow, table=True):
    """A picture on papers, in base 64; it never changes and never goes."""

    key: str = Field(primary_key=True)
    name: str
    content: str


class CustomerRow(TableRow, table=True):
    """A person or firm that asks for work."""

    id: int | None = key()
    name: str
    kind: str
    address: str
    phone: str
    email: str
    version: int = 0
    kind_asked: Yes = 1
    tax_reference: str = ""
    vat_number: str = ""
    in_cis: Yes = 1
    end_user_on: Day | None = None


class SiteRow(TableRow, table=True):
    """Where a roof is."""

    id: int | None = key()
    customer_id: int = belongs_to("customer")
    place: str
    address: str
    access: str
    ruled_out: str
    version: int = 0
