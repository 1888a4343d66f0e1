from dataclasses import replace
from decimal import Decimal

import pytest

from domain.coverings.materials import Material
from domain.errors import NotNow, Refused
from domain.estimate.basis import PricingBasis
from domain.estimate.stock import StockLine, StockMove
from domain.estimate.usage import (
    ELEMENTS,
    Outcome,
    difference,
    estimate,
    is_far_over,
    leftovers_to_stock,
    pack_size,
    read_quantity,
    with_outcome,
    with_used,
)
from domain.job import Job, Stage, Usage
from domain.snapshot import from_json
from tests import builders
from tests.priced import in_felt, laid_job, quote

BASIS = quote().counting.basis
STOCK = (StockLine(Material("square-butt"), "slate grey", Decimal(10)),)


def row(element: str, rows: tuple[Usage, ...] | None = None) -> Usage:
    return next(u for u in rows or estimate(BASIS) if u.element == element)


def moved(job: Job, usages: tuple[Usage, ...]) -> dict[str, Decimal]:
    moves = leftovers_to_stock(job, usages, builders.LAY_DAY)
    return {f"{m.material}, {m.words}": m.quantity for m in moves}


def test_used_starts_as_estimated_and_the_rest_of_the_packs_as_left_over() -> None:
    # The worked example: 55 strips of 3 packs of 21; 2 cartridges of 2.
    strips, mastic = row("strips"), row("mastic")
    assert strips == Usage("strips", "strip", Decimal(55), used=Decimal(55), left=Decimal(8))
    assert mastic == Usage("mastic", "cartridge", Decimal(2), used=Decimal(2), left=Decimal(0))
    assert row("underlay").taken == 15


def test_every_element_has_its_row_and_none_is_counted_in_packs() -> None:
    rows = estimate(BASIS)
    assert [u.element for u in rows] == [key for key in ELEMENTS if key not in ("felt", "adhesive")]
    assert [u.unit for u in rows] == ["strip", "m", "cartridge", "hour", "hour", "hour"]


def test_felt_is_recorded_in_metres_and_steps_by_the_roll() -> None:
    # The worked example in felt: 11.50 m of 3 rolls of 10 m, 11.48 m of lap of a tin's 30.
    basis = quote(takeoffs=(in_felt(),)).counting.basis
    felt, adhesive, *hours = estimate(basis)
    used = Decimal("11.50")
    assert felt == Usage("felt", "m", used, used=used, left=Decimal("8.50"))
    assert (adhesive.element, adhesive.left) == ("adhesive", Decimal("18.52"))
    assert pack_size(basis, "felt") == 10
    assert all(usage.unit == "hour" for usage in hours)


def test_the_hours_of_the_rows_are_the_hours_of_the_quote() -> None:
    hours = sum(u.estimated for u in estimate(BASIS) if u.unit == "hour")
    assert hours == from_json(PricingBasis, BASIS).hours.whole
    # 0.80, 3.56 and 1.27 by the elements, 5.63 in all.
    assert [row(f"hours-{each}").estimated for each in ("strip", "lay", "other")] == [
        Decimal("0.75"),
        Decimal("3.75"),
        Decimal("1.25"),
    ]


def test_using_more_leaves_less_over() -> None:
    strips = row("strips")
    assert with_used(strips, Decimal(58)).left == 5
    assert with_used(with_used(strips, Decimal(58)), Decimal(55)) == strips
    assert with_used(strips, Decimal(70)).left == 0
    assert with_used(replace(strips, wasted=Decimal(3)), Decimal(55)).left == 8
    assert with_used(row("hours-lay"), Decimal(9)).left == 0


def test_what_was_wasted_or_returned_is_not_left_over_too() -> None:
    strips = row("strips")
    wasted = with_outcome(strips, Outcome.WASTED, Decimal(3), strips.taken)
    assert wasted == replace(strips, wasted=Decimal(3), left=Decimal(5))
    returned = with_outcome(wasted, Outcome.RETURNED, Decimal(4), strips.taken)
    assert returned == replace(wasted, returned=Decimal(4), left=Decimal(1))
    assert returned.taken == strips.taken


