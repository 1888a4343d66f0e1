from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from domain.books.headings import Heading
from domain.books.miles import (
    Miles,
    Trip,
    acceptable,
    demand_by_the_mile,
    demand_drivable,
    far_driven,
    proposed,
)
from domain.books.paid_price import paid_price
from domain.books.purchase import (
    Cost,
    Purchase,
    demand_allowed,
    heading_of,
    likely_cost,
    slips_of,
)
from domain.coverings.materials import Material
from domain.errors import NotNow, Refused
from tests import priced

TODAY = date(2026, 11, 28)
SLIP = Purchase(TODAY, "Northfield Merchants", "shingles", 254_82)


@pytest.mark.parametrize(
    ("what", "cost"),
    [
        ("Diesel", Cost.RUNNING),
        ("fuel for the generator", Cost.ORDINARY),
        ("MOT", Cost.RUNNING),
        ("van insurance", Cost.RUNNING),
        ("insurance for the van", Cost.RUNNING),
        ("vehicle insurance", Cost.RUNNING),
        ("Unleaded, 30 litres", Cost.RUNNING),
        ("Ford Transit van", Cost.VAN),
        ("a used car", Cost.CAR),
        ("roof rack for the van", Cost.ORDINARY),
        ("public liability insurance", Cost.ORDINARY),
        ("car park", Cost.ORDINARY),
        ("a car", Cost.CAR),
        ("used van", Cost.VAN),
        ("helper, 2 days", Cost.HELPER),
        ("motor for the saw", Cost.ORDINARY),
        ("shingles", Cost.ORDINARY),
    ],
)
def test_the_words_of_a_purchase_speak_for_what_has_rules(what: str, cost: Cost) -> None:
    assert likely_cost(what) is cost


def test_a_car_is_refused_and_a_van_counts() -> None:
    # Tools, machinery, vans are expenses when paid; a car is not: HMRC BIM70035, read.
    with pytest.raises(Refused, match="not an expense"):
        demand_allowed(replace(SLIP, cost=Cost.CAR), TODAY, by_the_mile=False)
    demand_allowed(replace(SLIP, cost=Cost.VAN), TODAY, by_the_mile=False)


@pytest.mark.parametrize("cost", [Cost.RUNNING, Cost.VAN])
def test_a_vehicle_goes_by_the_mile_or_by_its_costs_and_never_by_both(cost: Cost) -> None:
    # GOV.UK, simplified expenses: read.
    of_van = replace(SLIP, what="diesel", cost=cost)
    with pytest.raises(Refused, match="by the mile"):
        demand_allowed(of_van, TODAY, by_the_mile=True)
    with pytest.raises(NotNow, match="Diesel of Sat 28 Nov 2026"):
        demand_by_the_mile([SLIP, of_van])
    not_for_tax = replace(of_van, heading=Heading.NOT_FOR_TAX)
    demand_allowed(not_for_tax, TODAY, by_the_mile=True)
    demand_by_the_mile([SLIP, not_for_tax])


def test_a_purchase_dated_ahead_is_refused() -> None:
    with pytest.raises(Refused, match="29 November 2026"):
        demand_allowed(replace(SLIP, on=date(2026, 11, 29)), TODAY, by_the_mile=False)


def test_a_helper_and_a_year_that_is_over_are_asked_about() -> None:
    assert slips_of(SLIP, TODAY) == ()
    (helper,) = slips_of(replace(SLIP, cost=Cost.HELPER), TODAY)
    assert "makes you a contractor" in helper.words
    assert slips_of(replace(SLIP, on=date(2026, 4, 5)), date(2026, 5, 7)) == ()
    (closed,) = slips_of(replace(SLIP, on=date(2026, 4, 5)), date(2026, 5, 8))
    assert "2025-26" in closed.words


def test_the_merchants_last_heading_is_proposed() -> None:
    known = (SLIP, replace(SLIP, heading=Heading.REPAIRS), replace(SLIP, merchant="Tip"))
    assert heading_of(" northfield merchants", known) is Heading.REPAIRS
    assert heading_of("somewhere new", known) is Heading.GOODS
    assert heading_of("somewhere new", known, Cost.RUNNING) is Heading.TRAVEL
    assert heading_of("somewhere new", known, Cost.HELPER) is Heading.SUBCONTRACTORS


