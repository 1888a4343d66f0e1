"""The forecast of the coming days as one line: a token a day, from today on.

A letter says what the day is: ``d`` dry, ``r`` rain, ``c`` too cold, ``w`` too windy, ``?`` not
known, ``-`` as it was. Behind ``d`` may stand the dry hours, ``d9-12,14-17``, behind ``r`` the hour
from which it rains, ``r11``; then what is known besides, in any order: ``/3`` the lowest
temperature in working hours, ``@14`` the average wind, ``g25`` gusts. ``3d`` are three such days.
Tokens stand apart by spaces; between letters that nothing stands behind they can be left out.
The words dry, rain, wet, cold, wind and windy stand for their letters, and a weekday goes on to the
next day of that name: ``mon dry, tue rain11``.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal

from domain.days.dates import weekday_of
from domain.days.forecast import Forecast, Sky
from domain.errors import Refused

MOST_DAYS = 14
"""A forecast reaches no further that is worth typing."""

_SKIES = {
    "d": Sky.DRY,
    "r": Sky.RAIN,
    "c": Sky.COLD,
    "w": Sky.WIND,
    "?": Sky.UNKNOWN,
}
_SAID = {"dry": "d", "rain": "r", "wet": "r", "cold": "c", "windy": "w", "wind": "w"}
_WORD = re.compile("|".join(_SAID))
_APART = re.compile(r"(?<![0-9]),|,(?![0-9])|[;:]")
"""What stands between two days; a comma between figures parts dry hours."""
_LETTERS = {sky: letter for letter, sky in _SKIES.items()}
_AS_IT_WAS = "-"
_DAY = re.compile(r"(?P<count>[0-9]*)(?P<letter>[drcw?-])")
_BESIDE = re.compile(r"(?P<head>[^/@g]*)(?P<figures>(?:[/@g][^/@g]*)*)")
_SPELL = re.compile(r"([0-9]{1,2})-([0-9]{1,2})")
_HOUR = re.compile(r"[0-9]{1,2}")
_NUMBER = re.compile(r"-?[0-9]{1,3}(?:\.[0-9])?")

_FIGURES = {
    "/": ("low_c", -30, 40, "/3", "the lowest temperature, °C"),
    "@": ("wind_mph", 0, 150, "@14", "the average wind, mph"),
    "g": ("gust_mph", 0, 150, "g25", "the gusts, mph"),
}
"""A figure's sign, its field, the least and the most it can be, an example, and its words."""

_WHAT_DOES = (
    "Give d dry, r rain, c cold, w wind, ? not known, - as it was, or a weekday to go on to"
)


@dataclass(frozen=True, slots=True)
class LineRead:
    """What a line says, as far as it can be read."""

    forecasts: tuple[Forecast | None, ...]
    """A day each from today on; None for one that stays as it was."""
    refused: Refused | None = None
    """What is wrong with the first token that cannot be read."""


def look_at_line(field: str, text: str, today: date) -> LineRead:
    """Read a line as far as it can be read: what is still being typed is refused, and not lost."""
    days: list[Forecast | None] = []
    try:
        for word in _words(text):
            named = weekday_of(word)
            if named is not None:
                next_day = today + timedelta(days=len(days))
                days += [None] * ((named - next_day.weekday()) % 7)
                _demand_room(field, word, len(days) + 1)
                continue
            for token, count, told in _tokens(field, word):
                _demand_room(field, token, len(days) + count)
                on = (today + timedelta(days=len(days) + n) for n in range(count))
                days += [replace(told, day=day) if told else None for day in on]
    except Refused as error:
        return LineRead(tuple(days[:MOST_DAYS]), error)
    return LineRead(tuple(days))


def read_line(field: str, text: str, today: date) -> tuple[Forecast, ...]:
    """Return the forecasts that a line gives, without the days that stay as they were.

    Raises :class:`Refused` with the token that cannot be read.
    """
    read = look_at_line(field, text, today)
    if read.refused is not None:
        raise read.refused
    if not read.forecasts:
        raise Refused(field, text, "Give a letter a day from today on, such as ddr: d dry, r rain.")
    if weekday_of(_words(text)[-1]) is not None:
        last = _words(text)[-1]
        raise Refused(field, last, f"Say what the day will be, such as {last} dry.")
    return tuple(forecast for forecast in read.forecasts if forecast is not None)


def show_line(forecasts: Mapping[date, Forecast], today: date) -> str:
    """Return the line that :func:`read_line` reads as these forecasts of today and later."""
    return "".join(_pieces(forecasts, today))


def span_of(forecasts: Mapping[date, Forecast], today: date, day: date) -> tuple[int, int]:
    """Return where in :func:`show_line` a day's token begins and ends; its end for no token."""
    pieces = list(_pieces(forecasts, today))
    before, own = "".join(pieces[: (day - today).days]), "".join(pieces[: (day - today).days + 1])
    begins = len(before) + len(own[len(before) :]) - len(own[len(before) :].lstrip())
    return begins, len(own)