def test_a_leftover_that_was_counted_stands() -> None:
    strips = row("strips")
    counted = with_outcome(strips, Outcome.LEFT, Decimal(6), strips.taken)
    assert counted == replace(strips, left=Decimal(6))


def test_a_figure_typed_too_long_and_put_right_leaves_no_more_than_was_taken() -> None:
    strips = row("strips")
    slip = with_outcome(strips, Outcome.USED, Decimal(580), strips.taken)
    assert slip.left == 0
    assert with_outcome(slip, Outcome.USED, Decimal(58), strips.taken).left == 5


def test_the_difference_is_over_the_estimate() -> None:
    assert difference(with_used(row("strips"), Decimal(58))) == 3
    assert difference(with_used(row("strips"), Decimal(50))) == -5


def test_far_over_is_more_than_a_fifth_over() -> None:
    made = row("strips")
    fifth = made.estimated * Decimal("1.2")
    assert not is_far_over(with_used(made, fifth))
    assert is_far_over(with_used(made, fifth + Decimal("0.01")))


def test_the_big_step_is_a_pack_and_of_hours_one() -> None:
    assert pack_size(BASIS, "strips") == 21
    assert pack_size(BASIS, "underlay") == 15
    assert pack_size(BASIS, "hours-lay") == 1


def test_leftovers_go_to_the_stock_with_their_colour() -> None:
    job = laid_job(quote())
    moves = leftovers_to_stock(job, estimate(BASIS), builders.LAY_DAY)
    words = "left over at Birch Lane"
    assert moves[0] == StockMove(
        Material("square-butt"), "slate grey", Decimal(8), builders.LAY_DAY, words, job.id
    )
    assert [m.material for m in moves] == [Material("square-butt"), Material.UNDERLAY]


def test_what_the_quote_counted_on_from_the_stock_goes_out_once() -> None:
    made = quote(stock=STOCK)
    rows = estimate(made.counting.basis)
    # 45 to buy of 55: 3 packs of 21 and stock's 10 make 73.
    assert row("strips", rows).left == 18
    first = moved(laid_job(made), rows)
    assert first["square-butt, taken to Birch Lane"] == -10
    assert first["square-butt, left over at Birch Lane"] == 18
    again = moved(laid_job(made, usages=rows), (with_used(rows[0], Decimal(57)), *rows[1:]))
    assert again == {**first, "square-butt, left over at Birch Lane": Decimal(16)}


def test_without_a_quote_there_is_nothing_to_hold_usage_against() -> None:
    with pytest.raises(NotNow, match="quote"):
        leftovers_to_stock(builders.job_at(Stage.SURVEY), (), builders.LAY_DAY)


@pytest.mark.parametrize(
    ("text", "unit", "quantity"),
    [
        ("55", "strip", "55"),
        ("55 strips", "strip", "55"),
        ("9.4 m", "m", "9.4"),
        ("9.4 metres", "m", "9.4"),
        ("1 1/2 hours", "hour", "1.5"),
        ("3.25h", "hour", "3.25"),
        ("2 hrs", "hour", "2"),
        ("½ cartridge", "cartridge", "0.5"),
        ("0", "roll", "0"),
    ],
)
def test_quantities_as_they_are_typed(text: str, unit: str, quantity: str) -> None:
    assert read_quantity("Used", text, unit) == Decimal(quantity)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        *(("", "m"), ("-1", "m"), ("1e9", "m"), ("nan", "m"), ("100001", "m"), ("3 hours", "m")),
        *(("2.5", "strip"), ("1/3", "hour"), ("3 packs", "strip"), ("4 m 2 m", "m")),
        *(("[/]", "hour"), ("9" * 5000, "hour"), ("3\n4", "hour")),
    ],
)
def test_what_is_no_quantity_is_refused(text: str, unit: str) -> None:
    with pytest.raises(Refused, match=r"^Used(: | is empty\.)"):
        read_quantity("Used", text, unit)
