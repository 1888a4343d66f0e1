"""A survey written in a file, in TOML: the roof's measures, the covering, how it is packed."""

import tomllib
from collections.abc import Collection, Mapping
from dataclasses import dataclass, fields
from difflib import get_close_matches

from domain.errors import Refused
from domain.setting_out.coverings import SHINGLES, Shingle
from domain.setting_out.roof import Form, RoofMeasures
from domain.takeoff.take_off import Packing
from domain.takeoff.underlay import Underlay
from domain.units import Angle, Length, parse_angle, parse_length

_LONGEST = 100_000  # characters; a survey has a few hundred
_TOP_KEYS = ("covering", "strips_per_pack", "underlay_roll", "roof")
_ROOF_KEYS = tuple(field.name for field in fields(RoofMeasures))
_LONGEST_KEY = 40  # characters shown of a key that is not known
_LONG_NUMBER = 10**12
_MOST_IN_A_PACK = 1000


@dataclass(frozen=True, slots=True)
class SurveyFile:
    """What a survey file says."""

    measures: RoofMeasures
    shingle: Shingle
    packing: Packing


def read_survey(text: str) -> SurveyFile:
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
    return SurveyFile(_measures(roof), _shingle(survey), _packing(survey))


def _table(text: str) -> dict[str, object]:
    """Return the whole file as a table."""
    if len(text) > _LONGEST:
        raise Refused("survey file", text, "It is far too long for a survey.")
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))  # some editors begin a file with a mark
    except tomllib.TOMLDecodeError as error:
        raise Refused("survey file", text, f"Write it in TOML: {error}.") from None
    except (ValueError, RecursionError):
        remedy = "It holds a number too long, or brackets too deep, for a survey."
        raise Refused("survey file", text, remedy) from None


def _refuse_unknown(
    table: Mapping[str, object], known: Collection[str], elsewhere: Collection[str], place: str
) -> None:
    """Refuse the first key that is not known here, with the one that was probably meant."""
    for key in table:
        if key in known:
            continue
        if key in elsewhere:
            raise Refused(key, _shown(table[key]), f"The key {place}.")
        near = get_close_matches(key[:_LONGEST_KEY], (*known, *elsewhere), n=1, cutoff=0)[0]
        remedy = f"No such key is known: {near} comes nearest."
        raise Refused(_named(key), _shown(table[key]), remedy)


def _measures(roof: Mapping[str, object]) -> RoofMeasures:
    """Return the measures under ``[roof]``."""
    form = _choice(roof, "form", [form.value for form in Form])
    measures = RoofMeasures(
        form=Form(form),
        length=_length(roof, "length"),
        span=_length(roof, "span"),
        rise=_length(roof, "rise"),
        pitch=_angle(roof, "pitch"),
        slope_length=_length(roof, "slope_length"),
        eaves_length=_length(roof, "eaves_length"),
        eaves_overhang=_length(roof, "eaves_overhang"),
        verge_overhang=_length(roof, "verge_overhang"),
        top_overhang=_length(roof, "top_overhang"),
    )
    if measures.top_overhang and measures.form is not Form.PENT:
        raise Refused("top_overhang", measures.top_overhang.typed, "Only a pent has one.")
    return measures


def _shingle(survey: Mapping[str, object]) -> Shingle:
    """Return the covering."""
    return SHINGLES[_choice(survey, "covering", list(SHINGLES))]


def _packing(survey: Mapping[str, object]) -> Packing:
    """Return how the materials are packed, as usual where the file does not say."""
    strips = survey.get("strips_per_pack", Packing().strips_per_pack)
    if type(strips) is not int or not 1 <= strips <= _MOST_IN_A_PACK:  # True is an int too
        remedy = f"Give a whole number from 1 to {_MOST_IN_A_PACK}."
        raise Refused("strips_per_pack", _shown(strips), remedy)
    return Packing(strips_per_pack=strips, underlay=_underlay(survey))


def _underlay(survey: Mapping[str, object]) -> Underlay:
    """Return the underlay, its rolls as long as the file says."""
    roll = _length(survey, "underlay_roll")
    if roll is None:
        return Underlay()
    try:
        return Underlay(roll=roll.mm)
    except Refused as refusal:  # told again by the key in the file
        raise Refused("underlay_roll", roll.typed, refusal.remedy) from None


def _choice(table: Mapping[str, object], key: str, choices: list[str]) -> str:
    """Return one of the choices."""
    value = table.get(key)
    if not isinstance(value, str) or value not in choices:
        raise Refused(key, _shown(value), f"Give {', '.join(choices[:-1])} or {choices[-1]}.")
    return value


def _length(table: Mapping[str, object], key: str) -> Length | None:
    """Return a length, None if the file does not give it; only an overhang may be 0."""
    text = _text(table, key, "2.4 m")
    return None if text is None else parse_length(key, text, zero=key.endswith("overhang"))


def _angle(table: Mapping[str, object], key: str) -> Angle | None:
    """Return an angle, None if the file does not give it."""
    text = _text(table, key, "26.6 deg")
    return None if text is None else parse_angle(key, text)


def _text(table: Mapping[str, object], key: str, example: str) -> str | None:
    """Return a text, None if the file does not give it."""
    value = table.get(key)
    if value is None or isinstance(value, str):
        return value
    raise Refused(key, _shown(value), f'Write it as text with its unit: {key} = "{example}".')


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
