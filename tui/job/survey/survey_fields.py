"""The fields of a survey: the roof's measures, the covering, the deck, the old covering, the rest.

Ids of the measures are those by which the roof itself refuses one, so that a refusal finds its
field.
"""

from domain.coverings.registry import COVERINGS
from domain.job import DeckKind, DeckState, OldKind, Suspicion
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import MEASURES_OF
from tui.widgets.field_row import Field
from tui.widgets.form import YES_NO
from tui.widgets.line_input import Takes

FORMS = tuple(form.value for form in RoofForm)
"""The forms of a roof, as they are chosen."""
_BOARDS = ("deck_kind", DeckKind.BOARDS.value)


def _measure(id_: str, label: str, unit: str, example: str) -> Field:
    """A measure of the roof, asked for only of the forms that take it."""
    forms = (form.value for form, taken in MEASURES_OF.items() if id_ in taken)
    shown = ("form", *forms)
    return Field(id_, label, unit, example=example, only_for=shown, takes=Takes.FIGURE)


ROOF = (
    Field(
        "form",
        "Roof",
        choices=FORMS,
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
    _measure("lower_run", "Lower run", "wall to change of pitch", "400 mm"),
    _measure("lower_rise", "Lower rise", "over that run", "700 mm"),
    _measure("upper_run", "Upper run", "change of pitch to ridge", "800 mm"),
    _measure("upper_rise", "Upper rise", "over that run", "350 mm"),
    _measure("pitch", "Pitch", "degrees if no rise", "3/12"),
    _measure("slope_length", "Slope length", "if taped", "1062 mm"),
    _measure("eaves_length", "Eaves length", "if taped", "2520 mm"),
    _measure("eaves_overhang", "Eaves overhang", "on plan", "50 mm"),
    _measure("verge_overhang", "Verge overhang", "on plan", "60 mm"),
    _measure("top_overhang", "Top overhang", "on plan", "50 mm"),
)
KEYS = {covering.name: key for key, covering in COVERINGS.items()}
"""The key of each covering, by the name it is chosen by."""
COVERING = (
    Field("covering", "Covering", choices=tuple(KEYS), section="The covering"),
    Field("colour", "Colour", example="slate grey"),
)
DECK = (
    Field("deck_kind", "Deck", choices=tuple(DeckKind), section="The deck"),
    Field("thickness", "Thickness", "measured", example="11 mm", takes=Takes.FIGURE),
    Field("profile", "Profile", hint="tongue and groove, shiplap, square edge", only_for=_BOARDS),
    Field(
        "cover_width",
        "Cover width",
        "of a board",
        example="100 mm",
        only_for=_BOARDS,
        takes=Takes.FIGURE,
    ),
    Field("seen_above", "Looked at from above", choices=YES_NO),
    Field("seen_below", "Looked at from below", choices=YES_NO),
    Field("nails_inside", "Nails show inside", choices=YES_NO),
    Field("state", "State", choices=tuple(DeckState)),
    Field(
        "replace_m",
        "Boards to replace",
        "m or m², seen now",
        example="3.5",
        only_for=("state", DeckState.REPLACE.value),
    ),
    Field("works_off", "Safe to stand on", choices=YES_NO),
)
OLD = (
    Field("old_kind", "Old covering", choices=tuple(OldKind), section="The old covering"),
    Field("layers", "Layers", "counted", example="1", takes=Takes.COUNT),
    Field("suspicion", "How old", choices=tuple(Suspicion)),
    Field(
        "cleared_by",
        "Tested clear by",
        hint="name of the accredited laboratory",
        only_for=("suspicion", Suspicion.CLEARED.value),
    ),
)
EDGES = (
    Field("barge_boards", "Barge boards", section="The edges (renew, stays or none)"),
    Field("fascia", "Fascia"),
    Field("finials", "Finials"),
    Field("drip_trim", "Drip trim"),
    Field("gutter", "Gutter"),
    Field("wind_from", "Wind mostly from", hint="south-west unless you say"),
    Field("lined", "Lined inside", choices=YES_NO),
    Field("ventilation", "Ventilation", only_for=("lined", "yes")),
)
ACCESS = (
    Field("means", "Worked from", example="roof ladder, hop-ups, tower", section="Access"),
    Field("two_people", "Two people needed", choices=YES_NO),
    Field("photos", "Photographs", hint="where they are, or what they show"),
    Field("visited_on", "Visited on", hint="today", takes=Takes.DONE),
)
FIELDS = (*ROOF, *COVERING, *DECK, *OLD, *EDGES, *ACCESS)

LENGTHS = tuple(f.id for f in ROOF if f.id not in {"form", "pitch", "sides"})
"""Ids of the fields that take a length."""
LABELS = {field.id: field.label for field in FIELDS}
"""What each field is called, by its id."""
