"""An enquiry as it is typed: who, where, what they say, the visit."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import partial

from domain.accounts.identifiers import read_vat_number
from domain.contacts import read_email, read_place, read_telephone
from domain.days.clock import read_time, say_time, show_time
from domain.days.dates import read_past_date, read_ruled_out
from domain.errors import Refused
from domain.estimate.rough_price import read_rough_roof, rough_price
from domain.estimate.supplies import PricesAndStock
from domain.job import Customer, CustomerKind, Enquiry, EnquiryRecord, Job, Site
from domain.money import read_rough_money
from domain.tone import Tone
from domain.trader import Trader
from tui.frame.safe_text import one_line
from tui.widgets.field_row import Field
from tui.widgets.field_values import (
    address_typed,
    date_typed,
    money_typed,
    read_optional_date,
)
from tui.widgets.form import YES_NO
from tui.widgets.kept_lines import kept, kept_address
from tui.widgets.line_input import Takes

BUILDINGS = ("shed", "summerhouse", "workshop", "garage")

WHO = Field("name", "Who", example="Mrs Adeyemi", section="Who is asking")
KIND = Field("kind", "Customer is", choices=tuple(CustomerKind))
PHONE = Field("phone", "Telephone", example="01632 960117")
EMAIL = Field("email", "E-mail", example="ann@example.com")
PLACE = Field("place", "Place", hint="short name, or address and postcode")
BUILDING = Field("building", "Building", choices=BUILDINGS, section="What they say")
NOMINAL = Field("nominal", "Rough size", "→", example="8x6, or 8x6 pent", takes=Takes.FIGURE)
ROUGH = Field("rough", "Rough price given", "£", example="about 600", takes=Takes.FIGURE)
SAID = Field("said", "What they say", example="felt torn at the ridge")
VISIT_ON = Field(
    "visit_on",
    "Visit on",
    example="thu, next thu or 25 Nov",
    section="The visit",
    takes=Takes.COMING,
)
VISIT_AT = Field("visit_at", "Visit at", "→", example="9.30 or half 2", takes=Takes.FIGURE)

OF_A_CONTRACTOR = ("kind", CustomerKind.CONTRACTOR.value)
CONTRACTOR = (
    Field(
        "tax_reference",
        "Their reference",
        example="123/AB45678",
        only_for=OF_A_CONTRACTOR,
    ),
    Field("in_cis", "Registered for CIS", choices=YES_NO, only_for=OF_A_CONTRACTOR),
    Field(
        "their_vat",
        "Their VAT number",
        hint="if registered",
        only_for=OF_A_CONTRACTOR,
        takes=Takes.FIGURE,
    ),
    Field(
        "end_user_on",
        "End user, told on",
        hint="in writing; empty if not",
        only_for=OF_A_CONTRACTOR,
        takes=Takes.DONE,
    ),
    # "garden sheds if based on a foundation": FA 2004 s. 74(2)(a), HMRC CISR14100, read.
    Field(
        "on_foundation",
        "On a foundation",
        "a shed: CIS only on one",
        choices=YES_NO,
        only_for=OF_A_CONTRACTOR,
    ),
)

ON_THE_PHONE = (
    replace(WHO, section=""), PLACE, PHONE, KIND, BUILDING,
    NOMINAL, ROUGH, SAID, VISIT_ON, VISIT_AT, EMAIL,
)  # fmt: skip
"""What is asked while they are on the telephone, in the order in which people say it."""
WHOLE = (
    WHO,
    PHONE,
    KIND,
    *CONTRACTOR,
    EMAIL,
    Field("address", "Their address", example="7 Birch Lane, Osmerton, SY8 1AA"),
    replace(PLACE, section="Where the roof is"),
    Field("site_address", "Its address", hint="if it is not theirs"),
    Field("access", "Access", example="side gate, dog"),
    Field("ruled_out", "Days that don't suit", example="Mondays, 3 December 2026"),
    BUILDING,
    NOMINAL,
    ROUGH,
    SAID,
    VISIT_ON,
    VISIT_AT,
)
"""All that is recorded of an enquiry."""


def new_enquiry(today: date) -> EnquiryRecord:
    """What an enquiry is before anything was typed: today's, about a shed."""
    return EnquiryRecord(
        Customer(name="", kind_asked=False), Site(place=""), Enquiry(received_on=today)
    )


def enquiry_of(job: Job) -> EnquiryRecord:
    """What is recorded of a job's enquiry."""
    return EnquiryRecord(job.customer, job.site, job.enquiry)


