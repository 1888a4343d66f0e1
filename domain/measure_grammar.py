"""The grammar of a typed measure: numbers and unit words, read and never evaluated."""

import re
from fractions import Fraction

_LONGEST = 40  # characters; no measure needs more, and it keeps reading short

_SPELLINGS = str.maketrans(
    {
        "\N{NO-BREAK SPACE}": " ",
        "\N{MINUS SIGN}": "-",
        "’": "'",
        "′": "'",
        "”": '"',
        "″": '"',
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "⅛": " 1/8",
        "⅜": " 3/8",
        "⅝": " 5/8",
        "⅞": " 7/8",
        "⅓": " 1/3",
        "⅔": " 2/3",
    }
)
"""What telephones and word processors make of a mark, and fractions of one character."""

_ONE_TO_SIX = ("one", "two", "three", "four", "five", "six")
_SEVEN_TO_TWELVE = ("seven", "eight", "nine", "ten", "eleven", "twelve")
NUMBER_WORDS = {
    word: str(number) for number, word in enumerate((*_ONE_TO_SIX, *_SEVEN_TO_TWELVE), start=1)
} | {"twenty": "20"}
"""The words for the hours and the years that people write out, and the figures of each."""

_NUMBER = r"(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]{1,9})(?:\.[0-9]{1,6})?|\.[0-9]{1,6}"
_PART = (
    rf"(?:(?P<fraction_only>[0-9]{{1,3}}/[1-9][0-9]{{0,2}})"
    rf"|(?P<whole>{_NUMBER})(?: (?P<fraction>[0-9]{{1,3}}/[1-9][0-9]{{0,2}}))?)"
    r" ?(?P<unit>[a-z]+(?:/[a-z]+)?|°[a-z]?|['\"]|$) ?"
)


def split_measure(text: str) -> list[tuple[Fraction, str]]:
    """Split a measure into its numbers, each with its unit word in small letters.

    ``7 ft 10 1/2 in`` gives (7, "ft") and (10½, "in"), ``8 ft 3 1/2`` (8, "ft") and (3½, ""), and
    ``2,400`` (2400, ""). Only the last number may go without a unit, and one that stands alone only
    without a fraction. A minus sign in front is on every number. Text that is anything else gives
    an empty list.
    """
    plain = spelt_plainly(text)
    sign = -1 if plain.startswith("-") else 1
    rest = plain.removeprefix("-").lstrip(" ")
    parts: list[tuple[Fraction, str]] = []
    while rest:
        match = re.match(_PART, rest)
        if match is None:
            return []
        rest = rest[match.end() :]
        fraction = match["fraction_only"] or match["fraction"]
        if fraction and ("." in (match["whole"] or "") or not (match["unit"] or parts)):
            return []
        number = Fraction((match["whole"] or "0").replace(",", "")) + Fraction(fraction or 0)
        parts.append((sign * number, match["unit"]))
    return parts


def spelt_plainly(text: str) -> str:
    """Put a text in small letters and a keyboard's marks, with single spaces; a long one is "".

    Only spaces part its words: what holds any other blank is no line that was typed.
    """
    if len(text) > _LONGEST:
        return ""
    keyed = text.lower().translate(_SPELLINGS).replace("''", '"')
    return " ".join(word for word in keyed.split(" ") if word)
