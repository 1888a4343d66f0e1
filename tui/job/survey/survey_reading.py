"""A survey read from what was typed into its fields, and written into them."""

from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import replace
from datetime import date
from enum import StrEnum
from typing import TypeVar

from domain.coverings.reaching import reaching
from domain.coverings.registry import COVERINGS
from domain.coverings.square_butt import SQUARE_BUTT
from domain.errors import Refused
from domain.estimate.nails_chosen import length_is_open, shingle_nail_on
from domain.estimate.rough_price import read_rough_roof
from domain.job import (
    AccessPlan,
    Around,
    CoveringChoice,
    Deck,
    DeckKind,
    DeckState,
    Edges,
    OldCovering,
    OldKind,
    Sample,
    Survey,
    Suspicion,
)
from domain.quantity import read_count
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import RoofMeasures, TapedSlope
from domain.setting_out.wind import read_wind
from domain.takeoff.nail_length import nail_words_in_deck
from domain.trader import Nailing
from domain.typing_slips import Slip, measured_slips
from domain.units import Angle, Length, parse_angle, parse_length
from tui.job.survey.boards_field import boards_note, read_boards
from tui.job.survey.survey_fields import AROUND, FORMS_CALLED, KEYS, LENGTHS, PAST_EDGE
from tui.widgets.field_values import answer, date_typed, number_typed, read_optional_date, yes_no
from tui.widgets.kept_lines import kept

V = TypeVar("V")
K = TypeVar("K", bound=StrEnum)

_NOTHING, _NO_DECK, _NO_EDGES = OldCovering(), Deck(), Edges()
_EDGE_WORDS = (
    "barge_boards",
    "fascia",
    "finials",
    "drip_trim",
    "gutter",
    "ventilation",
    "slope_one",
    "wind_from",
)


def survey_typed(survey: Survey | None) -> dict[str, str]:
    """Return what stands in the fields for a survey; a usual roof when there is none yet."""
    if survey is None:
        return {"form": RoofForm.APEX.value, "past_edge": PAST_EDGE}
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
        **{name: getattr(survey.edges, name) for name in _EDGE_WORDS},
        "lined": yes_no(survey.edges.lined),
        "past_edge": _typed(survey.edges.past_edge),
        **{f.id: getattr(survey.around, f.id) for f in AROUND},
        "means": access.means,
        "two_people": yes_no(access.two_people),
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
        deck=read_deck(values, was.deck),
        old=read_old(values, today, was.old),
        edges=read_edges(values, was.edges),
        around=_around(values, was.around),
        access=AccessPlan(
            means=kept(values["means"], was.access.means),
            two_people=answer(values["two_people"]),
            photos=kept(values["photos"], was.access.photos),
        ),
        visited_on=read_optional_date("visited_on", values["visited_on"], today, done=True),
    )


def read_measures(values: Mapping[str, str], slopes: tuple[TapedSlope, ...] = ()) -> RoofMeasures:
    """The roof's measures as typed, with the slopes that were taped one by one if it takes them.

    Raises :class:`Refused` for the first that cannot be read.
    """
    if not values["form"]:
        raise Refused("form", "", f"Choose {', '.join(FORMS_CALLED[:-1])} or {FORMS_CALLED[-1]}.")
    lengths = {key: read_length(key, values[key]) for key in LENGTHS}
    pitch = _given(values["pitch"], lambda text: parse_angle("pitch", text))
    sides = _given(values["sides"], lambda text: read_count("sides", text, "how many", most=12))
    form = RoofForm(values["form"])
    taped = slopes if form is RoofForm.SLOPES else ()
    return RoofMeasures(form=form, pitch=pitch, sides=sides, slopes=taped, **lengths)


def as_far_as_typed(
    values: Mapping[str, str], slopes: tuple[TapedSlope, ...], today: date
) -> Survey:
    """What the take-off goes by, of a survey that is still being typed.

    What cannot be read of the old covering and the deck is left out. Raises :class:`Refused` for a
    measure of the roof or its edge that cannot be read.
    """
    old, deck = OldCovering(), Deck()
    with suppress(Refused):
        old = read_old(values, today)
    with suppress(Refused):
        deck = read_deck(values)
    return Survey(
        read_measures(values, slopes), read_covering(values), deck, old, read_edges(values)
    )


def unlikely_sides(values: Mapping[str, str], nominal: str) -> tuple[Slip, ...]:
    """The sides typed that may be slips, beside the ``nominal`` size of the enquiry.

    What cannot be read is left to whoever reads all of it.
    """
    taped, said = {}, None
    for key in ("length", "span"):
        with suppress(Refused):
            side = read_length(key, values[key])
            if side is not None:
                taped[key] = side.mm
    if nominal.strip():
        with suppress(Refused):
            rough = read_rough_roof("length", nominal)
            said = rough.length.mm, rough.span.mm
    return tuple(measured_slips(taped, said))


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


