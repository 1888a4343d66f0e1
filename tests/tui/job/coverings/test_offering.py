"""A quote of several coverings: offered side by side, sent, and one of them accepted."""

from contextlib import closing
from pathlib import Path

import pytest
from textual.pilot import Pilot

from domain.estimate.quoting import option_total
from domain.estimate.supplies import PricesAndStock
from domain.job import CoveringChoice, EnquiryRecord, Job, MadeAt, Means, Sending, Stage
from domain.money import show_money
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.tui.books.a_job_to_price import NOW, app_on, sent, surveyed
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import form_of, hears, turn_to, until
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.job.coverings.covering_columns import CoveringColumns
from tui.job.coverings.coverings_screen import CoveringsScreen
from tui.job.job_screen import JobScreen
from tui.job.reprice_dialog import RepriceDialog
from tui.shell.app import HeadlapApp
from tui.widgets.form_dialog import FormDialog

TODAY = NOW.date()
JOB = builders.ready_for(Stage.QUOTED, quotes=(priced.quote(),))
SOURCES = PricesAndStock(priced.PRICES, (), builders.VISIT)
ALL = ("square-butt", "hexagonal", "felt")


def _drafted(path: Path) -> None:
    """A quote in draft, in the covering of the survey."""
    job = surveyed(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.save_quote(job, priced.quote(priced.registered(), job=job))


def _offered(path: Path) -> Job:
    """A quote of three coverings that was sent."""
    job = surveyed(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        job = book.save_quote(job, priced.three_options(job))
        return book.send_quote(
            job, Sending(TODAY, builders.VALID_UNTIL, {"finials": "none", "photo": "wet"})
        )


def _newest(path: Path) -> list[str]:
    return [option.covering for option in read_again(path).quotes[-1].options]


async def _side_by_side(pilot: Pilot[None], app: HeadlapApp) -> CoveringColumns:
    await turn_to(pilot, app, PageName.QUOTE)
    await pilot.press("ctrl+l")
    await until(pilot, lambda: isinstance(app.screen, CoveringsScreen))
    columns = app.screen.query_one(CoveringColumns)
    await until(pilot, lambda: bool(columns.offered))
    return columns


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("by", ["key", "mouse"])
async def test_what_is_ticked_is_priced_as_one_quote(
    tmp_path: Path, size: tuple[int, int], by: str
) -> None:
    path = tmp_path / "book.headlap"
    _drafted(path)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        columns = await _side_by_side(pilot, app)
        assert columns.offered == (True, False, False)
        if by == "key":
            await pilot.press("c", "ctrl+r")
        else:
            await click_on(pilot, "c ○ no")
            await sees(pilot, "c ✓ yes")
            await click_on(pilot, "price them")
        await hears(pilot, app, "Priced: square butt, felt. It is a draft")
        assert columns.offered == (True, False, True)
        assert await cut_off(pilot) == []
        await pilot.press("escape")
        await sees(pilot, "The customer picks one", "Square butt shingles, slate grey", "Felt,")
        assert await cut_off(pilot) == []
    assert _newest(path) == ["square-butt", "felt"]


async def test_what_is_left_out_again_is_no_longer_offered_and_the_survey_s_own_stays(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    job = surveyed(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.save_quote(job, priced.three_options(job))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        columns = await _side_by_side(pilot, app)
        assert columns.offered == (True, True, True)
        await pilot.press("a")
        await hears(pilot, app, "The quote begins with the covering of the survey: it stays in.")
        await pilot.press("b", "c", "ctrl+r")
        await hears(pilot, app, "Priced: square butt.")
    assert _newest(path) == ["square-butt"]


async def test_after_a_quote_that_was_sent_it_is_asked_first(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    sent(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await _side_by_side(pilot, app)
        await pilot.press("b", "ctrl+r")
        await until(pilot, lambda: isinstance(app.screen, RepriceDialog))
        await sees(pilot, "Version 1 has gone out. Re-price as a new version?")
        assert len(read_again(path).quotes) == 1
        await pilot.press("y")
        await hears(pilot, app, "Priced: square butt, hexagonal.")
    job = read_again(path)
    assert [len(quote.options) for quote in job.quotes] == [1, 2]


async def test_before_there_is_a_quote_the_miles_are_not_known(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    surveyed(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await _side_by_side(pilot, app)
        await pilot.press("ctrl+r")
        await hears(pilot, app, "No mileage entered yet: price it on the quote page first.")
    assert read_again(path).quotes == ()


async def test_a_covering_without_a_price_cannot_be_offered(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    with closing(Book.open(path, lambda: NOW)) as book:
        book.save_trader(priced.registered())
        for price in priced.PRICES:
            if price.material != "felt":
                book.set_price(price)
        job = book.take_enquiry(
            EnquiryRecord(builders.customer(), builders.site(), builders.enquiry())
        )
        book.save_survey(job, builders.survey())
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        columns = await _side_by_side(pilot, app)
        assert columns.offered == (True, False, None)
        await pilot.press("c")
        await hears(pilot, app, "No price for felt yet")
        assert await cut_off(pilot) == []


@pytest.mark.parametrize("size", SIZES)
async def test_the_yes_asks_which_and_the_survey_follows(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    felt = show_money(option_total(_offered(path).quotes[0].options[2]).gross)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await turn_to(pilot, app, PageName.QUOTE)
        await sees(pilot, f"Version 1, from {felt}. Sent on", "The customer picks one")
        await pilot.press("ctrl+e")
        await until(pilot, lambda: isinstance(app.screen, FormDialog))
        await sees(pilot, "○ square butt", "○ hexagonal", "○ felt")
        form_of(app).put("who", "Mrs Adeyemi")
        form_of(app).put("means", Means.SPOKEN.value)
        form_of(app).put("made_at", MadeAt.PREMISES.value)
        await pilot.press("ctrl+s")
        await sees(pilot, "Covering is empty. Pick the one they chose.")
        assert await cut_off(pilot) == []
        await click_on(pilot, "○ felt")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: isinstance(app.screen, JobScreen))
        await sees(pilot, f"Version 1, {felt}. Accepted by", "Felt, slate grey")
        assert await cut_off(pilot) == []
        survey = read_again(path).survey
        assert survey is not None
        assert survey.covering == CoveringChoice("felt", "slate grey")
        await pilot.press("f8")  # the survey changes as well, so it asks
        await sees(pilot, "Undo: acceptance of Birch Lane recorded")
        await pilot.press("y")
        await hears(pilot, app, "acceptance recorded")
    job = read_again(path)
    assert (job.survey and job.survey.covering) == builders.survey().covering
    assert job.quotes[0].acceptance is None


async def test_the_site_sheet_is_not_set_out_in_another_covering_than_agreed(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    job = _offered(path)
    felt = job.quotes[0].options[2].id or 0
    with closing(Book.open(path, lambda: NOW)) as book:
        job = book.accept_quote(job, builders.acceptance(option_id=felt, on=TODAY))
        book.save_survey(job, builders.survey())
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.QUOTE)
        await pilot.press("f12")
        await hears(pilot, app, "The customer accepted felt but the survey says square butt")
        assert await cut_off(pilot) == []
