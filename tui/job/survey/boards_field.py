"""Boards to replace as they are typed: in metres, or as an area at the cover width of a board."""

from decimal import Decimal
from fractions import Fraction

from domain.errors import Refused
from domain.quantity import read_in_metres, read_number, show_amount, to_decimal
from domain.takeoff.loads import area_of_boards, boards_over
from domain.units import Length

_FIELD = "replace_m"
_MOST = Decimal(500)  # metres or square metres of board; no shed has more
_SQUARE = ("m²", "m2", "sq m")


def read_boards(text: str, cover: Length | None) -> Decimal | None:
    """Metres of board to replace, None if nothing was typed; an area counts at the cover width.

    Raises :class:`Refused`, also for an area while the cover width is not known.
    """
    plain = text.strip().casefold()
    unit = next((unit for unit in _SQUARE if plain.endswith(unit)), "")
    if not plain:
        return None
    if not unit:
        return read_in_metres(_FIELD, text, "metres such as 3.5", most=_MOST)
    if cover is None or cover.mm <= 0:
        raise Refused(_FIELD, text, "Give the cover width of a board, or type metres.")
    area = read_number(_FIELD, plain.removesuffix(unit), "an area such as 1.2 m²", most=_MOST)
    return to_decimal(boards_over(Fraction(area), cover.mm))


def boards_note(text: str, cover: Length | None) -> str:
    """The boards told the other way, as area or metres; empty while they cannot be."""
    try:
        metres = read_boards(text, cover)
    except Refused:
        return ""
    if metres is None or cover is None:
        return ""
    if text.strip().casefold().endswith(_SQUARE):
        return show_amount(metres, "m")
    return show_amount(to_decimal(area_of_boards(Fraction(metres), cover.mm)), "m²")
