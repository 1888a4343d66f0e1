"""The trader's details, rates and limits: one value, changed on its own screen."""

from dataclasses import dataclass, field
from datetime import date, time
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from domain.look import Look
from domain.money import Pence
from domain.snapshot import kept_as


class VatStanding(StrEnum):
    """How the trader stands to VAT."""

    NOT_REGISTERED = "not registered"
    STANDARD = "standard"


class CisStanding(StrEnum):
    """How the trader stands to CIS as a subcontractor: what a contractor deducts hangs on it."""

    GROSS = "gross"
    """Holds gross payment status."""
    REGISTERED = "registered"
    NOT_MATCHED = "not matched"
    """Not registered, or HMRC could not match what the contractor gave."""


@dataclass(frozen=True, slots=True)
class LabourRates:
    """Hours a unit of work: the trader's own. Defaults: common practice."""

    set_up: Decimal = Decimal("1.0")
    """Hours a job: ladders, tarpaulins, unloading, loading."""
    strip: Decimal = Decimal("0.15")
    """Hours a m² and layer of old covering."""
    deck: Decimal = Decimal("0.25")
    """Hours a metre of board replaced."""
    underlay: Decimal = Decimal("0.06")
    """Hours a m² of roof."""
    edges: Decimal = Decimal("0.08")
    """Hours a metre of eaves, verge and top edge."""
    courses: Decimal = Decimal("0.35")
    """Hours a m² of shingles laid."""
    felt: Decimal = Decimal("0.2")
    """Hours a m² of felt laid."""
    ridges: Decimal = Decimal("0.25")
    """Hours a metre of ridge."""
    clearing: Decimal = Decimal("0.05")
    """Hours a m² of roof."""


@dataclass(frozen=True, slots=True)
class Rates:
    """What the trader charges. Defaults are a beginning, to be replaced by the trader's own."""

    hour: Pence = 28_00
    """Net, for an hour of labour."""
    mile: Pence = 55
    """Net, for a mile driven."""
    disposal_kg: Pence = 30
    """Net, for a kilogram of old covering taken away."""
    deck_metre: Pence = 14_00
    """Net, for a metre of board replaced, board and work together: nothing comes on top of it."""
    contingency: Decimal = Decimal(5)
    """Per cent on cost."""
    markup: Decimal = Decimal(15)
    """Per cent on the cost of materials."""
    minimum_charge: Pence = field(default=180_00, metadata=kept_as("least_charge"))
    """Net; a job is never quoted below it."""
    labour: LabourRates = field(default_factory=LabourRates)
    confirmed: tuple[str, ...] = ()
    """Which of them the trader has said are right as they began, by name, those of labour too."""


@dataclass(frozen=True, slots=True)
class WeatherLimits:
    """Outside these nothing is laid. Common practice unless a source is named."""

    least_c: Decimal = Decimal(5)
    """Above this in the air."""
    lay_mph: Decimal = Decimal(17)
    """Average wind under this to lay."""
    never_mph: Decimal = Decimal(23)
    """Never over this on a roof (HSE, construction FAQ on work at height: Beaufort 5)."""
    gust_factor: Decimal = Decimal("1.5")
    """Gusts half as much again as the mean limits."""
    underlay_rest_min: int = 30
    """Underlay is unrolled so many minutes before it is needed."""
    drying_min: int = 60
    """After rain a deck dries so many minutes before it is worked on."""


@dataclass(frozen=True, slots=True)
class Nailing:
    """What the trader nails with; whole millimetres. Common practice."""

    shingle_nail: int = 20
    """Length."""
    felt_nail: int = 13
    """Length."""
    edge_centres: int = 50
    """Between the nails of an edge strip."""


@dataclass(frozen=True, slots=True)
class Van:
    """What can be carried at a time."""

    payload_kg: Decimal | None = None
    """What the van may carry; None while it is not recorded."""
    sack_kg: Decimal = Decimal(25)
    """What a rubble sack holds and a person can lift. Common practice."""

    @property
    def limit(self) -> Fraction | None:
        """The payload, exact."""
        return None if self.payload_kg is None else Fraction(self.payload_kg)


@dataclass(frozen=True, slots=True)
class Trader:
    """The one person whose book this is."""

    name: str = ""
    trading_as: str = ""
    address: str = ""
    """Lines separated by line breaks."""
    phone: str = ""
    email: str = ""
    bank_name: str = ""
    """The name on the account."""
    sort_code: str = ""
    account: str = ""
    vat_standing: VatStanding = VatStanding.NOT_REGISTERED
    vat_number: str = ""
    utr: str = ""
    cis_standing: CisStanding = CisStanding.NOT_MATCHED
    waste_carrier: str = ""
    """Registration (upper tier for one's own construction waste in England)."""
    waste_expires: date | None = None
    liability_policy: str = ""
    liability_expires: date | None = None
    """Of the public liability policy."""
    employers_policy: str = ""
    """Employer's liability: a helper needs it."""
    employers_expires: date | None = None
    days_to_pay: int = 14
    quote_days: int = 30
    """How many days a quote holds."""
    hours_a_day: Decimal = Decimal(8)
    working_days: frozenset[int] = frozenset({0, 1, 2, 3, 4})
    """Weekdays, Monday is 0."""
    work_from: time = time(7, 30)
    """When work on a roof begins at the earliest."""
    work_until: time = time(18)
    """When it ends at the latest."""
    nation: str = "England"
    """For bank holidays: England, Wales, Scotland or Northern Ireland."""
    rates: Rates = field(default_factory=Rates)
    limits: WeatherLimits = field(default_factory=WeatherLimits)
    van: Van = field(default_factory=Van)
    nailing: Nailing = field(default_factory=Nailing)
    backup_folder: str = ""
    """Where backups are copied besides: a stick, a synced folder. Empty for none."""
    look: Look = field(default_factory=Look)
    """Of the papers that customers see."""
    guarantee_years: int = 0
    """For how long the trader guarantees the work, from when it is signed off; 0 for not at all."""
    expense_headings: bool = False
    """Whether expenses are kept under the headings of the quarterly update, or as one sum."""
    version: int = 0

    @property
    def vat_registered(self) -> bool:
        """Whether VAT stands on this trader's invoices."""
        return self.vat_standing is not VatStanding.NOT_REGISTERED

    @property
    def heading(self) -> str:
        """The name papers are headed with."""
        return self.trading_as or self.name