def nail_told(values: Mapping[str, str], usual: int) -> tuple[str, bool]:
    """How the shingle nail chosen, else the usual one, stands in the deck; whether to choose."""
    try:
        deck = read_deck(values)
        survey = Survey(RoofMeasures(RoofForm.APEX), read_covering(values), deck)
    except Refused:
        return "", False
    length = deck.nail_mm or usual
    nail = shingle_nail_on(survey, length)
    if nail is None:
        return "", False
    is_open = length_is_open(survey, Nailing(shingle_nail=usual))
    which = "" if deck.nail_mm else f"{length} mm "
    return f"{which}{nail_words_in_deck(nail)}{', choose' if is_open else ''}", is_open


def read_deck(values: Mapping[str, str], was: Deck = _NO_DECK) -> Deck:
    """The deck as typed, on top of what was recorded. Raises :class:`Refused`."""
    return Deck(
        kind=_chosen(DeckKind, values["deck_kind"]),
        thickness=read_length("thickness", values["thickness"]),
        profile=kept(values["profile"], was.profile),
        cover_width=read_length("cover_width", values["cover_width"]),
        seen_above=answer(values["seen_above"]),
        seen_below=answer(values["seen_below"]),
        nails_inside=answer(values["nails_inside"]),
        state=_chosen(DeckState, values["state"]),
        replace_m=read_boards(
            values["replace_m"], read_length("cover_width", values["cover_width"])
        ),
        works_off=answer(values["works_off"]),
        nail_mm=_given(values["nail_mm"], int),
    )


def read_old(values: Mapping[str, str], today: date, was: OldCovering = _NOTHING) -> OldCovering:
    """The old covering as typed, on top of what was recorded. Raises :class:`Refused`."""
    return OldCovering(
        kind=_chosen(OldKind, values["old_kind"]),
        layers=_given(
            values["layers"],
            lambda text: read_count("layers", text, "how many were counted, such as 1", most=9),
        ),
        suspicion=_chosen(Suspicion, values["suspicion"]),
        cleared_by=kept(values["cleared_by"], was.cleared_by),
        sample=_chosen(Sample, values["sample"]),
        sample_number=kept(values["sample_number"], was.sample_number),
        tested_on=_done_on("tested_on", values, today),
        removed_by=kept(values["removed_by"], was.removed_by),
        removed_on=_done_on("removed_on", values, today),
        consignment_note=kept(values["consignment_note"], was.consignment_note),
        taken_by=kept(values["taken_by"], was.taken_by),
    )


def read_edges(values: Mapping[str, str], was: Edges = _NO_EDGES) -> Edges:
    """The edges as typed, on top of what was recorded. Raises :class:`Refused`."""
    words = {name: kept(values[name], getattr(was, name)) for name in _EDGE_WORDS}
    words["wind_from"] = read_wind("wind_from", values["wind_from"])
    past = read_length("past_edge", values["past_edge"])
    reaching(SQUARE_BUTT, past)
    return Edges(**words, lined=answer(values["lined"]), past_edge=past)


def _around(values: Mapping[str, str], was: Around) -> Around:
    return Around(**{f.id: kept(values[f.id], getattr(was, f.id)) for f in AROUND})


def _done_on(field: str, values: Mapping[str, str], today: date) -> date | None:
    return read_optional_date(field, values[field], today, done=True)


def _deck_typed(deck: Deck) -> dict[str, str]:
    return {
        "deck_kind": deck.kind or "",
        "thickness": _typed(deck.thickness),
        "profile": deck.profile,
        "cover_width": _typed(deck.cover_width),
        "seen_above": yes_no(deck.seen_above),
        "seen_below": yes_no(deck.seen_below),
        "nails_inside": yes_no(deck.nails_inside),
        "state": deck.state or "",
        "replace_m": number_typed(deck.replace_m),
        "works_off": yes_no(deck.works_off),
        "nail_mm": number_typed(deck.nail_mm),
    }


def _old_typed(old: OldCovering) -> dict[str, str]:
    return {
        "old_kind": old.kind or "",
        "layers": number_typed(old.layers),
        "suspicion": old.suspicion or "",
        "cleared_by": old.cleared_by,
        "sample": old.sample or "",
        "sample_number": old.sample_number,
        "tested_on": date_typed(old.tested_on),
        "removed_by": old.removed_by,
        "removed_on": date_typed(old.removed_on),
        "consignment_note": old.consignment_note,
        "taken_by": old.taken_by,
    }


def _given(text: str, read: Callable[[str], V]) -> V | None:
    """What is read from a text, None if there is none."""
    return read(text) if text.strip() else None


def _chosen(kind: type[K], value: str) -> K | None:
    return kind(value) if value else None


def _typed(measure: Length | Angle | None) -> str:
    return "" if measure is None else measure.typed
