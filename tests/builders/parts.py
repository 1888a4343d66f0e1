"""The values a job is made of, each with sensible defaults."""

from dataclasses import replace
from datetime import date, time
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Any

from domain.checks.stages import LAYING_TICKS
from domain.coverings.materials import Material
from domain.estimate.basis import PricingBasis, hours_for
from domain.estimate.pricing import surveyed_quantities
from domain.job import (
    NONE_THERE,
    Acceptance,
    AccessPlan,
    Around,
    BookedDay,
    Cover,
    CoveringChoice,
    Customer,
    Deck,
    DeckKind,
    DeckState,
    Document,
    DocumentKind,
    Edges,
    Enquiry,
    Laying,
    Line,
    LineKind,
    MadeAt,
    Means,
    OldCovering,
    OldKind,
    Option,
    Payment,
    Quote,
    Site,
    Stripping,
    Survey,
    Suspicion,
    Usage,
)
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import RoofMeasures
from domain.snapshot import to_json
from domain.starting_rates import CHARGES, WORK_RATES, with_confirmed
from domain.trader import Rates, Trader
from domain.units import Length

RECEIVED = date(2026, 6, 1)
VISIT = date(2026, 6, 3)
SENT = date(2026, 6, 4)
VALID_UNTIL = date(2026, 7, 4)
AGREED = date(2026, 6, 8)
LAY_DAY = date(2026, 6, 24)
"""A Wednesday, two days after the right to cancel has ended."""
SIGNED = date(2026, 6, 25)
DUE = date(2026, 7, 9)


def mm(length: int) -> Length:
    """A length as if typed in millimetres."""
    return Length(Fraction(length), f"{length} mm")


def trader(**changes: Any) -> Trader:
    """A trader who is not registered for VAT, all papers in force, the rates their own."""
    plain = Trader(
        name="Robin Thorne",
        trading_as="Thorne Shed Roofs",
        address="3 Tannery Row\nOsmerton",
        phone="01632 960100",
        email="robin@thorne.example",
        bank_name="R Thorne",
        sort_code="00-00-00",
        account="12345678",
        waste_carrier="CBDU000001",
        waste_expires=date(2028, 3, 31),
        liability_policy="PL 0001",
        liability_expires=date(2027, 3, 31),
        backup_folder="/nowhere/stick",
        rates=with_confirmed(Rates(), (*CHARGES, *WORK_RATES)),
    )
    return replace(plain, **changes)


def customer(**changes: Any) -> Customer:
    """A householder."""
    plain = Customer(
        name="Mrs Adeyemi",
        address="7 Birch Lane\nOsmerton",
        phone="01632 960117",
        email="adeyemi@example.com",
    )
    return replace(plain, **changes)


def site(**changes: Any) -> Site:
    """A shed behind the customer's house."""
    return replace(Site(place="Birch Lane", access="side gate, dog"), **changes)


def enquiry(**changes: Any) -> Enquiry:
    """A call that ended with a time for the visit."""
    plain = Enquiry(
        received_on=RECEIVED,
        said="felt torn at the ridge, drips inside",
        nominal="8 x 6 ft",
        visit_on=VISIT,
        visit_at=time(17, 30),
    )
    return replace(plain, **changes)


def measures(**changes: Any) -> RoofMeasures:
    """An apex of 2.4 m by 1.8 m, rise 450 mm."""
    plain = RoofMeasures(
        form=RoofForm.APEX,
        length=mm(2400),
        span=mm(1800),
        rise=mm(450),
        eaves_overhang=mm(50),
        verge_overhang=mm(60),
    )
    return replace(plain, **changes)


def survey(**changes: Any) -> Survey:
    """A survey with nothing left open and nothing amiss."""
    plain = Survey(
        measures=measures(),
        covering=CoveringChoice("square-butt", "slate grey"),
        deck=Deck(
            kind=DeckKind.BOARDS,
            thickness=mm(14),
            profile="tongue and groove",
            cover_width=mm(112),
            seen_above=True,
            seen_below=True,
            nails_inside=True,
            state=DeckState.SOUND,
            works_off=True,
        ),
        old=OldCovering(kind=OldKind.FELT, layers=1, suspicion=Suspicion.AFTER),
        edges=Edges(
            barge_boards="sound",
            fascia="sound",
            finials="none",
            drip_trim="none",
            gutter="none",
            lined=False,
        ),
        around=Around(NONE_THERE, NONE_THERE, NONE_THERE, NONE_THERE),
        access=AccessPlan(means="ladder, hop-up", two_people=False, photos="four, of 3 June"),
        visited_on=VISIT,
    )
    return replace(plain, **changes)


