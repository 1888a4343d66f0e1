"""A survey as it is typed: the roof's measures, the covering, the deck, the old covering, the rest.

Labels are those by which the roof itself refuses a measure, so that a refusal finds its field.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import TypeVar

from domain.errors import Refused
from domain.job import (
    AccessPlan,
    CoveringChoice,
    Deck,
    DeckKind,
    DeckState,
    Edges,
    OldCovering,
    OldKind,
    Survey,
    Suspicion,
)
from domain.setting_out.coverings import SHINGLES
from domain.setting_out.roof import Form, RoofMeasures
from domain.units import Angle, Length, parse_angle, parse_length
from tui.reading.kept import kept
from tui.reading.plain import read_count, read_number, read_optional_date, shown, shown_date
from tui.widgets.form import YES_NO, Field

V = TypeVar("V")
K = TypeVar("K", bound=StrEnum)

_PENT = ("form", Form.PENT.value)
_BOARDS = ("deck_kind", DeckKind.BOARDS.value)

ROOF = (
    Field("form", "Roof", choices=tuple(Form), section="The roof"),
    Field("length", "Length", "on plan", hint="2.4 m or 8 ft"),
    Field("span", "Span", "on plan", hint="1.8 m or 6 ft"),
    Field("rise", "Rise", "eaves to top", hint="450 mm"),
    Field("pitch", "Pitch", "instead of a rise", hint="26.6"),
    Field("slope_length", "Slope length", "if taped", hint="1062 mm"),
    Field("eaves_length", "Eaves length", "if taped", hint="2520 mm"),
    Field("eaves_overhang", "Eaves overhang", "on plan", hint="50 mm"),
    Field("verge_overhang", "Verge overhang", "on plan", hint="60 mm"),
    Field("top_overhang", "Top overhang", "on plan", hint="50 mm", only_for=_PENT),
)
_KEYS = {shingle.words.removesuffix(" shingles"): key for key, shingle in SHINGLES.items()}
COVERING = (
    Field("covering", "Covering", choices=tuple(_KEYS), section="The covering"),
    Field("colour", "Colour", hint="slate grey"),
)
DECK = (
    Field("deck_kind", "Deck", choices=tuple(DeckKind), section="The deck"),
    Field("thickness", "Thickness", "measured", hint="11 mm"),
    Field("profile", "Profile", hint="tongue and groove, shiplap, square edge", only_for=_BOARDS),
    Field("cover_width", "Cover width", "of a board", hint="100 mm", only_for=_BOARDS),
    Field("seen_above", "Looked at from above", choices=YES_NO),
    Field("seen_below", "Looked at from below", choices=YES_NO),
    Field("nails_inside", "Nails show inside", choices=YES_NO),
    Field("state", "State", choices=tuple(DeckState)),
    Field(
        "replace_m",
        "Boards to replace",
        "m, seen now",
        hint="3.5",
        only_for=("state", DeckState.REPLACE.value),
    ),
    Field("works_off", "Can be worked off", choices=YES_NO),
)
OLD = (
    Field("old_kind", "Old covering", choices=tuple(OldKind), section="The old covering"),
    Field("layers", "Layers", "counted", hint="1"),
    Field("suspicion", "How old", choices=tuple(Suspicion)),
    Field(
        "cleared_by",
        "Found clear by",
        hint="the licensed or trained person",
        only_for=("suspicion", Suspicion.CLEARED.value),
    ),
)
EDGES = (
    Field("barge_boards", "Barge boards", section="The edges: “none” is an answer"),
    Field("fascia", "Fascia"),
    Field("finials", "Finials"),
    Field("drip_trim", "Drip trim"),
    Field("gutter", "Gutter"),
    Field("lined", "Lined inside", choices=YES_NO),
    Field("ventilation", "Ventilation", only_for=("lined", "yes")),
)
ACCESS = (
    Field("means", "Worked from", hint="roof ladder, hop-ups, tower", section="Getting at it"),
    Field("two_people", "Two people needed", choices=YES_NO),
    Field("photos", "Photographs", hint="where they are, or what they show"),
    Field("visited_on", "Visited on", hint="today"),
)
FIELDS = (*ROOF, *COVERING, *DECK, *OLD, *EDGES, *ACCESS)

LENGTHS = (
    "length", "span", "rise", "slope_length", "eaves_length", "eaves_overhang", "verge_overhang",
    "top_overhang",
)  # fmt: skip
_LABELS = {field.id: field.label for field in FIELDS}
_COVERING_WORDS = {key: words for words, key in _KEYS.items()}


def survey_typed(survey: Survey | None) -> dict[str, str]:
    """What stands in the fields for a survey; nothing but an apex when there is none yet."""
    if survey is None:
        return {"form": Form.APEX.value}
    measures, covering, access = survey.measures, survey.covering, survey.access
    typed = {key: _typed(getattr(measures, key)) for key in (*LENGTHS, "pitch")}
    return {
        **typed,
        "form": measures.form.value,
        "covering": _COVERING_WORDS.get(covering.key, "") if covering else "",
        "colour": covering.colour if covering else "",
        **_deck_typed(survey.deck),
        **_old_typed(survey.old),
        **{f.id: getattr(survey.edges, f.id) for f in EDGES if f.id != "lined"},
        "lined": _yes_no(survey.edges.lined),
        "means": access.means,
        "two_people": _yes_no(access.two_people),
        "photos": access.photos,
        "visited_on": shown_date(survey.visited_on),
    }


def read_survey(values: Mapping[str, str], before: Survey | None, today: date) -> Survey:
    """What was typed, on top of the survey as it was read. Raises :class:`Refused`."""
    measures = read_measures(values)
    was = before or Survey(measures)
    return replace(
        was,
        measures=measures,
        covering=read_covering(values),
        deck=_deck(values, was.deck),
        old=_old(values, was.old),
        edges=_edges(values, was.edges),
        access=AccessPlan(
            means=kept(values["means"], was.access.means),
            two_people=_answer(values["two_people"]),
            photos=kept(values["photos"], was.access.photos),
        ),
        visited_on=read_optional_date("Visited on", values["visited_on"], today),
    )


def read_measures(values: Mapping[str, str]) -> RoofMeasures:
    """The roof's measures as typed. Raises :class:`Refused` for the first that cannot be read."""
    if not values["form"]:
        raise Refused("Roof", "", "Choose pent, lean-to or apex.")
    lengths = {key: read_length(key, values[key]) for key in LENGTHS}
    pitch = _given(values["pitch"], lambda text: parse_angle("Pitch", text))
    return RoofMeasures(form=Form(values["form"]), pitch=pitch, **lengths)


