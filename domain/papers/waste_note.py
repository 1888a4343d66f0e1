"""The transfer note that goes with an old covering to whoever takes it.

What must stand on one: what the waste is with its code, how much and in what, where, when and from
whom to whom with names, addresses and signatures, the giver's industry code, the taker's
registration, and that the waste hierarchy was applied (Waste (England and Wales) Regulations 2011
reg. 35: read; nibusinessinfo.co.uk, What is a waste transfer note: read). It is kept two years.
What the book does not know is a line to write on. The codes are from memory, so the paper asks for
them to be checked. Asbestos goes with a consignment note and never with this.
"""

from collections.abc import Iterator

from domain.accounts.invoice import as_seller
from domain.days.calendar import show_date
from domain.errors import NotNow
from domain.job import Job, OldCovering, OldKind, Sample, Stripping
from domain.papers.blocks import Block, Details, FillIn, Paper, Signature, Ticks, Words
from domain.papers.invoice_paper import seller_lines
from domain.papers.shared_parts import on_one_line, sentence
from domain.papers.work_letters import waste_letter
from domain.quantity import show_amount
from domain.trader import Trader

_ROOFING = "43910, roofing"
"""The giver's industry (Standard Industrial Classification 2007: memory)."""
_FELT_CODE = "17 03 02"
"""Bituminous mixtures without coal tar (List of Wastes: memory)."""
_WASTES = {
    OldKind.FELT: "old roofing felt, bituminous, with nails",
    OldKind.SHINGLES: "old felt shingles, bituminous, with nails",
    OldKind.CEMENT_SHEET: "cement sheets, tested and found free of asbestos",
}
_HIERARCHY = (
    "I confirm that I have applied the waste hierarchy, as regulation 12 of the Waste (England and "
    "Wales) Regulations 2011 asks."
)
_NOT_THIS = (
    "Asbestos never goes with a transfer note: it needs a consignment note, and somebody trained "
    "or licensed for it."
)


def waste_note(job: Job, trader: Trader) -> Paper:
    """What was stripped, from whom to whom, with a line for each thing that is not known.

    Raises :class:`NotNow` before the roof is stripped, and where there is or may be asbestos.
    """
    stripping = job.stripping
    if stripping is None:
        raise NotNow(f"Job {job.ref} is not stripped yet: there is nothing to take away.")
    old = job.survey.old if job.survey else OldCovering()
    if old.may_hold_asbestos or old.sample is Sample.FOUND or stripping.suspect:
        raise NotNow(_NOT_THIS)
    seller, waste = as_seller(trader), _WASTES.get(old.kind or OldKind.OTHER, "")
    place, on = job.site.on_a_line, show_date(stripping.on)
    return Paper(
        title=f"Waste transfer note, {job.ref}",
        head=seller_lines(seller),
        look=seller.look,
        letter=waste_letter(seller, place, on, waste or "what was stripped"),
        blocks=(
            Details(tuple(_waste(job, stripping, waste, old)), "The waste"),
            FillIn(tuple(_to_write(stripping, waste))),
            Details(tuple(_from(trader, old)), "From"),
            Details((("Taken to", stripping.waste_to or "as written below"),), "To"),
            FillIn(tuple(_taker(trader, old))),
            *_hierarchy(trader),
            Words("Both keep a copy for two years."),
            Signature(f"from: {trader.name}"),
            Signature("to: whoever takes it"),
        ),
    )


def _waste(
    job: Job, stripping: Stripping, waste: str, old: OldCovering
) -> Iterator[tuple[str, str]]:
    if stripping.transfer_note:
        yield "Number", stripping.transfer_note
    yield "Job", job.ref
    if waste:
        yield "What it is", sentence(waste)
    if waste and old.kind is not OldKind.CEMENT_SHEET:
        yield "EWC code proposed", f"{_FELT_CODE}, felt without coal tar: to be checked"
    yield "Where it came from", f"A roof that was stripped, {job.site.on_a_line}"
    yield "Stripped on", show_date(stripping.on)
    if stripping.waste_kg is not None:
        yield "How much", show_amount(stripping.waste_kg, "kg")


def _to_write(stripping: Stripping, waste: str) -> Iterator[str]:
    """What is not known of the waste; of its code the paper only proposes one."""
    if not waste:
        yield "What it is"
    yield "EWC code, checked with whoever takes it"
    if stripping.waste_kg is None:
        yield "How much, in kg"
    yield "In what: loose, sacks, skip"


def _from(trader: Trader, old: OldCovering) -> Iterator[tuple[str, str]]:
    """Who produced it; and who carries it, with the registration as it stands."""
    yield "Name", trader.heading
    yield "Address", on_one_line(trader.address)
    yield "Industry (SIC)", _ROOFING
    if old.taken_by:
        yield "Carried by", old.taken_by
    elif trader.waste_carrier:
        yield "Waste carrier registration", trader.waste_carrier


def _taker(trader: Trader, old: OldCovering) -> Iterator[str]:
    """What only who takes it knows, and a registration that the book does not hold."""
    if old.taken_by or not trader.waste_carrier:
        yield "Waste carrier registration"
    yield "Name and address of who takes it"
    yield "Permit, exemption or registration number"
    yield "Place it was handed over"
    yield "Date and time"


def _hierarchy(trader: Trader) -> Iterator[Block]:
    """The words that England and Wales ask for; elsewhere they are not the law's."""
    if trader.nation in ("England", "Wales"):
        yield Ticks(((False, _HIERARCHY),))