def lines() -> tuple[Line, ...]:
    """Lines of an option that come to £486.00, no VAT."""
    return tuple(
        Line(kind, words, Decimal(quantity), unit, cost, price, Decimal(0))
        for kind, words, quantity, unit, cost, price in (
            (LineKind.MATERIALS, "square butt shingles", "3", "pack", 96_00, 115_92),
            (LineKind.MATERIALS, "underlay", "1", "roll", 22_00, 26_57),
            (LineKind.LABOUR, "strip and re-cover", "9.5", "hour", 266_00, 279_30),
            (LineKind.TRAVEL, "travel", "28", "mile", 15_40, 16_17),
            (LineKind.DISPOSAL, "old covering taken away", "152", "kg", 45_75, 48_04),
        )
    )


def option(**changes: Any) -> Option:
    """Square butt shingles, £486.00, priced from the survey as it stands here."""
    plain = Option("square-butt", "slate grey", lines(), basis(), id=1)
    return replace(plain, **changes)


@cache
def basis(of: Survey | None = None) -> str:
    """What a survey was priced from, at no prices: as kept with a quote."""
    seen, rates = of or survey(), Rates()
    quantities = surveyed_quantities(build_roof(seen.measures), seen)
    return to_json(
        PricingBasis(
            covering="square-butt",
            colour="slate grey",
            vat_registered=False,
            vat_rate=Decimal(0),
            rates=rates,
            quantities=quantities,
            supplies=(),
            hours=hours_for(quantities, rates.labour, Material("square-butt")),
            miles=Decimal(14),
            days=2,
        )
    )


def draft(**changes: Any) -> Quote:
    """A quote not sent yet."""
    plain = Quote(number=1, options=(option(),), drafted_on=VISIT, deck_rate=14_00, id=1)
    return replace(plain, **changes)


def sent(**changes: Any) -> Quote:
    """A quote sent on 4 June that valid until 4 July."""
    return replace(draft(sent_on=SENT, valid_until=VALID_UNTIL), **changes)


def acceptance(**changes: Any) -> Acceptance:
    """Signed at the customer's home, the notice given and the materials there the same day."""
    plain = Acceptance(
        option_id=1,
        who="Mrs Adeyemi",
        on=AGREED,
        means=Means.SIGNED,
        made_at=MadeAt.AWAY,
        notice_on=AGREED,
        request_means=Means.SIGNED,
        materials_on=AGREED,
    )
    return replace(plain, **changes)


def booked_day(**changes: Any) -> BookedDay:
    """Wednesday 24 June, eight hours."""
    return replace(BookedDay(LAY_DAY, Decimal(8), id=1), **changes)


def stripping(**changes: Any) -> Stripping:
    """Nothing found, laid the same day, the waste accounted for."""
    plain = Stripping(
        on=LAY_DAY,
        found="nothing",
        cover=Cover.LAID,
        waste_kg=Decimal("18.7"),
        waste_to="Osmerton tip",
        transfer_note="T 0117",
        suspect=False,
    )
    return replace(plain, **changes)


def laying(**changes: Any) -> Laying:
    """Everything looked at, in fair weather."""
    plain = Laying(
        on=LAY_DAY,
        ticks=frozenset(LAYING_TICKS),
        temperature_c=Decimal(16),
        wind_mph=Decimal(8),
        deck_dry=True,
    )
    return replace(plain, **changes)


def usages() -> tuple[Usage, ...]:
    """Used as estimated, one strip left over."""
    return (
        Usage("strips", "strip", Decimal(55), Decimal(54), left=Decimal(1), id=1),
        Usage("underlay", "m", Decimal("10.4"), Decimal("10.4"), id=2),
        Usage("hours-strip", "hour", Decimal("1.5"), Decimal("1.5"), id=3),
        Usage("hours-lay", "hour", Decimal(6), Decimal("6.5"), id=4),
    )


def invoice(**changes: Any) -> Document:
    """Invoice INV-42 over £486.00, not paid."""
    plain = Document(
        kind=DocumentKind.INVOICE,
        number=42,
        issued_on=SIGNED,
        tax_point=LAY_DAY,
        due_on=DUE,
        gross=486_00,
        snapshot="{}",
        id=1,
    )
    return replace(plain, **changes)


def payment(**changes: Any) -> Payment:
    """Total sum by bank transfer."""
    return replace(Payment(DUE, 486_00, "bank transfer", id=1), **changes)
