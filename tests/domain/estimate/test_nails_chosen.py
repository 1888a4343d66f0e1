"""The nails that are chosen for a deck: what is counted, priced, loaded and said goes by them."""

from dataclasses import replace
from decimal import Decimal

from domain.coverings.materials import Material
from domain.estimate.basis import Supply
from domain.estimate.job_takeoff import supplied, takeoff_of
from domain.estimate.nails_chosen import nailed_with, nails_chosen
from domain.estimate.stock import StockLine
from domain.estimate.supplies import PricesAndStock
from domain.estimate.weights import old_of, weigh
from domain.job import Job, Stage
from domain.papers.load_list import load_of
from domain.trader import Nailing
from tests import builders
from tests.priced import PRICES

USUAL = Nailing()
IN_STOCK = (StockLine(Material.SHINGLE_NAILS, "", Decimal(2000)),)
SOURCES = PricesAndStock(PRICES, IN_STOCK, builders.VISIT)


def nailed(thickness: int, nail: int | None) -> Job:
    job = builders.job_at(Stage.BOOKED)
    survey = builders.survey()
    deck = replace(survey.deck, thickness=builders.mm(thickness), nail_mm=nail)
    return replace(job, survey=replace(survey, deck=deck))


def nails_of(job: Job) -> Supply:
    return supplied(job, takeoff_of(job, SOURCES), SOURCES)[Material.SHINGLE_NAILS]


def loaded(job: Job) -> str:
    takeoff = takeoff_of(job, SOURCES)
    weights = weigh(takeoff, SOURCES, old_of(job), builders.trader().van)
    load = load_of(job, takeoff, supplied(job, takeoff, SOURCES), weights, USUAL)
    return next(row for row in load.materials if row.startswith("Shingle nails"))


def test_the_usual_nails_are_loaded_only_where_they_suit_the_deck() -> None:
    assert nails_chosen(nailed(14, None).survey, USUAL).shingle == 20
    assert nails_chosen(nailed(18, None).survey, USUAL).shingle is None
    assert "clouts, 20 mm" in loaded(nailed(14, None))
    assert "CHOOSE THE LENGTH FIRST" in loaded(nailed(18, None))


def test_nails_chosen_for_a_deck_are_loaded_and_bought_and_not_taken_from_others_in_stock() -> None:
    usual, longer = nails_of(nailed(18, 20)), nails_of(nailed(18, 25))
    assert (usual.colour, usual.packs) == ("", 0)
    assert (longer.colour, longer.from_stock) == ("25 mm", Decimal(0))
    assert "clouts, 25 mm" in loaded(nailed(18, 25))
    # By hand: wire 3² × 20 = 180 and 225, head 9² × 1.2 = 97.2: a box of 25 mm holds 277.2/322.2.
    assert longer.price.per_pack == usual.price.per_pack * 2772 // 3222


def test_what_was_chosen_is_said_and_no_other_is_offered() -> None:
    said = " ".join(takeoff_of(nailed(18, 25), SOURCES).cautions)
    assert "Shingle nails of 25 mm, as chosen: point shows 1 mm inside." in said
    assert "would not" not in said
    assert not takeoff_of(nailed(14, 20), SOURCES).cautions


def test_an_order_goes_by_the_length_that_is_chosen_after_the_quote() -> None:
    [supply] = nailed_with((nails_of(nailed(18, 20)),), 25, USUAL)
    assert supply.colour == "25 mm"
    assert nailed_with((supply,), None, USUAL)[0].colour == ""