def enquiry_typed(asked: EnquiryRecord) -> dict[str, str]:
    """Return what stands in the fields for it."""
    customer, site, enquiry = asked.customer, asked.site, asked.enquiry
    return {
        "name": customer.name,
        "kind": customer.kind.value if customer.kind_asked else "",
        "phone": customer.phone,
        "email": customer.email,
        "address": address_typed(customer.address),
        "place": site.place,
        "site_address": address_typed(site.address),
        "access": site.access,
        "ruled_out": site.ruled_out,
        "building": enquiry.building,
        "nominal": enquiry.nominal,
        "rough": "" if enquiry.rough is None else money_typed(enquiry.rough),
        "said": enquiry.said,
        "visit_on": date_typed(enquiry.visit_on),
        "visit_at": show_time(enquiry.visit_at) if enquiry.visit_at else "",
        "tax_reference": customer.tax_reference,
        "in_cis": YES_NO[not customer.in_cis],
        "their_vat": customer.vat_number,
        "end_user_on": date_typed(customer.end_user_on),
        "on_foundation": YES_NO[not enquiry.on_foundation],
    }


def read_enquiry(values: Mapping[str, str], before: EnquiryRecord, today: date) -> EnquiryRecord:
    """Return what was typed, on top of what was there before; a field not asked for keeps its text.

    It needs a place, and a name or a number; of an older enquiry without a place none is asked.
    Raises :class:`Refused`.
    """
    shown = {key: one_line(text) for key, text in enquiry_typed(before).items()}
    typed = shown | dict(values)
    return EnquiryRecord(
        _customer(typed, before.customer, today),
        _site(typed, before.site),
        _enquiry(typed, before.enquiry, today),
    )


def rough_words(nominal: str, trader: Trader, sources: PricesAndStock) -> tuple[str, Tone, bool]:
    """What to say on the telephone for a nominal size as typed, in few words: VAT in, miles not.

    And whether starting figures are in it.

    While the size cannot be read it says what would do, quietly: it may not be finished yet.
    Raises :class:`domain.estimate.supplies.Unpriced`, which the note has no room for.
    """
    if not nominal.strip():
        return "", Tone.QUIET, False
    try:
        rough = rough_price(read_rough_roof(NOMINAL.id, nominal), trader, sources)
    except Refused:
        return "such as 8 x 6 ft", Tone.QUIET, False
    return f"≈ £{rough.gross // 100:,} + travel", Tone.STRONG, rough.starting


def visit_time_words(typed: str) -> str:
    """The time of a visit as it was understood, in words; nothing while it cannot be read."""
    try:
        return say_time(read_time(VISIT_AT.id, typed, by_day=True)) if typed.strip() else ""
    except Refused:
        return ""


def _customer(typed: Mapping[str, str], before: Customer, today: date) -> Customer:
    if not (typed["name"].strip() or typed["phone"].strip()):
        raise Refused("name", "", "Give a name, or a telephone number below.")
    return replace(
        before,
        name=kept(typed["name"], before.name),
        kind=CustomerKind(typed["kind"] or CustomerKind.HOUSEHOLDER),
        kind_asked=bool(typed["kind"]),
        phone=kept(typed["phone"], before.phone, partial(read_telephone, "phone")),
        email=kept(typed["email"], before.email, partial(read_email, "email")),
        address=kept_address("address", typed["address"], before.address),
        tax_reference=kept(typed["tax_reference"], before.tax_reference),
        in_cis=typed["in_cis"] != "no",
        vat_number=kept(
            typed["their_vat"], before.vat_number, partial(read_vat_number, "their_vat")
        ),
        end_user_on=_told_on(typed["end_user_on"], today),
    )


def _told_on(typed: str, today: date) -> date | None:
    return read_past_date("end_user_on", typed, today) if typed.strip() else None


def _site(typed: Mapping[str, str], before: Site) -> Site:
    read_ruled_out("ruled_out", typed["ruled_out"])
    is_new = before.id is None
    if not typed["place"].strip() and (is_new or before.place.strip()):
        raise Refused("place", "", "Give a short name such as Birch Lane, or where it is.")
    return replace(
        before,
        place=kept(typed["place"], before.place, partial(read_place, "place")),
        address=kept_address("site_address", typed["site_address"], before.address),
        access=kept(typed["access"], before.access),
        ruled_out=kept(typed["ruled_out"], before.ruled_out),
    )


def _enquiry(typed: Mapping[str, str], before: Enquiry, today: date) -> Enquiry:
    if typed["nominal"].strip():
        read_rough_roof("nominal", typed["nominal"])
    rough, at = typed["rough"], typed["visit_at"]
    return replace(
        before,
        said=kept(typed["said"], before.said),
        building=typed["building"] or before.building,
        nominal=kept(typed["nominal"], before.nominal),
        rough=read_rough_money("rough", rough) if rough.strip() else None,
        visit_on=read_optional_date("visit_on", typed["visit_on"], today),
        visit_at=read_time("visit_at", at, by_day=True) if at.strip() else None,
        on_foundation=typed["on_foundation"] != "no",
    )
