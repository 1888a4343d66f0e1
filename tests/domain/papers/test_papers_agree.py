"""What is to buy for a roof is the same on every paper and on the screen of coverings."""

from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path

import pytest

from domain.coverings.materials import MATERIALS, Material
from domain.estimate.compare import Costed, side_by_side
from domain.estimate.job_takeoff import takeoff_of
from domain.estimate.quoting import draft_quote
from domain.estimate.stock import StockLine
from domain.estimate.supplies import PricesAndStock
from domain.job import CoveringChoice, Job, Stage
from domain.papers.blocks import Paper
from domain.papers.materials_paper import materials_paper
from domain.trader import Trader
from storage.book import Book
from tests import builders
from tests.domain.papers.reading import tables
from tests.laid_out_once import NOW, each_roof_once, jobs_of
from tests.priced import PRICES, price
from tui.papers.job_papers import paper_of


@dataclass(frozen=True)
class Read:
    """A job of the demo, and where its materials come from."""

    job: Job
    sources: PricesAndStock
    trader: Trader


@pytest.fixture(scope="module")
def told(demo: Path) -> list[Read]:
    """The demo's jobs that have a covering, each roof once."""
    with closing(Book.open(demo, lambda: NOW)) as book:
        return [
            Read(
                job,
                book.sources(job.id, NOW.date()),
                book.trader(),
            )
            for job in each_roof_once(jobs_of(demo))
            if job.survey and job.survey.covering
        ]


def bought(paper: Paper) -> dict[str, str]:
    """Material without its colour, and what is to buy of it."""
    return dict(_bought(paper))


def _bought(paper: Paper) -> Iterator[tuple[str, str]]:
    for table in tables(paper):
        titles = [column.title for column in table.columns]
        if "To buy" in titles:
            at = titles.index("To buy")
            yield from ((row[0].partition(",")[0], row[at]) for row in table.rows)


def test_the_demo_s_papers_agree_on_what_to_buy(told: list[Read]) -> None:
    assert len(told) > 3
    for read in told:
        assert agreed(read)


def agreed(read: Read) -> dict[str, str]:
    """What to buy for a job as its take-off has it; the quote of the day must have it too."""
    job, sources, trader = read.job, read.sources, read.trader
    takeoff = takeoff_of(job, sources)
    prices, stock = sources.prices, sources.stock
    made = draft_quote(job, [takeoff], trader, prices, stock, Decimal(0), sources.today)
    to_buy = bought(materials_paper(replace(job, quotes=(made,), usages=())))
    counted = bought(paper_of("takeoff", job, trader, sources))
    assert {words: counted[words] for words in to_buy} == to_buy
    assert job.survey
    assert job.survey.covering
    (beside,) = side_by_side(
        job.survey, [job.survey.covering.key], lambda _: takeoff, trader, sources, Decimal(0)
    )
    assert isinstance(beside, Costed)
    assert beside.option == made.options[0]
    return to_buy


@pytest.mark.parametrize("covering", ["square-butt", "hexagonal", "felt"])
def test_what_the_stock_gives_and_odd_packs_are_on_all_of_them(covering: str) -> None:
    odd = (
        price(Material.SHINGLE_NAILS, 3_00, "200"),
        price(Material.FELT_NAILS, 2_00, "150"),
        price(Material.MASTIC, 30_00, "12"),
        price(Material.ADHESIVE, 5_00, "5"),
    )
    store = tuple(
        StockLine(material, "slate grey" if material.coloured else "", Decimal(2))
        for material in MATERIALS
    )
    survey = builders.survey(covering=CoveringChoice(covering, "slate grey"))
    job = builders.ready_for(Stage.QUOTED, survey=survey, quotes=())
    newer = tuple(replace(each, since=builders.VISIT) for each in odd)
    sources = PricesAndStock((*PRICES, *newer), store, builders.VISIT)
    to_buy = agreed(Read(job, sources, builders.trader()))
    assert to_buy["Felt nails"] == ("3 boxes" if covering == "felt" else "1 box")
    boxes = {"square-butt": "3 boxes", "hexagonal": "3 boxes"}
    assert to_buy.get("Shingle nails") == boxes.get(covering)


def test_the_take_off_says_how_the_strips_come_to_what_is_bought() -> None:
    # The worked example: 42 in the plan, 11 along the edges, 3 % of 53 rounded up is 2.
    job = builders.ready_for(Stage.QUOTED, quotes=())
    store = (StockLine(Material("square-butt"), "slate grey", Decimal(7)),)
    shown = paper_of("takeoff", job, builders.trader(), PricesAndStock((), store, builders.VISIT))
    row = tables(shown)[0].rows[0]
    assert row[1:] == (
        "53 strips laid, 2 for breakage, less 7 strips from stock",
        "3 packs",
    )
