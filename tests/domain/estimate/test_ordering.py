"""What is ordered for the coming jobs, held against a plain reckoning of the packs."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from math import ceil
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from domain.coverings.materials import Material
from domain.estimate.basis import Supply
from domain.estimate.ordering import (
    JobToSupply,
    MerchantList,
    kind_of,
    order_lists,
    settled_by,
)
from domain.estimate.stock import Price, StockLine
from domain.estimate.supplies import PricesAndStock

TODAY = date(2026, 6, 1)
SHINGLES = Material("square-butt")
PRICES = {
    SHINGLES: Price(SHINGLES, "Sarn Bridge Timber", Decimal(21), 3150, Decimal(20), TODAY),
    Material.UNDERLAY: Price(
        Material.UNDERLAY, "Sarn Bridge Timber", Decimal(15), 2290, Decimal(20), TODAY
    ),
    Material.SHINGLE_NAILS: Price(
        Material.SHINGLE_NAILS, "Pellow & Daughter", Decimal(650), 895, Decimal(20), TODAY
    ),
}
MOST = {SHINGLES: 120, Material.UNDERLAY: 60, Material.SHINGLE_NAILS: 2000}


def supply(material: Material, needed: int | Decimal, colour: str = "green") -> Supply:
    """So much of a material, all of it to be bought when it was quoted."""
    colour = colour if material.sorted else ""
    price = PRICES[material]
    return Supply(
        material, colour, Decimal(needed), Decimal(0), ceil(needed / price.per_pack), price
    )


def job(number: int, day: int, *supplies: Supply) -> JobToSupply:
    """A job so many days from today."""
    place = f"{number} Mill Row"
    return JobToSupply(
        number, f"{number:04}", place, place, TODAY + timedelta(days=day), tuple(supplies)
    )


def listed(
    jobs: list[JobToSupply],
    stock: dict[Material, Decimal] | None = None,
    coming: dict[Material, Decimal] | None = None,
) -> tuple[MerchantList, ...]:
    """The lists for jobs with so much green in stock, and so much on its way."""
    lines = [StockLine(each, "green", held) for each, held in (stock or {}).items()]
    sources = PricesAndStock(tuple(PRICES.values()), lines, TODAY)
    on_its_way = {kind_of(each, "green"): much for each, much in (coming or {}).items()}
    return order_lists(jobs, sources, on_its_way)


def packs_of(lists: tuple[MerchantList, ...]) -> dict[Material, int]:
    """How many packs of each material."""
    return {line.material: line.packs for each in lists for line in each.lines}


@st.composite
def coming_jobs(draw: st.DrawFn) -> list[JobToSupply]:
    """Up to five jobs, each of which needs some of the materials."""
    jobs = []
    for number in range(1, draw(st.integers(1, 5)) + 1):
        wanted = [each for each in PRICES if draw(st.booleans())]
        needs = [supply(each, draw(st.integers(1, MOST[each]))) for each in wanted]
        jobs.append(job(number, draw(st.integers(0, 4)), *needs))
    return jobs


held = st.fixed_dictionaries(
    {each: st.integers(0, most).map(Decimal) for each, most in MOST.items()}
)


@given(coming_jobs(), held, held)
def test_nothing_is_lacking_and_no_pack_could_be_left_out(
    jobs: list[JobToSupply], stock: dict[Material, Decimal], coming: dict[Material, Decimal]
) -> None:
    packs = packs_of(listed(jobs, stock, coming))
    for material, price in PRICES.items():
        needed = sum(s.needed for each in jobs for s in each.supplies if s.material == material)
        there = stock[material] + coming[material]
        bought = packs.get(material, 0)
        assert there + bought * price.per_pack >= needed
        if there >= needed:
            assert not bought
        elif material.pack_word != "roll":
            assert there + (bought - 1) * price.per_pack < needed


@given(coming_jobs(), held)
def test_never_more_packs_than_buying_job_by_job(
    jobs: list[JobToSupply], stock: dict[Material, Decimal]
) -> None:
    left, alone = dict(stock), dict.fromkeys(PRICES, 0)
    for each in sorted(jobs, key=lambda job: (job.day, job.job_id)):
        bought = packs_of(listed([each], left))
        for need in each.supplies:
            packs = bought.get(need.material, 0)
            alone[need.material] += packs
            from_stock = need.needed - packs * PRICES[need.material].per_pack
            left[need.material] -= max(from_stock, Decimal(0))
    together = packs_of(listed(jobs, stock))
    assert all(together.get(material, 0) <= alone[material] for material in PRICES)


@given(coming_jobs(), held, st.randoms(use_true_random=False))
def test_the_order_in_which_jobs_are_given_makes_no_difference(
    jobs: list[JobToSupply], stock: dict[Material, Decimal], chance: Random
) -> None:
    before = listed(jobs, stock)
    chance.shuffle(jobs)
    assert listed(jobs, stock) == before


def test_what_one_job_leaves_over_serves_the_next() -> None:
    jobs = [job(1, 1, supply(SHINGLES, 30)), job(2, 3, supply(SHINGLES, 10))]
    (at_sarn,) = listed(jobs)
    (line,) = at_sarn.lines
    assert line.packs == 2
    assert line.jobs == tuple(jobs)
    assert line.by == jobs[0].day
    assert (at_sarn.net, at_sarn.vat) == (6300, 1260)


def test_another_colour_does_not_serve() -> None:
    jobs = [job(1, 1, supply(SHINGLES, 30)), job(2, 3, supply(SHINGLES, 10, "red"))]
    (at_sarn,) = listed(jobs, {SHINGLES: Decimal(30)})
    assert [(line.colour, line.packs) for line in at_sarn.lines] == [("red", 1)]


def test_a_roll_that_is_begun_saves_none() -> None:
    jobs = [job(1, 1, supply(Material.UNDERLAY, 20))]
    assert packs_of(listed(jobs, {Material.UNDERLAY: Decimal(14)})) == {Material.UNDERLAY: 2}
    assert packs_of(listed(jobs, {Material.UNDERLAY: Decimal(16)})) == {Material.UNDERLAY: 1}
    assert packs_of(listed(jobs, {Material.UNDERLAY: Decimal(20)})) == {}


def test_what_is_ordered_is_not_ordered_again() -> None:
    jobs = [job(1, 1, supply(SHINGLES, 30))]
    assert listed(jobs, coming={SHINGLES: Decimal(42)}) == ()
    assert packs_of(listed(jobs, coming={SHINGLES: Decimal(21)})) == {SHINGLES: 1}


def test_a_merchant_has_a_list_of_its_own_and_a_job_is_settled_with_the_last() -> None:
    both = job(1, 2, supply(SHINGLES, 30), supply(Material.SHINGLE_NAILS, 400))
    nails, none = job(2, 1, supply(Material.SHINGLE_NAILS, 100)), job(3, 3)
    lists = listed([both, nails, none])
    assert [each.merchant for each in lists] == ["Pellow & Daughter", "Sarn Bridge Timber"]
    assert settled_by(lists[0], lists, [both, nails, none]) == {2, 3}
    assert settled_by(lists[1], lists[1:], [both, none]) == {1, 3}


def test_a_price_of_today_goes_before_that_of_the_quote_unless_its_rolls_are_other_ones() -> None:
    shorter = replace(PRICES[Material.UNDERLAY], per_pack=Decimal(10), net=1500)
    dearer = replace(PRICES[SHINGLES], net=4000)
    jobs = [job(1, 1, supply(SHINGLES, 21), supply(Material.UNDERLAY, 15))]
    (at_sarn,) = order_lists(jobs, PricesAndStock((dearer, shorter), (), TODAY), {})
    assert {line.material: line.net for line in at_sarn.lines} == {
        SHINGLES: 4000,
        Material.UNDERLAY: 2290,
    }
