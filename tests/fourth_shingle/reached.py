"""All that a fourth shingle reaches by being listed once; run by tests/architecture."""

from contextlib import closing
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

from textual.pilot import Pilot

from domain.coverings.materials import MATERIALS, Material
from domain.estimate.compare import Costed, Unsuited, compare, draft_of
from domain.estimate.job_takeoff import takeoff_of
from domain.estimate.quoting import offered
from domain.estimate.stock import StockMove
from domain.estimate.supplies import PricesAndStock
from domain.estimate.usage import estimate
from domain.job import CoveringChoice, Job, Quote, Stage
from domain.page_names import PageName
from domain.papers.materials_paper import materials_paper
from domain.papers.quote_paper import quote_paper
from domain.papers.takeoff_paper import takeoff_paper
from domain.takeoff.surveyfile import read_survey_file
from domain.units import Angle
from storage.book import Book
from tests import builders, priced
from tests.domain.papers.reading import words_of
from tests.fourth_shingle.register import ROUND
from tests.tui.books.a_job_to_price import NOW, app_on, surveyed
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import hears, turn_to, until
from tests.tui.sight import cut_off, sees
from tui.job.coverings.covering_columns import CoveringColumns
from tui.job.coverings.coverings_screen import CoveringsScreen
from tui.job.survey.survey_fields import KEYS
from tui.job.survey.survey_reading import read_covering, survey_typed
from tui.lists.amount_dialog import BY_WORDS
from tui.papers.job_papers import paper_of
from tui.shell.app import HeadlapApp

STRIPS = Material("round-butt")
PRICES = (*priced.PRICES, priced.price(STRIPS, 36_00, "18"))
SOURCES = PricesAndStock(PRICES, (), builders.VISIT)
TRADER = builders.trader()
CHOSEN = CoveringChoice("round-butt", "slate grey")
JOB = builders.ready_for(
    Stage.QUOTED, survey=builders.survey(covering=CHOSEN), quotes=(priced.quote(),)
)
ALL = ("square-butt", "hexagonal", "round-butt", "felt")


def _drafted(beside: tuple[str, ...]) -> Quote:
    return draft_of(JOB, compare(JOB, TRADER, SOURCES), beside, TRADER, builders.VISIT)


def _accepted() -> Job:
    return replace(JOB, quotes=(priced.accepted(_drafted(())),))


def test_the_survey_offers_it_and_reads_it_back() -> None:
    assert tuple(KEYS) == ("square butt", "hexagonal", "round butt", "felt")
    typed = survey_typed(JOB.survey)
    assert typed["covering"] == "round butt"
    assert read_covering(typed) == CHOSEN


def test_a_survey_file_takes_it_in_its_own_packs() -> None:
    roof = '[roof]\nform = "apex"\nlength = "2 m"\nspan = "1 m"\npitch = "20 deg"\n'
    survey = read_survey_file(f'covering = "round-butt"\n{roof}')
    assert (survey.covering, survey.packing.strips_per_pack) == (ROUND, 18)


def test_it_has_prices_and_stock_of_its_own(tmp_path: Path) -> None:
    assert BY_WORDS["round butt shingles"] == STRIPS
    assert MATERIALS.index(STRIPS) == 2
    with closing(Book.open(tmp_path / "book.headlap", lambda: NOW)) as book:
        book.set_price(PRICES[-1])
        book.move_stock(StockMove(STRIPS, "green", Decimal(4), NOW.date(), "counted"))
        assert [price.material for price in book.prices()] == [STRIPS]
        assert [(line.material, line.quantity) for line in book.stock()] == [(STRIPS, Decimal(4))]


def test_it_is_compared_and_pushes_none_of_the_others_out() -> None:
    compared = compare(JOB, TRADER, SOURCES)
    assert tuple(each.choice.key for each in compared) == ALL
    assert all(isinstance(each, Costed) for each in compared)


def test_it_is_quoted_with_its_hours_and_what_becomes_of_its_strips() -> None:
    made = _drafted(("felt",))
    assert [option.covering for option in made.options] == ["round-butt", "felt"]
    assert made.options[0].lines[0].words == "round butt shingles, slate grey"
    assert next(usage.element for usage in estimate(made.options[0].basis)) == "strips"


def test_felt_stays_in_a_quote_that_is_priced_anew_for_it() -> None:
    offers = offered(CHOSEN, (priced.three_options(),))
    assert [choice.key for choice in offers] == ["round-butt", "hexagonal", "felt"]


def test_one_that_does_not_suit_says_so_by_its_name() -> None:
    flat = builders.measures(rise=None, pitch=Angle(Fraction(5), "5 deg"))
    survey = builders.survey(measures=flat, covering=CHOSEN)
    [unsuited] = [
        each
        for each in compare(replace(JOB, survey=survey), TRADER, SOURCES)
        if each.choice == CHOSEN
    ]
    assert isinstance(unsuited, Unsuited)
    assert "round butt shingles" in unsuited.why


def test_every_paper_of_the_job_names_it() -> None:
    job = _accepted()
    takeoff = takeoff_of(job, SOURCES)
    assert job.quote is not None
    for paper in (
        quote_paper(job, job.quote, TRADER),
        takeoff_paper(takeoff, job),
        materials_paper(job),
        paper_of("takeoff", job, TRADER, SOURCES),
        paper_of("site-sheet", job, TRADER, SOURCES),
    ):
        assert "round butt shingles" in words_of(paper).casefold(), paper.title


async def _columns(pilot: Pilot[None], app: HeadlapApp) -> CoveringColumns:
    await turn_to(pilot, app, PageName.QUOTE)
    await pilot.press("ctrl+l")
    await until(pilot, lambda: isinstance(app.screen, CoveringsScreen))
    columns = app.screen.query_one(CoveringColumns)
    await until(pilot, lambda: bool(columns.offered))
    return columns


async def test_the_screen_shows_all_four_and_offers_three_of_them(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job = surveyed(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.set_price(PRICES[-1])
        book.save_quote(job, priced.quote(priced.registered(), job=job))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        columns = await _columns(pilot, app)
        await sees(pilot, "1 ●square butt", "3 ○round butt", "4 ○felt", "d ○ no")
        assert await cut_off(pilot) == []
        await pilot.press("c", "d", "b")
        await hears(pilot, app, "A quote offers up to 3 coverings: leave one out first.")
        assert columns.offered == (True, False, True, True)
        await pilot.press("ctrl+r")
        await hears(pilot, app, "Priced: square butt, round butt, felt.")
        await pilot.press("3")
        await hears(pilot, app, "Chosen: round butt.")
    survey = read_again(path).survey
    assert survey is not None
    assert survey.covering == CHOSEN
