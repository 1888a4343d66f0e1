"""Which nails a roof is laid with: chosen once at the survey, else the usual where they fit."""

from dataclasses import dataclass, replace

from domain.coverings.materials import Material
from domain.coverings.registry import COVERINGS
from domain.coverings.shingle import Shingle
from domain.estimate.basis import Supply
from domain.estimate.supplies import PricesAndStock
from domain.job import Survey
from domain.takeoff.nail_length import InDeck, nail_in_deck
from domain.trader import Nailing


@dataclass(frozen=True, slots=True)
class NailsChosen:
    """Lengths, whole millimetres."""

    shingle: int | None
    """None while it is to be chosen: the usual ones do not suit the deck."""
    felt: int


def nails_chosen(survey: Survey | None, nailing: Nailing) -> NailsChosen:
    """The nails of a roof. Felt nails are the usual ones."""
    own = nailing_on(survey, nailing).shingle_nail
    return NailsChosen(None if length_is_open(survey, nailing) else own, nailing.felt_nail)


def nailing_on(survey: Survey | None, nailing: Nailing) -> Nailing:
    """How a trader nails on a surveyed deck: with the length that was chosen for it, if any."""
    chosen = survey.deck.nail_mm if survey else None
    return replace(nailing, shingle_nail=chosen) if chosen else nailing


def sources_on(survey: Survey, sources: PricesAndStock) -> PricesAndStock:
    """Prices and stock for a surveyed deck: boxes hold nails of the length chosen for it."""
    return replace(sources, nail_on_roof=survey.deck.nail_mm)


def nailed_with(
    supplies: tuple[Supply, ...], length: int | None, nailing: Nailing
) -> tuple[Supply, ...]:
    """Supplies as they were priced, with the shingle nails that are chosen by now.

    Of a length that was not priced all that stock has may be taken: what it gave was of another.
    """
    sort = f"{length} mm" if length and length != nailing.shingle_nail else ""
    return tuple(
        replace(each, colour=sort, from_stock=each.needed)
        if each.material == Material.SHINGLE_NAILS and each.colour != sort
        else each
        for each in supplies
    )


def length_is_open(survey: Survey | None, nailing: Nailing) -> bool:
    """Tell whether a length is to be chosen: the usual nail shows inside, or does not hold.

    False while the deck is not measured, and for felt.
    """
    if survey is None or survey.deck.nail_mm or survey.covering is None:
        return False
    nail = shingle_nail_on(survey, nailing.shingle_nail)
    return nail is not None and (bool(nail.shows) or not nail.holds)


def shingle_nail_on(survey: Survey, length: int) -> InDeck | None:
    """A shingle nail of that length in the surveyed deck; None for felt or a deck not measured."""
    covering = COVERINGS.get(survey.covering.key) if survey.covering else None
    deck = survey.deck.thickness
    if not isinstance(covering, Shingle) or deck is None or deck.mm <= 0:
        return None
    return nail_in_deck(covering, deck.mm, length)
