"""How a job is found by words: what SQLite is asked, so that most jobs cost no call of ours."""

import re
import unicodedata

_FEW = 20
"""Words that each have their own condition: SQLite takes hundreds at most, a paste holds more."""
_HOLDS = "{} GLOB json_extract(:patterns, '$[{}]')"
_HOLDS_ALL = "NOT EXISTS (SELECT 1 FROM json_each(:patterns) WHERE NOT {} GLOB value)"
"""A pattern is found in half the time that instr() takes; each is put together by us."""
_NOT_OF_A_PATTERN = re.compile(r"[*?\[]")
_LONGEST = 2000
"""Letters of a word that are looked for: no line of the book holds as many without a space."""


def that_holds(words: int) -> str:
    """The condition that a job holds so many words, put so that most jobs cost no call of ours."""

    def within(text: str) -> str:
        each = [_HOLDS.format(text, n) for n in range(min(words, _FEW))]
        return " AND ".join([*each, _HOLDS_ALL.format(text)] if words > _FEW else each)

    return f"((plain AND {within('words')}) OR (NOT plain AND {within('fold(words)')}))"


def pattern_of(word: str) -> str:
    """What SQLite's GLOB finds a word by, wherever it stands."""
    literal = _NOT_OF_A_PATTERN.sub(r"[\g<0>]", word[:_LONGEST])
    return f"*{literal}*"


def fold(text: str) -> str:
    """The text in small letters without accents: "zoe" finds Zoë, in either way of writing ë."""
    if text.isascii():
        return text.lower()
    parts = unicodedata.normalize("NFKD", text)
    return "".join(part for part in parts if not unicodedata.combining(part)).casefold()
