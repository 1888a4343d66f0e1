"""Whether a nail is right for a deck: long enough to hold, too short to show inside."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from domain.coverings.felt import Felt
from domain.coverings.registry import Covering
from domain.units import show_mm

NAIL_LENGTHS = (13, 15, 20, 25, 30, 40, 50)
"""Millimetres that clout nails are sold in. Memory."""

HELD_BY = Fraction(19)
"""Millimetres into the deck that hold where it is thicker (NAVEDTRA 14044: ¾ in, or through)."""

_UNDERLAY = Fraction(1)  # mm of it under the head of a felt nail; common practice


@dataclass(frozen=True, slots=True)
class InDeck:
    """A nail in a deck; millimetres."""

    length: Fraction
    deck: Fraction
    """How thick it is."""
    through: Fraction
    """What the nail goes through above the deck."""

    @property
    def holds(self) -> bool:
        """Whether it goes through the deck or 19 into it (NAVEDTRA 14044)."""
        return self.into >= min(self.deck, HELD_BY)

    @property
    def into(self) -> Fraction:
        """How far it goes below the top of the deck."""
        return self.length - self.through

    @property
    def shows(self) -> Fraction:
        """How much of its point stands out inside; 0 for nothing."""
        return max(self.into - self.deck, Fraction(0))


def nail_in_deck(covering: Covering, deck: Fraction, length: int) -> InDeck:
    """A nail that holds a covering, in a deck so thick; millimetres."""
    return InDeck(Fraction(length), deck, covering.nailed_through)


def nail_words_in_deck(nail: InDeck) -> str:
    """How a nail stands in the deck, in a few words."""
    if nail.shows:
        return f"point shows {show_mm(nail.shows)} inside"
    return f"{'goes' if nail.holds else 'only'} {show_mm(nail.into)} in"


def nail_cautions(
    covering: Covering, deck: Fraction, shingle_nail: int, felt_nail: int, *, chosen: bool = False
) -> tuple[str, ...]:
    """What is wrong with the nails of a covering in a deck so thick, a sentence or two each.

    Lengths in millimetres. Of a shingle nail that was ``chosen`` for the deck it is said how it
    stands, and no other offered. Felt nails are asked only whether they show: short ones hold felt
    and underlay, which common practice nails so.
    """
    if isinstance(covering, Felt):
        return tuple(_felt(InDeck(Fraction(felt_nail), deck, covering.nailed_through)))
    nail = nail_in_deck(covering, deck, shingle_nail)
    return (
        *(_as_chosen(nail) if chosen else _shingle(nail)),
        *_felt(InDeck(Fraction(felt_nail), deck, _UNDERLAY)),
    )


def _as_chosen(nail: InDeck) -> Iterator[str]:
    """Say what was settled for, where the nail is not right in every way."""
    if nail.shows or not nail.holds:
        held = "" if nail.holds or nail.shows else ", may not hold"
        yield (
            f"Shingle nails of {show_mm(nail.length)}, as chosen: {nail_words_in_deck(nail)}{held}."
        )


def _shingle(nail: InDeck) -> Iterator[str]:
    """Say what is wrong with shingle nails."""
    if nail.shows:
        yield f"{_points('Shingle', nail)} {_instead_of(nail)}"
    elif not nail.holds:
        yield (
            f"Shingle nails of {show_mm(nail.length)} go {show_mm(nail.into)} into the deck: they "
            f"must go through it or {show_mm(HELD_BY)} into it. {_longer(nail)}"
        )


def _felt(nail: InDeck) -> Iterator[str]:
    """Say what is wrong with felt nails."""
    if nail.shows:
        hidden = _hidden(nail)
        told = f"{show_mm(hidden.length)} would not." if hidden else "no nail is short enough."
        yield f"{_points('Felt', nail)} {told}"


def _points(kind: str, nail: InDeck) -> str:
    return (
        f"{kind} nails of {show_mm(nail.length)} come {show_mm(nail.shows)} through the deck and "
        "show inside:"
    )


def _instead_of(nail: InDeck) -> str:
    """The nearest shorter length that does not show, and whether it would hold."""
    hidden = _hidden(nail)
    if hidden is None:
        return "no nail is short enough. Tell the customer first."
    if hidden.holds:
        return f"{show_mm(hidden.length)} would not."
    return (
        f"{show_mm(hidden.length)} would not, but goes only {show_mm(hidden.into)} in and may not "
        "hold. Tell the customer first."
    )


def _longer(nail: InDeck) -> str:
    """The least length that holds, one that does not show before one that does."""
    holding = [n for n in _sold(nail) if n.holds]
    if not holding:
        return "No usual length does."
    least = next((n for n in holding if not n.shows), holding[0])
    shown = " but shows inside" if least.shows else ""
    return f"{show_mm(least.length)} does{shown}."


def _hidden(nail: InDeck) -> InDeck | None:
    """The longest that does not show."""
    return next((other for other in reversed(_sold(nail)) if not other.shows), None)


def _sold(nail: InDeck) -> list[InDeck]:
    """The same nail in every length."""
    return [replace(nail, length=Fraction(length)) for length in NAIL_LENGTHS]
