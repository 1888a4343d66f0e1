"""The fields of a survey: what a roof cannot be counted without first, the rest in groups.

Ids of the measures are those by which the roof itself refuses one, so that a refusal finds its
field.
"""

from collections.abc import Mapping
from dataclasses import replace

from domain.checks.check import Part
from domain.coverings.registry import COVERINGS, SHINGLES
from domain.job import DeckKind, DeckState, OldKind, Sample, Suspicion
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import MEASURES_OF
from domain.takeoff.nail_length import NAIL_LENGTHS
from tui.widgets.field_row import Field
from tui.widgets.form import YES_NO
from tui.widgets.line_input import Takes

FORMS = tuple(form.value for form in RoofForm)
FORMS_CALLED = tuple(form.called for form in RoofForm)
"""The forms of a roof, as they are chosen."""
_EDGE = "renew, stays or none"
_OR_NONE = "what is there, or “none”"
_BOARDS = ("deck_kind", DeckKind.BOARDS.value)


PAST_EDGE = "10 mm"
"""How far strips reach past the edges of a roof unless another figure is typed; common practice."""


def _measure(id_: str, label: str, unit: str, example: str) -> Field:
    """A measure of the roof, asked for only of the forms that take it."""
    forms = (form.value for form, taken in MEASURES_OF.items() if id_ in taken)
    shown = ("form", *forms)
    return Field(id_, label, unit, example=example, only_for=shown, takes=Takes.FIGURE)


