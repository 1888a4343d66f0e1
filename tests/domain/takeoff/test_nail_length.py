"""Nails held against the thickness of a deck."""

from fractions import Fraction

import pytest

from domain.coverings.felt import FELT
from domain.coverings.square_butt import SQUARE_BUTT
from domain.takeoff.nail_length import NAIL_LENGTHS, InDeck, nail_cautions


def said(deck: int, shingle: int = 20, felt: int = 13) -> tuple[str, ...]:
    return nail_cautions(SQUARE_BUTT, Fraction(deck), shingle, felt)


@pytest.mark.parametrize(
    ("length", "deck", "holds"),
    [
        # NAVEDTRA 14044, read: through the deck, or ¾ in (19 mm) into it. Over it lie two strips
        # of 3 mm: common practice.
        (25, 19, True),
        (24, 19, False),
        (25, 38, True),
        (24, 38, False),
        (17, 11, True),
        (16, 11, False),
    ],
)
def test_a_nail_holds_that_goes_through_the_deck_or_19_mm_into_it(
    length: int, deck: int, holds: bool
) -> None:
    assert InDeck(Fraction(length), Fraction(deck), Fraction(6)).holds is holds


def test_a_point_that_shows_inside_is_said_with_the_next_length_that_does_not() -> None:
    assert said(25, shingle=40) == (
        "Shingle nails of 40 mm come 9 mm through the deck and show inside: 30 mm would not.",
    )


def test_where_what_does_not_show_would_not_hold_the_customer_is_told_first() -> None:
    # An 11 mm deck, of which a shed is often made: 20 mm less 6 is 14, through by 3.
    shingle, felt = said(11)
    assert shingle == (
        "Shingle nails of 20 mm come 3 mm through the deck and show inside: 15 mm would not, but "
        "goes only 9 mm in and may not hold. Tell the customer first."
    )
    assert felt == (
        "Felt nails of 13 mm come 1 mm through the deck and show inside: no nail is short enough."
    )


@pytest.mark.parametrize(
    ("deck", "would"),
    [(25, "25 mm does."), (22, "25 mm does."), (15, "25 mm does but shows inside.")],
)
def test_too_short_a_nail_is_said_with_the_least_that_holds(deck: int, would: str) -> None:
    (words,) = said(deck)
    assert words.startswith("Shingle nails of 20 mm go 14 mm into the deck: ")
    assert words.endswith(f"or 19 mm into it. {would}")


def test_felt_nails_in_felt_are_asked_only_whether_they_show() -> None:
    assert nail_cautions(FELT, Fraction(11), 20, 13) == ()
    assert nail_cautions(FELT, Fraction(11), 20, 20) == (
        "Felt nails of 20 mm come 6 mm through the deck and show inside: 13 mm would not.",
    )


def test_what_is_named_instead_never_shows_and_is_the_longest_of_them() -> None:
    for deck in range(6, 45):
        for length in NAIL_LENGTHS:
            for words in said(deck, shingle=length, felt=1):
                if "would not" in words:
                    named = int(words.split("inside: ")[1].split(" mm")[0])
                    fits = [n for n in NAIL_LENGTHS if n - 6 <= deck]
                    assert named == max(fits) < length
