"""The store: what may be taken out of it."""

from datetime import date
from decimal import Decimal

import pytest

from domain.errors import NotNow
from domain.estimate.stock import Material, StockMove, check_held


def _out(quantity: str) -> StockMove:
    return StockMove(Material.SQUARE_BUTT, "green", Decimal(quantity), date(2026, 6, 10), "taken")


def test_no_more_is_taken_out_than_is_held() -> None:
    check_held(_out("-3"), Decimal(3))
    with pytest.raises(NotNow) as refused:
        check_held(_out("-4"), Decimal(3))
    assert str(refused.value) == (
        "The store holds 3 strips of square butt shingles, green, not 4 strips: count it first."
    )


def test_what_is_put_in_helps_a_store_that_is_short_already() -> None:
    check_held(_out("1"), Decimal(-3))