KEYS = {covering.name: key for key, covering in COVERINGS.items()}
"""The key of each covering, by the name it is chosen by."""
ROOF = (
    Field(
        "form",
        "Roof",
        choices=FORMS,
        called=FORMS_CALLED,
        section="The roof (a number alone is in mm)",
    ),
    _measure("length", "Length", "on plan", "2.4 m"),
    _measure("span", "Span", "on plan", "6 ft 3"),
    _measure("sides", "Sides", "3 to 12", "8"),
    _measure("side", "Side", "along the eaves", "1.2 m"),
    _measure("rise", "Rise", "eaves to top", "450 mm"),
    _measure("front_run", "Front run", "wall to ridge", "1.2 m"),
    _measure("front_rise", "Front rise", "over that run", "600 mm"),
    _measure("back_run", "Back run", "wall to ridge", "800 mm"),
    _measure("back_rise", "Back rise", "over that run", "600 mm"),
    _measure("lower_run", "Lower run", "wall to break", "400 mm"),
    _measure("lower_rise", "Lower rise", "over that run", "700 mm"),
    _measure("upper_run", "Upper run", "then to ridge", "800 mm"),
    _measure("upper_rise", "Upper rise", "over that run", "350 mm"),
    Field("covering", "Covering", choices=tuple(KEYS)),
    Field("colour", "Colour", example="slate grey"),
)
"""What a roof cannot be counted without, in the order in which it is taped."""
SIZES = (
    replace(
        _measure("pitch", "Pitch", "if no rise", "3/12"),
        section="Other sizes",
    ),
    _measure("slope_length", "Slope length", "if taped", "1062 mm"),
    _measure("eaves_length", "Eaves length", "if taped", "2520 mm"),
    _measure("eaves_overhang", "Eaves overhang", "on plan", "50 mm"),
    _measure("verge_overhang", "Verge overhang", "on plan", "60 mm"),
    _measure("top_overhang", "Top overhang", "on plan", "50 mm"),
    Field(
        "past_edge",
        "Strips past edge",
        "to drip clear",
        example=PAST_EDGE,
        usual=PAST_EDGE,
        takes=Takes.FIGURE,
    ),
)
EDGES = (
    Field("barge_boards", "Barge boards", section=Part.EDGES, hint=_EDGE, asked=True),
    Field("fascia", "Fascia", hint=_EDGE, asked=True),
    Field("finials", "Finials", hint=_EDGE, asked=True),
    Field("drip_trim", "Drip trim", hint=_EDGE, asked=True),
    Field("gutter", "Gutter", hint=_EDGE, asked=True),
    Field("slope_one", "Slope 1 looks to", hint="such as the gate, or north"),
    Field("wind_from", "Wind mostly from", hint="south-west, unless you say"),
    Field("lined", "Lined inside", choices=YES_NO, asked=True),
    Field("ventilation", "Ventilation", only_for=("lined", "yes"), asked=True),
)
DECK = (
    Field("deck_kind", "Deck", choices=tuple(DeckKind), section=Part.DECK, asked=True),
    Field("thickness", "Thickness", "measured", example="11 mm", takes=Takes.FIGURE, asked=True),
    Field("seen_above", "Seen from above", choices=YES_NO, asked=True),
    Field("seen_below", "Seen from below", choices=YES_NO, asked=True),
    Field("nails_inside", "Nails show inside", choices=YES_NO, asked=True),
    Field(
        "nail_mm",
        "Shingle nails",
        "mm",
        choices=tuple(map(str, NAIL_LENGTHS)),
        only_for=("covering", *(s.name for s in SHINGLES.values())),
    ),
    Field("state", "State", choices=tuple(DeckState), asked=True),
    Field("works_off", "Safe to stand on", choices=YES_NO, asked=True),
    Field("profile", "Profile", hint="tongue and groove", only_for=_BOARDS, asked=True),
    Field(
        "cover_width",
        "Cover width",
        "of a board",
        example="100 mm",
        only_for=_BOARDS,
        takes=Takes.FIGURE,
        asked=True,
    ),
    Field(
        "replace_m",
        "Boards to replace",
        "m or m², now",
        example="3.5",
        only_for=("state", DeckState.REPLACE.value),
        asked=True,
    ),
)
"""What an answer here brings on stands below all else: the keys that follow go where one saw."""
OLD = (
    Field("old_kind", "Old covering", choices=tuple(OldKind), section=Part.OLD, asked=True),
    Field("layers", "Layers", "counted", example="1", takes=Takes.COUNT, asked=True),
    Field("taken_by", "Taken away by", hint="you, unless you name who"),
)
_TESTED = ("sample", *Sample)
_FOUND = ("sample", Sample.FOUND.value)
ASBESTOS = (
    Field(
        "suspicion",
        "Asbestos: how old",
        choices=(Suspicion.AFTER.value, Suspicion.BEFORE.value),
        section=Part.ASBESTOS,
        asked=True,
    ),
    Field("sample", "Sample tested", choices=tuple(Sample)),
    Field("cleared_by", "Laboratory", hint="accredited, its name"),
    Field("sample_number", "Sample number", only_for=_TESTED, asked=True),
    Field("tested_on", "Tested on", hint="date", only_for=_TESTED, takes=Takes.DONE, asked=True),
    Field("removed_by", "Removed by", hint="licensed or trained", only_for=_FOUND, asked=True),
    Field("removed_on", "Removed on", hint="date", only_for=_FOUND, takes=Takes.DONE, asked=True),
    Field("consignment_note", "Consignment note", hint="number", only_for=_FOUND, asked=True),
)
AROUND = (
    Field("wildlife", "Bats and nests", section=Part.AROUND, hint=_OR_NONE, asked=True),
    Field("cables", "Cables", hint=_OR_NONE, asked=True),
    Field("shared", "Shared wall or roof", hint=_OR_NONE, asked=True),
    Field("footing", "Bad ladder footing", hint=_OR_NONE, asked=True),
)
ACCESS = (
    Field("means", "Worked from", section=Part.ACCESS, example="roof ladder, hop-ups", asked=True),
    Field("two_people", "Two people needed", choices=YES_NO, asked=True),
    Field("photos", "Photographs", hint="where, or what they show"),
    Field("visited_on", "Visited on", hint="today", takes=Takes.DONE),
)
FIELDS = (*ROOF, *SIZES, *EDGES, *DECK, *OLD, *ASBESTOS, *AROUND, *ACCESS)
FOLDED = tuple(field.section for field in FIELDS if field.section)[1:]
"""The headings of what is asked once the roof is known to be laid."""
NONE_THERE_ROWS: Mapping[str, tuple[str, ...]] = {
    Part.EDGES: ("barge_boards", "fascia", "finials", "drip_trim", "gutter"),
    Part.AROUND: tuple(field.id for field in AROUND),
}
"""What is answered by one key where nothing is there."""

LENGTHS = tuple(
    f.id
    for f in (*ROOF, *SIZES)
    if f.id not in {"form", "pitch", "sides", "covering", "colour", "past_edge"}
)
"""Ids of the measures of the roof that take a length."""
LABELS = {field.id: field.label for field in FIELDS}
"""What each field is called, by its id."""
