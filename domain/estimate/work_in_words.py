"""A roof and the work on it in plain words, as customers read them."""

from dataclasses import dataclass
from decimal import Decimal

from domain.job import DeckKind, Job, OldCovering, OldKind, Survey
from domain.quantity import show_amount, show_quantity, to_decimal
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.setting_out.measures import RoofMeasures
from domain.units import Length

_RIDGED = (RoofForm.APEX, RoofForm.OFFSET_APEX, RoofForm.BARN, RoofForm.HIP)
_HIPPED = (RoofForm.HIP, RoofForm.PYRAMID)
_COUNTS = {1: "the old", 2: "both layers of the old", 3: "all three layers of the old"}
_OLD = {OldKind.FELT: "felt", OldKind.SHINGLES: "shingles", OldKind.CEMENT_SHEET: "sheets"}


@dataclass(frozen=True, slots=True)
class WorkInWords:
    """What a quote says of a roof and of the work on it, whatever covers it afterwards."""

    roof: str = ""
    """"Shed, apex roof, 2.4 × 1.8 m"; empty before there is a survey."""
    strip: str = "Strip off the old covering and take it away."
    deck: str = "boards"
    """What is under the covering."""
    ends: str = "edges"
    """What is finished last: "ridge and edges"."""


def work_in_words(job: Job) -> WorkInWords:
    """The words for a job as it was surveyed; general ones where it is not."""
    survey = job.survey
    if survey is None:
        return WorkInWords()
    return WorkInWords(
        roof=roof_in_words(job.enquiry.building, survey.measures),
        strip=_strip(survey.old),
        deck=_deck(survey),
        ends=_ends(survey.measures),
    )


def roof_in_words(building: str, measures: RoofMeasures) -> str:
    """Say which roof it is: the building, the form of its roof, and how large."""
    words = ", ".join(part for part in (building.strip(), _form(measures), _size(measures)) if part)
    return words[:1].upper() + words[1:]


def _form(measures: RoofMeasures) -> str:
    if measures.form is RoofForm.SLOPES:
        return f"roof of {show_amount(Decimal(len(measures.slopes)), 'slope')}"
    return measures.form.words


def _size(measures: RoofMeasures) -> str:
    """The building on plan, or of a pyramid its sides; nothing where it was not taped."""
    if measures.form is RoofForm.PYRAMID and measures.side is not None:
        return f"{measures.sides} sides of {_metres(measures.side)} m"
    if measures.length is None or measures.span is None:
        return ""
    return f"{_metres(measures.length)} × {_metres(measures.span)} m"


def _metres(length: Length) -> str:
    """A length in metres, to the centimetre."""
    return show_quantity(to_decimal(length.mm / 1000))


def _strip(old: OldCovering) -> str:
    if old.kind is OldKind.NONE:
        return "Sweep the bare roof and get it ready."
    layers = _COUNTS.get(old.layers or 1, "all layers of the old")
    covering = _OLD.get(old.kind, "covering") if old.kind else "covering"
    them = "it" if layers == _COUNTS[1] and not covering.endswith("s") else "them"
    return f"Strip off {layers} {covering} and take {them} away."


def _deck(survey: Survey) -> str:
    return "deck" if survey.deck.kind is DeckKind.SHEET else "boards"


def _ends(measures: RoofMeasures) -> str:
    """What there is to close and to finish, in the words for it."""
    slopes = measures.slopes if measures.form is RoofForm.SLOPES else ()
    sides = {side for slope in slopes for side in (slope.left_edge, slope.right_edge)}
    ridged = measures.form in _RIDGED or any(slope.finish is Finish.RIDGE for slope in slopes)
    hipped = measures.form in _HIPPED or EdgeKind.HIP in sides
    there = (("ridge", ridged), ("hips", hipped))
    closed = [words for words, found in there if found]
    return f"{', '.join(closed)} and edges" if closed else "edges"
