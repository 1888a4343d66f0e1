"""A survey read from what was typed into its fields, and written into them."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from enum import StrEnum
from typing import TypeVar

from domain.coverings.registry import COVERINGS
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
from domain.quantity import read_count
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import RoofMeasures, TapedSlope
from domain.setting_out.wind import read_wind
from domain.units import Angle, Length, parse_angle, parse_length
from tui.job.survey.boards_field import boards_note, read_boards
from tui.job.survey.survey_fields import EDGES, FORMS, KEYS, LENGTHS
from tui.widgets.field_values import date_typed, number_typed, read_optional_date
from tui.widgets.kept_lines import kept

V = TypeVar("V")
K = TypeVar("K", bound=StrEnum)


def survey_typed(survey: Survey | None) -> dict[str, str]:
    """Return what stands in the fields for a survey; nothing but an apex when there is none yet."""
    if survey is None:
        return {"form": RoofForm.APEX.value}
    measures, covering, access = survey.measures, survey.covering, survey.access
    typed = {key: _typed(getattr(measures, key)) for key in (*LENGTHS, "pitch")}
    return {
        **typed,
        "form": measures.form.value,
        "sides": number_typed(measures.sides),
        "covering": COVERINGS[covering.key].name if covering and covering.key in COVERINGS else "",
        "colour": covering.colour if covering else "",
        **_deck_typed(survey.deck),
        **_old_typed(survey.old),
        **{f.id: getattr(survey.edges, f.id) for f in EDGES if f.id != "lined"},
        "lined": _yes_no(survey.edges.lined),
        "means": access.means,
        "two_people": _yes_no(access.two_people),
        "photos": access.photos,
        "visited_on": date_typed(survey.visited_on),
    }


def survey_from_fields(
    values: Mapping[str, str],
    before: Survey | None,
    today: date,
    slopes: tuple[TapedSlope, ...] = (),
) -> Survey:
    """What was typed, on top of the survey as it was read. Raises :class:`Refused`."""
    measures = read_measures(values, slopes)
    was = before or Survey(measures)
    return replace(
        was,
        measures=measures,
        covering=read_covering(values),
        deck=_deck(values, was.deck),
        old=read_old(values, was.old),
        edges=_edges(values, was.edges),
        access=AccessPlan(
            means=kept(values["means"], was.access.means),
            two_people=_answer(values["two_people"]),
            photos=kept(values["photos"], was.access.photos),
        ),
        visited_on=read_optional_date("visited_on", values["visited_on"], today, done=True),
    )


def read_measures(values: Mapping[str, str], slopes: tuple[TapedSlope, ...] = ()) -> RoofMeasures:
    """The roof's measures as typed, with the slopes that were taped one by one if it takes them.

    Raises :class:`Refused` for the first that cannot be read.
    """
    if not values["form"]:
        raise Refused("form", "", f"Choose {', '.join(FORMS[:-1])} or {FORMS[-1]}.")
    lengths = {key: read_length(key, values[key]) for key in LENGTHS}
    pitch = _given(values["pitch"], lambda text: parse_angle("pitch", text))
    sides = _given(values["sides"], lambda text: read_count("sides", text, "how many", most=12))
    form = RoofForm(values["form"])
    taped = slopes if form is RoofForm.SLOPES else ()
    return RoofMeasures(form=form, pitch=pitch, sides=sides, slopes=taped, **lengths)


def read_length(key: str, text: str) -> Length | None:
    """One length of the survey, None if nothing was typed. Raises :class:`Refused`."""
    return _given(text, lambda typed: parse_length(key, typed))


def read_covering(values: Mapping[str, str]) -> CoveringChoice | None:
    """The covering as chosen, None if none is."""
    if not values["covering"]:
        return None
    return CoveringChoice(KEYS[values["covering"]], values["colour"].strip())


def boards_told(values: Mapping[str, str]) -> str:
    """The boards to replace told the other way; empty while they cannot be."""
    try:
        cover = read_length("cover_width", values["cover_width"])
    except Refused:
        return ""
    return boards_note(values["replace_m"], cover)


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
        replace_m=read_boards(
            values["replace_m"], read_length("cover_width", values["cover_width"])
        ),
        works_off=_answer(values["works_off"]),
    )


_NOTHING = OldCovering()


def read_old(values: Mapping[str, str], was: OldCovering = _NOTHING) -> OldCovering:
    """The old covering as typed, on top of what was recorded. Raises :class:`Refused`."""
    return OldCovering(
        kind=_chosen(OldKind, values["old_kind"]),
        layers=_given(
            values["layers"],
            lambda text: read_count("layers", text, "how many were counted, such as 1", most=9),
        ),
        suspicion=_chosen(Suspicion, values["suspicion"]),
        cleared_by=kept(values["cleared_by"], was.cleared_by),
    )


def _edges(values: Mapping[str, str], was: Edges) -> Edges:
    words = {f.id: kept(values[f.id], getattr(was, f.id)) for f in EDGES if f.id != "lined"}
    words["wind_from"] = read_wind("wind_from", values["wind_from"])
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
        "replace_m": number_typed(deck.replace_m),
        "works_off": _yes_no(deck.works_off),
    }


def _old_typed(old: OldCovering) -> dict[str, str]:
    return {
        "old_kind": old.kind or "",
        "layers": number_typed(old.layers),
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