def test_a_slip_holds_the_vat_of_its_rate() -> None:
    assert SLIP.vat == 0
    assert replace(SLIP, vat_rate=Decimal(20)).vat == 42_47  # £254.82 holds £42.47: computed


def test_each_day_at_a_job_proposes_its_miles_once() -> None:
    day, ahead = date(2026, 11, 27), date(2026, 11, 30)
    trips = [
        Trip(TODAY, 5, "Mill Row", "lay", Decimal(24)),
        Trip(TODAY, 5, "Mill Row", "ridge", Decimal(24)),
        Trip(day, 6, "The Green", "survey", Decimal(10)),
        Trip(day, 7, "Birch Lane", "survey", Decimal(0)),
        Trip(ahead, 5, "Mill Row", "ridge", Decimal(24)),
    ]
    found = proposed(trips, (), TODAY)
    assert [(each.on, each.job_id, each.miles) for each in found] == [
        (day, 6, Decimal(10)),
        (TODAY, 5, Decimal(24)),
    ]
    assert found[1].words == "Mill Row, lay"
    # A day that was answered, be it with none, proposes nothing.
    assert proposed(trips, [Miles(TODAY, Decimal(0), "", 5)], TODAY) == (found[0],)


def test_a_visit_without_a_quote_is_proposed_and_its_miles_are_asked_for() -> None:
    known = Trip(TODAY, 5, "Mill Row", "lay", Decimal(24))
    unknown = Trip(TODAY - timedelta(days=1), 7, "Birch Lane", "survey", Decimal(0))
    found = proposed([known, unknown], (), TODAY)
    assert [each.words for each in found] == ["Birch Lane, survey", "Mill Row, lay"]
    assert acceptable(found) == (found[1],)


def test_several_jobs_on_one_day_are_one_round_as_long_as_to_the_farthest() -> None:
    trips = [
        Trip(TODAY, 5, "Mill Row", "lay", Decimal(14)),
        Trip(TODAY, 6, "The Green", "survey", Decimal(22)),
        Trip(TODAY, 7, "Birch Lane", "survey", Decimal(14)),
    ]
    (found,) = proposed(trips, (), TODAY)
    assert (found.job_id, found.miles) == (6, Decimal(22))
    assert found.words == "one round: Mill Row, lay; The Green, survey; Birch Lane, survey"
    # What was driven is said for one of them; another trip of the day is none of theirs.
    assert proposed(trips, [found], TODAY) == ()
    merchant = Miles(TODAY, Decimal(6), "merchant")
    assert proposed(trips, [merchant], TODAY) == (found,)


def test_over_400_miles_a_day_is_asked_about_and_over_1_000_refused() -> None:
    known = [Miles(TODAY, Decimal(300), "York", id=1)]
    new = Miles(TODAY, Decimal(100), "Hull")
    assert far_driven(new, known) is None
    assert far_driven(replace(new, miles=Decimal(101)), known) is not None
    demand_drivable(replace(new, miles=Decimal(700)), known, TODAY)
    with pytest.raises(Refused, match="1,001 miles on Sat 28 Nov 2026"):
        demand_drivable(replace(new, miles=Decimal(701)), known, TODAY)
    # What is put right is not counted beside what it was.
    demand_drivable(Miles(TODAY, Decimal(1000), "York", id=1), known, TODAY)
    with pytest.raises(Refused, match="today at latest"):
        demand_drivable(replace(new, on=date(2026, 11, 29)), known, TODAY)


def test_what_was_paid_for_a_material_is_proposed_as_its_new_price_without_the_vat_inside() -> None:
    last = priced.price(Material.MASTIC, 4_00, "1", merchant="Quayside", since=date(2026, 1, 5))
    bought = replace(
        SLIP, merchant="quayside", pence=33_00, material=Material.MASTIC, packs=Decimal(6)
    )
    price = paid_price(bought, [last], TODAY)
    assert price is not None
    assert (price.net, price.per_pack, price.since) == (4_58, last.per_pack, TODAY)
    assert paid_price(bought, [replace(last, net=4_58)], TODAY) is None
    assert paid_price(replace(bought, packs=Decimal(0)), [last], TODAY) is None
    assert paid_price(SLIP, [last], TODAY) is None