def read_length(key: str, text: str) -> Length | None:
    """One length of the survey, None if nothing was typed. Raises :class:`Refused`."""
    return _given(text, lambda typed: parse_length(_LABELS[key], typed))


def read_covering(values: Mapping[str, str]) -> CoveringChoice | None:
    """The covering as chosen, None if none is."""
    if not values["covering"]:
        return None
    return CoveringChoice(_KEYS[values["covering"]], values["colour"].strip())


def _deck(values: Mapping[str, str], was: Deck) -> Deck:
    return Deck(
        kind=_chosen(DeckKind, values["deck_kind"]),
        thickness=read_length("thickness", values["thickness"]),
        profile=kept(values["profile"], was.profile),
        cover_width=read_length("cover_width", values["cover_width"]),
        seen_above=_answer(values["seen_above"]),
        seen_below=_answer(values["seen_below"]),
        nails_inside=_answer(values["nails_inside"]),
        state=_chosen(DeckState, values["state"]),
        replace_m=_given(
            values["replace_m"],
            lambda text: read_number("Boards to replace", text, "metres such as 3.5", most=_MOST_M),
        ),
        works_off=_answer(values["works_off"]),
    )


_MOST_M = Decimal(500)  # metres of board; no shed has more


def _old(values: Mapping[str, str], was: OldCovering) -> OldCovering:
    return OldCovering(
        kind=_chosen(OldKind, values["old_kind"]),
        layers=_given(
            values["layers"],
            lambda text: read_count("Layers", text, "how many were counted, such as 1", most=9),
        ),
        suspicion=_chosen(Suspicion, values["suspicion"]),
        cleared_by=kept(values["cleared_by"], was.cleared_by),
    )


def _edges(values: Mapping[str, str], was: Edges) -> Edges:
    words = {f.id: kept(values[f.id], getattr(was, f.id)) for f in EDGES if f.id != "lined"}
    return Edges(**words, lined=_answer(values["lined"]))


def _deck_typed(deck: Deck) -> dict[str, str]:
    return {
        "deck_kind": deck.kind or "",
        "thickness": _typed(deck.thickness),
        "profile": deck.profile,
        "cover_width": _typed(deck.cover_width),
        "seen_above": _yes_no(deck.seen_above),
        "seen_below": _yes_no(deck.seen_below),
        "nails_inside": _yes_no(deck.nails_inside),
        "state": deck.state or "",
        "replace_m": shown(deck.replace_m),
        "works_off": _yes_no(deck.works_off),
    }


def _old_typed(old: OldCovering) -> dict[str, str]:
    return {
        "old_kind": old.kind or "",
        "layers": shown(old.layers),
        "suspicion": old.suspicion or "",
        "cleared_by": old.cleared_by,
    }


def _given(text: str, read: Callable[[str], V]) -> V | None:
    """What is read from a text, None if there is none."""
    return read(text) if text.strip() else None


def _chosen(kind: type[K], value: str) -> K | None:
    return kind(value) if value else None


def _answer(value: str) -> bool | None:
    return None if not value else value == "yes"


def _yes_no(answer: bool | None) -> str:
    return "" if answer is None else "yes" if answer else "no"


def _typed(measure: Length | Angle | None) -> str:
    return "" if measure is None else measure.typed
