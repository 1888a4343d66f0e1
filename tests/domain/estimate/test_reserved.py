from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from domain.coverings.materials import Material
from domain.estimate.quoting import basis_of
from domain.estimate.reserved import Reservation, not_reserved, reservations_of
from domain.estimate.stock import StockLine
from tests.priced import quote

GREY = StockLine(Material("square-butt"), "slate grey", Decimal(16))
RED = StockLine(Material("square-butt"), "brick red", Decimal(4))
FELTED = StockLine(Material.UNDERLAY, "", Decimal("20.5"))
LINES = st.sampled_from([GREY, RED, FELTED])
QUANTITIES = st.decimals(min_value=0, max_value=40, places=1)


def reserved(line: StockLine, quantity: str, **changes: str) -> Reservation:
    colour = changes.get("colour", line.colour)
    return Reservation(1, "0421", "Mill Row", line.material, colour, Decimal(quantity))


def test_what_a_quote_takes_out_of_the_stock_is_reserved() -> None:
    basis = basis_of(quote(stock=(GREY,)))
    assert basis is not None
    assert reservations_of(1, "0421", "Mill Row", basis.supplies) == (reserved(GREY, "16"),)


def test_what_is_reserved_is_not_there_for_another_job() -> None:
    reservations = [reserved(GREY, "9"), reserved(GREY, "4", colour=" Slate Grey")]
    assert not_reserved((GREY, RED), reservations) == (
        StockLine(Material("square-butt"), "slate grey", Decimal(3)),
        RED,
    )


def test_a_line_that_is_all_reserved_is_gone() -> None:
    assert not_reserved((GREY, RED), [reserved(GREY, "20")]) == (RED,)


def test_colour_counts_only_where_it_matters() -> None:
    rolls = reserved(FELTED, "15", colour="green")
    assert not_reserved((FELTED,), [rolls]) == (StockLine(Material.UNDERLAY, "", Decimal("5.5")),)


@given(st.lists(LINES, unique=True), st.lists(st.tuples(LINES, QUANTITIES)))
def test_every_reservation_is_kept_as_far_as_the_stock_goes(
    stock: list[StockLine], made: list[tuple[StockLine, Decimal]]
) -> None:
    free = not_reserved(stock, [reserved(line, str(quantity)) for line, quantity in made])
    for line in stock:
        owed = sum((q for of, q in made if of == line), Decimal(0))
        left = sum(
            (
                each.quantity
                for each in free
                if each.material == line.material and each.colour == line.colour
            ),
            Decimal(0),
        )
        assert left == max(Decimal(0), line.quantity - owed)
