"""Boards to replace, typed as metres or as an area."""

from decimal import Decimal
from fractions import Fraction

import pytest

from domain.errors import Refused
from domain.units import Length
from tui.job.survey.boards_field import boards_note, read_boards

COVER = Length(Fraction(100), "100 mm")


@pytest.mark.parametrize(
    ("typed", "metres", "note"),
    [
        ("3.5", "3.5", "0.35 m²"),  # derived: boards that cover 100 mm
        ("1.2 m²", "12", "12 m"),
        ("1.2 sq m", "12", "12 m"),
        ("", None, ""),
    ],
)
def test_boards_to_replace_are_typed_as_metres_or_as_an_area(
    typed: str, metres: str | None, note: str
) -> None:
    assert read_boards(typed, COVER) == (None if metres is None else Decimal(metres))
    assert boards_note(typed, COVER) == note


def test_an_area_of_boards_wants_their_cover_width() -> None:
    with pytest.raises(Refused, match="Give the cover width of a board"):
        read_boards("1.2 m²", None)
    assert boards_note("1.2 m²", None) == boards_note("3", None) == ""


@pytest.mark.parametrize("typed", ["501", "m²", "3 planks", "-1 m²"])
def test_what_is_no_measure_of_board_is_refused(typed: str) -> None:
    with pytest.raises(Refused) as refused:
        read_boards(typed, COVER)
    assert refused.value.field == "replace_m"
    assert boards_note(typed, COVER) == ""
