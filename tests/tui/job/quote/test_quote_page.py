"""The quote from the take-off to the yes: what is shown of it, asked about it and kept."""

from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from domain.job import EnquiryRecord, MadeAt, Means, Stage
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.tui.books.a_job_to_price import NOW, accepted, app_on, sent, surveyed
from tests.tui.books.an_enquiry import NASTY, book_at, read_again
from tests.tui.hands import form_of, said, turn_to, until
from tests.tui.sight import SIZES, cut_off, lines, sees
from tui.job.job_screen import JobScreen
from tui.job.reprice_dialog import RepriceDialog
from tui.papers.paper_part import PaperPart
from tui.papers.paper_screen import PaperScreen
from tui.shell.app import HeadlapApp
from tui.widgets.form_dialog import FormDialog

TODAY = date(2026, 6, 10)


def _standing(app: HeadlapApp) -> str:
    shown = app.screen.query("#standing")  # none while a dialog is saved
    return str(shown.only_one(Static).render()) if shown else ""


def _paper(app: HeadlapApp) -> str:
    return app.screen.paper.title if isinstance(app.screen, PaperScreen) else ""


async def _open(pilot: Pilot[None]) -> HeadlapApp:
    app = pilot.app
    assert isinstance(app, HeadlapApp)
    await turn_to(pilot, app, PageName.QUOTE)
    return app


async def _answer(pilot: Pilot[None], app: HeadlapApp, key: str, typed: dict[str, str]) -> None:
    """Ask for a dialog, fill it in and save it."""
    await pilot.press(key)
    await until(pilot, lambda: isinstance(app.screen, FormDialog))
    await pilot.pause()
    for field, text in typed.items():
        form_of(app).put(field, text)
    await pilot.press("ctrl+s")


