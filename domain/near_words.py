"""Words that somebody may have meant who typed one that nobody has: a letter or two away."""

from collections.abc import Iterable

_SHORTEST = 4
"""Letters: of fewer almost every word is a letter away."""
_LONG = 8
"""Letters from which two may be wrong."""


def near(word: str, among: Iterable[str]) -> list[str]:
    """The words one letter away from ``word``, of a long one two: the nearest first.

    A letter away is one left out, one too many, another one, or two that changed places. Both are
    compared as they stand: in small letters, if case is to make no difference.
    """
    most = 0 if len(word) < _SHORTEST else 1 if len(word) < _LONG else 2
    letters = set(word)
    alike = (
        other
        for other in among
        if abs(len(other) - len(word)) <= most
        # A letter changed takes one out and brings one in: cheap, and leaves few to be compared.
        and len(letters.symmetric_difference(other)) <= 2 * most
    )
    away = [(_letters_away(word, other, most), other) for other in alike]
    return [other for letters, other in sorted(away) if 0 < letters <= most]


def _letters_away(word: str, other: str, most: int) -> int:
    """How many letters apart two words are; ``most`` and one for all that are further."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for at, letter in enumerate(word, 1):
        two_before, before, row = before, row, [at]
        for to, its in enumerate(other, 1):
            cheapest = min(before[to] + 1, row[-1] + 1, before[to - 1] + (letter != its))
            if at > 1 and to > 1 and letter == other[to - 2] and word[at - 2] == its:
                cheapest = min(cheapest, two_before[to - 2] + 1)
            row.append(cheapest)
        if min(row) > most:
            return most + 1
    return row[-1]
