"""A survey written in a file, in TOML: the roof's measures, the covering, how it is packed."""

import tomllib
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, replace

from domain.coverings.felt import Felt
from domain.coverings.reaching import reaching
from domain.coverings.registry import COVERINGS, Covering
from domain.errors import Refused
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.setting_out.measures import FINISHES, MEASURES_OF, SIDES, RoofMeasures, TapedSlope
from domain.takeoff.packing import Packing, usual_packing
from domain.takeoff.rolls import UNDERLAY, RollMaterial
from domain.takeoff.survey_words import chosen, nearest_key, not_toml
from domain.units import Angle, Length, parse_angle, parse_length, parse_offset

_LONGEST = 100_000  # characters; a survey has a few hundred
_OF_SHINGLES = ("strips_per_pack", "underlay_roll", "past_edge")
_OF_FELT = ("felt_roll",)
_TOP_KEYS = ("covering", *_OF_SHINGLES, *_OF_FELT, "roof")
_SLOPES = "slope"
"""What the array of tables is called: each stands under [[roof.slope]]."""
_ROOF_KEYS = tuple(f.name if f.name != "slopes" else _SLOPES for f in fields(RoofMeasures))
_SLOPE_KEYS = tuple(f.name for f in fields(TapedSlope))
_LONGEST_KEY = 40  # characters shown of a key that is not known
_LONG_NUMBER = 10**12
_MOST_IN_A_PACK = 1000


@dataclass(frozen=True, slots=True)
class SurveyFile:
    """What a survey file says."""

    measures: RoofMeasures
    covering: Covering
    packing: Packing


def read_survey_file(text: str) -> SurveyFile:
    """Read a survey from the text of its file.

    Raises :class:`Refused`, its field the key in the file, for text that is not TOML, keys that
    are not known or missing, and values of the wrong kind.
    """
    survey = _table(text)
    _refuse_unknown(survey, _TOP_KEYS, _ROOF_KEYS, "belongs under [roof]")
    roof = survey.get("roof")
    if not isinstance(roof, dict):
        raise Refused("roof", _shown(roof), "Give a table [roof] with the form and the measures.")
    _refuse_unknown(roof, _ROOF_KEYS, _TOP_KEYS, "belongs above [roof]")
    covering = COVERINGS[_choice(survey, "covering", list(COVERINGS))]
    packing = _packing(survey, covering)
    return SurveyFile(_measures(roof), reaching(covering, _length(survey, "past_edge")), packing)


def _table(text: str) -> dict[str, object]:
    """Return the whole file as a table."""
    if len(text) > _LONGEST:
        raise Refused("survey file", text, "That is far too long for a survey.")
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))  # some editors begin a file with a mark
    except tomllib.TOMLDecodeError as error:
        raise not_toml(text, str(error)) from None
    except (ValueError, RecursionError):
        remedy = "It has a number too long, or brackets too deep, for a survey."
        raise Refused("survey file", text, remedy) from None


def _refuse_unknown(
    table: Mapping[str, object],
    known: Collection[str],
    elsewhere: Collection[str],
    place: str,
    named: str = "",
) -> None:
    """Refuse the first key that is not known here, with the one that was probably meant."""
    for key in table:
        if key in known:
            continue
        if key in elsewhere:
            raise Refused(key, _shown(table[key]), f"This key {place}.")
        near = nearest_key(key[:_LONGEST_KEY], known, elsewhere)
        remedy = f"There is no such key: the nearest is {near}."
        raise Refused(named + _named(key), _shown(table[key]), remedy)


def _measures(roof: Mapping[str, object]) -> RoofMeasures:
    """Return the measures under ``[roof]``, of them only what the form takes."""
    form = RoofForm(_choice(roof, "form", [form.value for form in RoofForm]))
    taken = tuple(_SLOPES if name == "slopes" else name for name in MEASURES_OF[form])
    for key in roof:
        if key != "form" and key not in taken:
            remedy = f"The form {form} does not take it: it takes {', '.join(taken)}."
            raise Refused(key, _shown(roof[key]), remedy)
    lengths = {key: _length(roof, key) for key in taken if key not in (*_NO_LENGTHS, _SLOPES)}
    return RoofMeasures(
        form=form,
        pitch=_angle(roof, "pitch"),
        sides=_sides(roof),
        slopes=_slopes(roof),
        **lengths,
    )


_NO_LENGTHS = ("pitch", "sides")


def _sides(roof: Mapping[str, object]) -> int | None:
    """Return how many sides a pyramid has, None if the file does not give it."""
    sides = roof.get("sides")
    if sides is None or type(sides) is int:  # True is an int too
        return sides
    raise Refused("sides", _shown(sides), "Give a whole number, such as sides = 8.")


def _slopes(roof: Mapping[str, object]) -> tuple[TapedSlope, ...]:
    """Return the slopes that are given one by one, none if the file gives none."""
    tables = roof.get(_SLOPES, [])
    if not isinstance(tables, list):
        raise Refused(_SLOPES, _shown(tables), "Give each slope as a table [[roof.slope]].")
    return tuple(_slope(table, number) for number, table in enumerate(tables, start=1))


