"""Getting around by keys alone: from field to field, between form and list, from page to page."""

from datetime import timedelta
from pathlib import Path

import pytest

from domain.job import EnquiryRecord, Job, Snag, Stage
from domain.page_names import PageName
from storage.book import Book
from tests import builders
from tests.tui.books.a_job_at_a_stage import NOW, TODAY, app_on, by_another_hand, carried_to
from tests.tui.hands import Clock, Hands, key, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.job.page_tabs import TABS
from tui.shell.app import HeadlapApp, make_app
from tui.week.day_strip import DayStrip
from tui.week.week_screen import WeekScreen
from tui.widgets.line_list import LineList
from tui.your_details.details_fields import FIELDS
from tui.your_details.details_screen import DetailsScreen


def _at(app: HeadlapApp) -> str | None:
    return app.focused.id if app.focused else None


async def test_enter_goes_from_field_to_field_and_stays_on_the_last(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        passed = [_at(app)]
        for text in ("Mr Ek", "yesterday", "", "fit to screen"):
            await hands.press("end", "ctrl+u")
            await hands.type_in(text)
            await hands.press("enter")
            passed.append(_at(app))
        assert passed == ["field-who", "field-on", "field-until", "field-words", "field-words"]
        await hands.save("Saved: signed off by the customer.")


async def test_enter_leaves_out_what_is_not_shown_and_goes_on_from_a_choice(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        await hands.ask(key("stripped", "add_extra"))
        form = hands.form
        form.focus_first()  # a new extra begins at its metres
        await hands.until(lambda: _at(app) == "field-words")
        ids = [field.id for field in form.fields]
        shown = [f"field-{each}" for each in ids if form.query_one(f"#row-{each}").display]
        assert len(shown) < len(form.fields)
        passed = []
        for _ in shown:
            passed.append(_at(app))
            await hands.press("enter")
        assert passed == shown
        assert _at(app) == shown[-1]


async def test_arrows_go_from_the_form_into_the_list_below_it_and_back(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, lambda book, job: book.save_snag(job, Snag("drip trim loose")))
    by_another_hand(path, lambda book, job: book.save_snag(job, Snag("ridge piece lifted")))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        await sees(pilot, "ridge piece lifted")
        await hands.press(*["down"] * 3)
        assert _at(app) == "field-words"
        await hands.press("down")
        snags = app.focused
        assert isinstance(snags, LineList)
        await hands.press("down", "up")
        assert (app.focused, snags.cursor) == (snags, 0)
        await hands.press("up")
        assert _at(app) == "field-words"
        await hands.press("down", "down", "down")
        assert app.focused is not snags  # on to what is missing
        await hands.press("up")
        assert app.focused is snags


@pytest.mark.long
async def test_the_page_keys_turn_pages_whatever_has_the_cursor(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.ENQUIRY)
        order = list(TABS)
        for page in (*order[1:], order[0]):
            await hands.press("pagedown")
            await hands.shows(page)
        app.screen.query_one("#missing-list").focus()
        for page in reversed(order):
            await hands.press("pageup")
            await hands.shows(page)


async def test_the_page_keys_go_by_the_parts_of_ones_own_details(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press("f6")
        await hands.until(lambda: isinstance(app.screen, DetailsScreen))
        await sees(pilot, "pgdn next section")
        parts = [field for field in FIELDS if field.section]
        for part in parts[1:]:
            await hands.press("pagedown")
            assert _at(app) == f"field-{part.id}"
            await sees(pilot, part.section)
        await hands.press("pagedown")
        assert _at(app) == f"field-{parts[-1].id}"  # there is none after it
        await hands.press("down", "pageup")
        assert _at(app) == f"field-{parts[-1].id}"  # first back to the beginning of this one
        await hands.press("pageup", "pageup")
        assert _at(app) == f"field-{parts[-3].id}"


@pytest.mark.parametrize("size", SIZES)
async def test_every_job_of_a_day_is_opened_by_keys(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)

    def two_visits(book: Book, job: Job) -> Job:
        for place in ("Mill Row", "Quarry Bank"):
            asked = builders.enquiry(visit_on=TODAY)
            book.take_enquiry(EnquiryRecord(builders.customer(), builders.site(place=place), asked))
        return job

    by_another_hand(path, two_visits)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Birch")
        app.screen.query_one(DayStrip).focus()
        await sees(pilot, "enter open", "▸Birch")
        for down, place, job_id in ((0, "▸Birch", 1), (1, "▸Mill R", 2), (2, "▸Quarry", 3)):
            await hands.press(*["down"] * down)
            await sees(pilot, place)
            assert await cut_off(pilot) == []
            await hands.press("enter")
            await hands.shows_a_job(job_id)
            await hands.press("escape")
            await hands.until(lambda: isinstance(app.screen, WeekScreen))
            await hands.press(*["up"] * 9)
        await click_on(pilot, "Birch")
        await hands.shows_a_job(1)


async def test_a_page_left_open_over_midnight_goes_by_the_new_day(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.job.job_screen._LOOK_S", 0.05)
    path, clock = tmp_path / "book.headlap", Clock(NOW)
    carried_to(path, Stage.BOOKED)
    app = make_app(path, clock)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        assert hands.form.values["on"] == "Wed 24 Jun 2026"
        clock.now += timedelta(days=1)
        await hands.until(lambda: hands.form.values["on"] == "Thu 25 Jun 2026")