async def test_a_quote_on_record_is_read_first_and_its_sending_offered(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    surveyed(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = await _open(pilot)
        assert app.focused is form_of(app).query_one("#field-miles")
    with closing(Book.open(path, lambda: NOW)) as book:
        job = book.job(1)
        book.save_quote(job, priced.quote(priced.registered(), job=job))
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = await _open(pilot)
        await sees(pilot, "ctrl+t send")
        assert app.focused is app.screen.query_one("#lines")
        await pilot.press("9")
        assert form_of(app).values["miles"] == "12"


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_a_job_is_priced_sent_and_accepted(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    surveyed(path)
    async with app_on(path).run_test(size=size) as pilot:
        app = await _open(pilot)
        form_of(app).put("miles", "12")
        form_of(app).put("deposit", "100")
        await pilot.press("ctrl+r")
        await until(pilot, lambda: "Draft," in _standing(app))
        notes = {"finials": "none on it", "photo": "wet"}
        await _answer(pilot, app, "ctrl+t", {"sent_on": "today", "valid_days": "14", **notes})
        await until(pilot, lambda: "Sent on" in _standing(app))
        await sees(pilot, "ctrl+e accepted")
        assert "ctrl+t" not in lines(app)[-1]  # there is nothing more to send
        yes = {
            "who": "Mrs Adeyemi",
            "means": Means.SPOKEN.value,
            "made_at": MadeAt.AWAY.value,
            "notice_on": "today",
        }
        await _answer(pilot, app, "ctrl+e", yes)
        await until(pilot, lambda: "Accepted by" in _standing(app))
        assert "Wed 24 Jun 2026" in said(app)
    job = read_again(path)
    (quote,) = job.quotes
    assert (job.stage, quote.deposit) == (Stage.QUOTED, 100_00)
    assert (quote.sent_on, quote.valid_until) == (TODAY, date(2026, 6, 24))
    assert {note.check_id: note.words for note in job.notes} == notes
    assert quote.acceptance is not None
    assert (quote.acceptance.means, quote.acceptance.notice_on) == (Means.SPOKEN, TODAY)


async def test_a_caution_without_a_note_is_not_passed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    surveyed(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = await _open(pilot)
        form_of(app).put("miles", "12")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Draft," in _standing(app))
        await _answer(pilot, app, "ctrl+t", {"finials": "none"})
        await until(pilot, lambda: "Note 2" in said(app))
        assert form_of(app).values["finials"] == "none"
    assert read_again(path).quotes[0].sent_on is None


async def test_a_yes_changed_in_another_window_is_saved_on_top_after_a_word(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    job = accepted(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = await _open(pilot)
        await pilot.press("ctrl+e")
        await until(pilot, lambda: isinstance(app.screen, FormDialog))
        await pilot.pause()
        form_of(app).put("who", "Mr Okoro")
        with closing(Book.open(path, lambda: NOW)) as book:
            book.change_enquiry(
                job, EnquiryRecord(job.customer, replace(job.site, access="gate"), job.enquiry)
            )
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "in another window" in said(app))
        assert await cut_off(pilot) == []
        assert form_of(app).values["who"] == "Mr Okoro"
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Accepted by Mr Okoro" in _standing(app))
    assert read_again(path).site.access == "gate"


@pytest.mark.parametrize("size", SIZES)
async def test_after_a_yes_pricing_makes_a_new_version_and_the_old_one_counts(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    accepted(path)
    async with app_on(path).run_test(size=size) as pilot:
        app = await _open(pilot)
        await pilot.press("ctrl+r")
        await sees(
            pilot,
            "Version 1 is accepted. Re-price as a new version?",
            "Version 2 starts as a draft",
        )
        assert await cut_off(pilot) == []
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, JobScreen))
        await pilot.press("ctrl+r")
        await until(pilot, lambda: isinstance(app.screen, RepriceDialog))
        await pilot.press("y")
        await until(pilot, lambda: isinstance(app.screen, JobScreen))
        await until(pilot, lambda: "Version 2, " in _standing(app))
        assert "Version 1 is the accepted one." in _standing(app)
        await pilot.press("f10")
        await sees(pilot, "Version 1 is the accepted one. Version 2 is a draft")
        assert _paper(app) == "Quote 0001"
        await pilot.press("f10")
        await until(pilot, lambda: _paper(app) == "Quote 0001, version 2")
        await sees(pilot, "paper  Quote 0001, version 2")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, JobScreen))
        await pilot.press("ctrl+r")
        await until(pilot, lambda: "Nothing changed" in said(app))  # the draft was priced already
    job = read_again(path)
    assert [quote.number for quote in job.quotes] == [1, 2]
    assert job.quotes[0].acceptance is not None


@pytest.mark.parametrize("size", SIZES)
async def test_a_quote_that_was_sent_is_priced_anew_only_once_asked(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    sent(path)
    async with app_on(path).run_test(size=size) as pilot:
        app = await _open(pilot)
        await pilot.press("ctrl+r")
        await sees(
            pilot,
            "Version 1 has gone out. Re-price as a new version?",
            "Version 2 starts as a draft",
        )
        assert await cut_off(pilot) == []
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, JobScreen))
        assert len(read_again(path).quotes) == 1
        await pilot.press("ctrl+r")
        await until(pilot, lambda: isinstance(app.screen, RepriceDialog))
        await pilot.press("y")
        await until(pilot, lambda: isinstance(app.screen, JobScreen))
        await until(pilot, lambda: "Version 2, " in _standing(app))


async def test_miles_that_will_not_do_stay_typed_and_nothing_is_drafted(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    surveyed(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = await _open(pilot)
        form_of(app).put("miles", NASTY)
        await pilot.press("ctrl+r")
        await until(pilot, lambda: "Round trip" in said(app))
        assert app.focused is app.screen.query_one("#field-miles")
        await pilot.press("ctrl+t")
        await until(pilot, lambda: "No draft." in said(app))
        await pilot.press("ctrl+e")
        await until(pilot, lambda: "No quote sent yet" in said(app))
    assert read_again(path).quotes == ()


async def test_an_enquiry_is_not_asked_for_notes_in_vain(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = await _open(pilot)
        form_of(app).put("miles", "12")
        await pilot.press("ctrl+r")
        await until(pilot, lambda: "Draft," in _standing(app))
        await pilot.press("ctrl+t")
        await until(pilot, lambda: "mark the survey as done first" in said(app))
    assert read_again(path).quotes[0].sent_on is None


async def test_a_stop_is_said_before_anything_is_asked(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job = surveyed(path)
    book = Book.open(path, lambda: NOW)
    unseen = replace(builders.survey().deck, seen_below=None)
    book.save_survey(job, builders.survey(deck=unseen))
    book.close()
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = await _open(pilot)
        form_of(app).put("miles", "12")
        await pilot.press("ctrl+r")
        await until(pilot, lambda: "Draft," in _standing(app))
        await pilot.press("ctrl+t")
        await until(pilot, lambda: "Deck looked at from below?" in said(app))
        assert not isinstance(app.screen, FormDialog)


async def test_a_version_priced_before_the_survey_changed_is_not_sent(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    accepted(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = await _open(pilot)
        await pilot.press("ctrl+r")
        await until(pilot, lambda: isinstance(app.screen, RepriceDialog))
        await pilot.press("y")
        await until(pilot, lambda: isinstance(app.screen, JobScreen))
        await until(pilot, lambda: "Version 2, " in _standing(app))
        await turn_to(pilot, app, PageName.SURVEY)
        form_of(app).put("length", "3 m")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Saved: the survey" in said(app))
        await turn_to(pilot, app, PageName.QUOTE)
        await pilot.press("ctrl+t")
        await until(pilot, lambda: "Priced before the survey changed: price it" in said(app))
        assert not isinstance(app.screen, FormDialog)
    assert read_again(path).quotes[1].sent_on is None


@pytest.mark.parametrize(("size", "beside"), [((80, 24), False), ((100, 30), True)])
async def test_ones_own_figures_stand_apart_at_every_width(
    tmp_path: Path, size: tuple[int, int], beside: bool
) -> None:
    path = tmp_path / "book.headlap"
    accepted(path)
    async with app_on(path).run_test(size=size) as pilot:
        app = await _open(pilot)
        seen, own = (app.screen.query_one(f"#{name}", PaperPart) for name in ("seen", "own"))
        await until(pilot, lambda: bool(seen.region and own.region))  # both are laid out
        await until(pilot, lambda: (seen.region.right <= own.region.x) is beside)
        assert (seen.region.bottom <= own.region.y) is not beside