def _slope(table: object, number: int) -> TapedSlope:
    """Return one slope; its keys are told with its number."""
    named = f"{_SLOPES} {number}, "
    if not isinstance(table, dict):
        raise Refused(named[:-2], _shown(table), "Give each slope as a table [[roof.slope]].")
    _refuse_unknown(table, _SLOPE_KEYS, (), "", named)
    eaves, length = (_needed_length(table, key, named) for key in ("eaves", "length"))
    return TapedSlope(
        eaves=eaves,
        length=length,
        finish=Finish(_choice(table, "finish", list(FINISHES), named)),
        top=_length(table, "top", named),
        inset=_offset(table, "inset", named),
        left_edge=_edge(table, "left_edge", named),
        right_edge=_edge(table, "right_edge", named),
    )


def _edge(table: Mapping[str, object], key: str, named: str) -> EdgeKind:
    """Return what stands along a side, a verge if the file does not say."""
    return EdgeKind(_choice({key: EdgeKind.VERGE.value, **table}, key, list(SIDES), named))


def _packing(survey: Mapping[str, object], covering: Covering) -> Packing:
    """Return how the covering's materials are packed, as usual where the file does not say."""
    if isinstance(covering, Felt):
        _refuse_of_other(survey, _OF_SHINGLES, "shingles")
        roll = _length(survey, "felt_roll")
        return Packing(felt_roll=roll.mm) if roll else usual_packing(covering)
    _refuse_of_other(survey, _OF_FELT, "felt")
    strips = survey.get("strips_per_pack", covering.per_pack)
    if type(strips) is not int or not 1 <= strips <= _MOST_IN_A_PACK:  # True is an int too
        remedy = f"Give a whole number from 1 to {_MOST_IN_A_PACK}."
        raise Refused("strips_per_pack", _shown(strips), remedy)
    return Packing(strips_per_pack=strips, underlay=_underlay(survey))


def _refuse_of_other(survey: Mapping[str, object], keys: Iterable[str], covering: str) -> None:
    """Refuse what is said of a covering that is not the one chosen."""
    for key in keys:
        if key in survey:
            raise Refused(key, _shown(survey[key]), f"It belongs to {covering}: leave it out.")


def _underlay(survey: Mapping[str, object]) -> RollMaterial:
    """Return the underlay, its rolls as long as the file says."""
    roll = _length(survey, "underlay_roll")
    if roll is None:
        return UNDERLAY
    try:
        return replace(UNDERLAY, roll=roll.mm)
    except Refused as refusal:  # told again by the key in the file
        raise Refused("underlay_roll", roll.typed, refusal.remedy) from None


def _choice(table: Mapping[str, object], key: str, choices: Sequence[str], named: str = "") -> str:
    """Return one of the choices; ``named`` stands before the key in a refusal."""
    value = table.get(key)
    found = chosen(value, choices) if isinstance(value, str) else None
    if found is None:
        remedy = f"Give {', '.join(choices[:-1])} or {choices[-1]}."
        raise Refused(named + key, _shown(value), remedy)
    return found


def _length(table: Mapping[str, object], key: str, named: str = "") -> Length | None:
    """Return a length, None if the file does not give it; only some may be 0."""
    text = _text(table, key, "2.4 m", named)
    zero = key in ("top", "past_edge") or key.endswith("overhang")
    return None if text is None else parse_length(named + key, text, zero=zero, bare=False)


def _needed_length(table: Mapping[str, object], key: str, named: str) -> Length:
    """Return a length that must be given."""
    length = _length(table, key, named)
    if length is None:
        raise Refused(named + key, "", f'Give it with its unit: {key} = "2.4 m".')
    return length


def _offset(table: Mapping[str, object], key: str, named: str) -> Length | None:
    """Return a length that may be less than 0, None if the file does not give it."""
    text = _text(table, key, "-300 mm", named)
    return None if text is None else parse_offset(named + key, text, bare=False)


def _angle(table: Mapping[str, object], key: str) -> Angle | None:
    """Return an angle, None if the file does not give it."""
    text = _text(table, key, "26.6 deg")
    return None if text is None else parse_angle(key, text, bare=False)


def _text(table: Mapping[str, object], key: str, example: str, named: str = "") -> str | None:
    """Return a text, None if the file does not give it."""
    value = table.get(key)
    if value is None or isinstance(value, str):
        return value
    remedy = f'Write it as text with its unit: {key} = "{example}".'
    raise Refused(named + key, _shown(value), remedy)


def _shown(value: object) -> str:
    """Return a value as people read it, empty if it is missing; what holds others only by name."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) and abs(value) >= _LONG_NUMBER:
        return "a very long number"
    if isinstance(value, dict | list):
        return "a table" if isinstance(value, dict) else "a list"
    return "" if value is None else str(value)


def _named(key: str) -> str:
    """Return a key of the file's own on one line, shortened."""
    return "".join(c if c.isprintable() else "�" for c in key[:_LONGEST_KEY])
