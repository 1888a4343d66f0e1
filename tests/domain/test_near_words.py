"""Words that are a letter or two away from what was typed."""

import pytest

from domain.near_words import near

NAMES = ("penrose", "primrose", "vane", "okonjo", "brandreth", "mr", "ek", "hale")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("penrse", ["penrose"]),
        ("pnerose", ["penrose"]),
        ("penrosee", ["penrose"]),
        ("penroze", ["penrose"]),
        ("bramdreht", ["brandreth"]),
        ("primse", []),
        ("primerosse", ["primrose"]),
        ("vale", ["hale", "vane"]),
        ("el", []),
        ("penrose", []),
        ("", []),
    ],
)
def test_a_letter_away_is_near_and_two_of_a_long_word(typed: str, meant: list[str]) -> None:
    assert near(typed, NAMES) == meant