def _pieces(forecasts: Mapping[date, Forecast], today: date) -> Iterator[str]:
    """The tokens from today on, each with the space that parts it from the one before."""
    days = (today + timedelta(days=n) for n in range(MOST_DAYS))
    tokens = [show_token(forecasts[day]) if day in forecasts else _AS_IT_WAS for day in days]
    while tokens and tokens[-1] == _AS_IT_WAS:
        tokens.pop()
    for token, before in zip(tokens, ["", *tokens], strict=False):
        yield token if len(token) == len(before) == 1 or not before else f" {token}"


def show_token(forecast: Forecast) -> str:
    """Return what a day is typed as."""
    token = _LETTERS[forecast.sky]
    if forecast.sky is Sky.DRY and forecast.dry_hours:
        token += ",".join(f"{first}-{last}" for first, last in forecast.spells)
    elif forecast.rain_from is not None:
        token += f"{forecast.rain_from}"
    for sign, (name, *_) in _FIGURES.items():
        number: Decimal | None = getattr(forecast, name)
        if number is not None:
            token += f"{sign}{number.normalize():f}"
    return token


def _words(text: str) -> list[str]:
    """What stands apart, with a letter for what is said in a word."""
    plain = _APART.sub(" ", text.lower().replace("−", "-"))
    return _WORD.sub(lambda said: _SAID[said[0]], plain).split()


def _demand_room(field: str, token: str, days: int) -> None:
    """Refuse a token that reaches further than a forecast does."""
    if days > MOST_DAYS:
        raise Refused(field, token, f"Give {MOST_DAYS} days at most, today among them.")


def _tokens(field: str, word: str) -> Iterator[tuple[str, int, Forecast | None]]:
    """Every token of a word, how many days it is of, and what it says of each."""
    at = 0
    while at < len(word):
        match = _DAY.match(word, at)
        if match is None:
            raise Refused(field, word[at:], f"{_WHAT_DOES}.")
        beside = _beside(field, word, match)
        token, at = match[0] + beside, match.end() + len(beside)
        yield token, _count(field, token, match["count"]), _told(field, match["letter"], beside)


def _beside(field: str, word: str, match: re.Match[str]) -> str:
    """What stands behind the letter of a day, to the end of the word: nothing behind most."""
    rest, letter = word[match.end() :], match["letter"]
    digits = re.match("[0-9]*", rest)
    number = digits[0] if digits else ""
    follows = rest[len(number) :][:1]
    of_next = bool(number) and follows in _SKIES  # how many of the next there are: 3d2r
    if letter == "r" and of_next:
        next_day = f"{number}{follows}"
        remedy = f"Put a space where the next day begins: r {next_day}, or r{number} {follows}."
        raise Refused(field, f"r{next_day}", remedy)
    hours = bool(number) and letter in "dr" and not of_next
    figures = letter != _AS_IT_WAS and rest[:1] in _FIGURES
    return rest if rest and (hours or figures) else ""


def _count(field: str, token: str, digits: str) -> int:
    count = int(digits) if 0 < len(digits) < 3 else 0
    if digits and not 1 <= count <= MOST_DAYS:
        raise Refused(field, token, f"Give a count of days from 1 to {MOST_DAYS}, such as 3d.")
    return count or 1


def _told(field: str, letter: str, beside: str) -> Forecast | None:
    """What a day is said to be, as that of no day yet; None if it stays as it was."""
    if letter == _AS_IT_WAS:
        return None
    token, match = f"{letter}{beside}", _BESIDE.fullmatch(beside)
    head, figures = (match["head"], match["figures"]) if match else (beside, "")
    known: dict[str, Decimal] = {}
    for sign, number in re.findall("([/@g])([^/@g]*)", figures):
        name, least, most, example, words = _FIGURES[sign]
        within = _NUMBER.fullmatch(number) and least <= Decimal(number) <= most
        if not within or name in known:
            which = f"Give {words}, once, from {least} to {most}, such as {letter}{example}"
            raise Refused(field, token, f"{which}, and a space before the next day.")
        known[name] = Decimal(number) + 0  # without the sign of a nought
    return Forecast(
        date.min,
        _SKIES[letter],
        dry_hours=_dry_hours(field, token, head) if head and letter == "d" else frozenset(),
        rain_from=_rain_from(field, token, head) if head and letter == "r" else None,
        low_c=known.get("low_c"),
        wind_mph=known.get("wind_mph"),
        gust_mph=known.get("gust_mph"),
    )


def _dry_hours(field: str, token: str, typed: str) -> frozenset[int]:
    """Dry hours such as ``9-12,14-17``, one run after the other."""
    hours: set[int] = set()
    last = 0
    for spell in typed.split(","):
        match = _SPELL.fullmatch(spell)
        first, until = (int(match[1]), int(match[2])) if match else (0, 0)
        if not last <= first < until <= 24:
            remedy = "Give the dry hours in their order, from and until, such as d9-12,14-17"
            raise Refused(field, token, f"{remedy}, and a space before the next day.")
        hours |= set(range(first, until))
        last = until
    return frozenset(hours)


def _rain_from(field: str, token: str, typed: str) -> int:
    """The hour from which it rains."""
    hour = int(typed) if _HOUR.fullmatch(typed) else 0
    if not 1 <= hour <= 23:
        raise Refused(
            field, token, "Give the hour it rains from, 1 to 23, such as r11, or r alone."
        )
    return hour
