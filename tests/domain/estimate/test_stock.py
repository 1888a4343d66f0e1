"""Stock: what may be taken out of it."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from domain.coverings.materials import Material
from domain.errors import NotNow
from domain.estimate.stock import Drawn, StockLine, StockMove, check_held, draw_from_stock


def _out(quantity: str) -> StockMove:
    return StockMove(
        Material("square-butt"), "green", Decimal(quantity), date(2026, 6, 10), "taken"
    )


def test_no_more_is_taken_out_than_is_held() -> None:
    check_held(_out("-3"), Decimal(3))
    with pytest.raises(NotNow) as refused:
        check_held(_out("-4"), Decimal(3))
    assert str(refused.value) == (
        "In stock: 3 strips of square butt shingles, green, not 4 strips. Correct the count first."
    )


GREEN = StockLine(Material("square-butt"), "green", Decimal(3))


def test_what_a_roof_took_leaves_the_stock_at_nothing_and_is_told() -> None:
    drawn = draw_from_stock((_out("-5"), _out("2"), _out("-1")), (GREEN,))
    assert [move.quantity for move in drawn.moves] == [-3, 2, -1]
    assert drawn.short == (_out("-2"),)
    assert drawn.words == "Stock was 2 strips of square butt shingles, green, short."
    mastic = replace(_out("-1"), material=Material.MASTIC, colour="")
    assert draw_from_stock((_out("-4"), mastic), (GREEN,)).words == (
        "Stock was 1 strip of square butt shingles, green, and 1 cartridge of bitumen mastic short."
    )
    assert draw_from_stock((_out("-3"),), (GREEN,)) == Drawn((_out("-3"),), ())
    assert draw_from_stock((_out("-3"),), (GREEN,)).words == ""


def test_it_is_drawn_from_every_line_of_the_colour_however_it_was_typed() -> None:
    brown, again = replace(GREEN, colour="brown"), replace(GREEN, colour="Green ")
    drawn = draw_from_stock((_out("-5"),), (brown, GREEN, again))
    assert drawn.moves == (_out("-3"), replace(_out("-2"), colour="Green "))
    assert drawn.short == ()


def test_what_is_put_in_helps_a_stock_that_is_short_already() -> None:
    check_held(_out("1"), Decimal(-3))
