"""Stock: what may be taken out of it."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from domain.coverings.materials import Material
from domain.errors import NotNow
from domain.estimate.stock import (
    Held,
    StockLine,
    StockMove,
    amounts,
    check_held,
    newly_short,
    replay,
    settled,
    short_words,
)


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


def _in_stock(*quantities: str) -> Held:
    return replay(map(_out, quantities))


def test_what_a_roof_took_leaves_the_stock_at_nothing_and_is_told() -> None:
    held = _in_stock("3", "-5", "2", "-1")
    assert held == Held(
        (replace(GREEN, quantity=Decimal(1)),), (replace(GREEN, quantity=Decimal(2)),)
    )
    assert short_words(held.short) == ("Stock was 2 strips of square butt shingles, green, short.")
    mastic = replace(_out("-1"), material=Material.MASTIC, colour="")
    assert amounts(replay((_out("-1"), mastic)).short) == (
        "1 strip of square butt shingles, green, and 1 cartridge of bitumen mastic"
    )
    assert short_words(_in_stock("3", "-3").short) == ""


def test_it_is_drawn_from_every_line_of_the_colour_however_it_was_typed() -> None:
    typed = [replace(_out("3"), colour=colour) for colour in ("green", "brown", "Green ")]
    assert replay((*typed, _out("-5"))) == Held(
        (replace(GREEN, colour="brown"), replace(GREEN, quantity=Decimal(1))), ()
    )


def test_leftovers_corrected_to_none_and_back_are_neither_invented_nor_lost() -> None:
    at_a, for_b = replace(_out("8"), job_id=1, id=1), replace(_out("-8"), job_id=2, id=2)
    assert replay((at_a, for_b)).lines == ()
    (none,) = settled((at_a,), ())
    short = newly_short(replay((at_a, for_b)), replay((none, for_b)))
    assert short == (replace(GREEN, quantity=Decimal(8)),)
    (back,) = settled((none,), (_out("8"),))
    assert replay((back, for_b)) == Held((), ())


def test_a_correction_stands_where_the_move_stood_that_it_corrects() -> None:
    taken, left = replace(_out("-5"), id=3), replace(_out("8"), id=4)
    assert settled((taken, left), (_out("-5"), _out("6"))) == (
        taken,
        replace(left, quantity=Decimal(6)),
    )
    assert settled((left,), (_out("-5"), _out("6"))) == (
        _out("-5"),
        replace(left, quantity=Decimal(6)),
    )


def test_what_an_older_book_has_as_two_moves_becomes_one() -> None:
    left, less = replace(_out("8"), id=4), replace(_out("-3"), id=5)
    assert settled((left, less), (_out("6"),)) == (replace(left, quantity=Decimal(6)),)
    more = replace(_out("2"), id=5)
    assert [each.quantity for each in settled((left, more), (_out("6"),))] == [6, 0]


def test_what_is_put_in_helps_a_stock_that_is_short_already() -> None:
    check_held(_out("1"), Decimal(-3))
