"""The list of jobs: found by words, by stage, by keys and by mouse; every row to its last word."""

import threading
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from rich.console import RenderableType
from textual import events
from textual.screen import Screen
from textual.widgets import Input

from domain.job import Closing, Ending, EnquiryRecord, Job, Stage
from domain.trader import Rates
from storage import week_and_jobs
from storage.book import Book
from tests import builders
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.books.an_enquiry import NASTY
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, click_on, cut_off, lines, place_of, sees, text
from tui.job.job_screen import JobScreen
from tui.lists import jobs_screen
from tui.lists.jobs_screen import JobsScreen
from tui.shell.app import HeadlapApp
from tui.week.week_screen import WeekScreen
from tui.widgets.line_list import LineList

NAMES = ("Zoë Müller", NASTY, "Mr Ek")


def _with_others(book: Book, job: Job) -> Job:
    for name in NAMES:
        other = book.take_enquiry(
            EnquiryRecord(
                replace(builders.customer(), name=name, id=None),
                builders.site(place=f"{name[:4]} Lane\n🏚 {'x' * 90}"),
                builders.enquiry(),
            ),
        )
        if name == "Mr Ek":
            book.end_job(other, Closing(Ending.DECLINED, "too dear", TODAY))
    return job


def _renamed(book: Book, job: Job) -> Job:
    told = EnquiryRecord(replace(job.customer, name="Miss Vale"), job.site, job.enquiry)
    return book.change_enquiry(job, told)


async def _shown(hands: Hands, *refs: str) -> None:
    """Wait until the list shows these jobs and no others."""

    def so() -> bool:
        return [line.split()[0] for line in _rows(lines(hands.app))] == list(refs)

    await hands.until(so)


def _rows(on_screen: Sequence[str]) -> list[str]:
    return [line for line in on_screen if line[2:6].isdigit()]


async def _opened(hands: Hands, app: HeadlapApp) -> None:
    assert isinstance(app.screen, WeekScreen)
    await hands.press(key("anywhere", "go('jobs')"))
    await hands.until(lambda: isinstance(app.screen, JobsScreen))


@pytest.mark.parametrize("size", SIZES)
async def test_every_row_is_seen_to_its_last_word(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    by_another_hand(path, _with_others)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await _opened(hands, app)
        await _shown(hands, "0004", "0003", "0002", "0001")
        assert await cut_off(pilot) == []
        assert _rows(lines(app))[-1].endswith("24 Jun    £382.11 owed")
        headings = next(line for line in lines(app) if {"job", "stage", "place"} <= {*line.split()})
        last = _rows(lines(app))[-1]
        assert headings.index("stage") == last.index("signed off")
        assert headings.index("next day") + 8 == last.index("24 Jun") + 6
        assert headings.index("price") + 5 == last.index("£382.11") + 7
        assert "declined" in _rows(lines(app))[0]
        assert "signed off" in _rows(lines(app))[-1]
        assert max(map(len, _rows(lines(app)))) <= size[0]
        assert "\u202e" not in text(app)


async def test_jobs_are_found_by_words_and_by_stage(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    by_another_hand(path, _with_others)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await _opened(hands, app)
        await hands.press(key("jobs", "find"))
        await hands.type_in("zoe mull")
        await _shown(hands, "0002")
        await hands.press("enter")
        await hands.until(lambda: isinstance(app.screen, JobScreen))
        await hands.shows_a_job(2)
        await hands.press("escape")
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        await hands.press("escape")  # first the words go
        await _shown(hands, "0004", "0003", "0002", "0001")
        await click_on(pilot, "enquiry 2")
        await _shown(hands, "0003", "0002")
        await hands.press(key("jobs", "previous_group"))
        await hands.press(key("jobs", "previous_group"), key("jobs", "previous_group"))
        await _shown(hands, "0004")
        place_of(app, "▸declined 1")
        await hands.press("slash", *"[/]%_'")
        await sees(pilot, "No job with these words. esc clears them; F7 adds an enquiry.")
        assert await cut_off(pilot) == []
        await hands.press("escape", "escape", *[key("jobs", "next_group")] * 2)
        await _shown(hands, "0004", "0003", "0002", "0001")
        await click_on(pilot, "Smith")
        await hands.shows_a_job(3)


async def test_what_is_typed_after_the_slash_of_the_week_finds(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    by_another_hand(path, _with_others)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press(key("week", "find"))
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        await hands.type_in("zoe mull")
        await _shown(hands, "0002")


async def test_stepping_back_leaves_the_words_then_the_list(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await _opened(hands, app)
        await click_on(pilot, "customer, place or reference")
        await hands.type_in("?")
        find = app.screen.query_one("#find", Input)
        assert find.has_focus
        assert find.value == "?"  # a letter is text while it is typed, no command
        await hands.type_in("zo")
        await hands.press("escape")
        assert (find.value, find.has_focus) == ("", True)  # for another word
        await hands.press("escape")
        assert not find.has_focus
        await hands.type_in("/")
        await hands.press("z", "down", "slash", "b")
        assert find.value == "b"  # not after the word of the search before
        await hands.press("escape", "escape", "escape")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))


async def test_the_list_begins_afresh_each_time_also_above_a_job_opened_from_it(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    by_another_hand(path, _with_others)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await _opened(hands, app)
        await hands.press(key("jobs", "next_group"))
        await hands.press(key("jobs", "find"))
        await hands.type_in("zoe")
        await _shown(hands, "0002")
        await hands.press("enter")
        await hands.shows_a_job(2)
        await hands.press(key("anywhere", "go('jobs')"))
        await _shown(hands, "0004", "0003", "0002", "0001")
        await hands.press("escape")
        await hands.shows_a_job(2)
        await hands.press("escape")
        await _shown(hands, "0002")
        assert app.screen.query_one("#find", Input).value == "zoe"
        await hands.press(key("anywhere", "go('week')"))
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        by_another_hand(path, _renamed)
        await _opened(hands, app)
        await _shown(hands, "0004", "0003", "0002", "0001")
        await sees(pilot, "▸all 4", "Miss Vale")
        assert app.screen.query_one("#find", Input).value == ""
        assert app.screen.query_one(LineList).cursor == 0


async def test_keys_are_never_held_up_by_the_search_and_the_newest_words_win(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    by_another_hand(path, _with_others)
    app, searched, go_on = app_on(path), list[str](), threading.Event()
    find = week_and_jobs.find_jobs

    def slow(path: Path, words: str, group: Stage | Ending | None) -> week_and_jobs.FoundJobs:
        searched.append(words)
        assert not words or go_on.wait(10)
        return find(path, words, group)

    monkeypatch.setattr(week_and_jobs, "find_jobs", slow)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await _opened(hands, app)
        await _shown(hands, "0004", "0003", "0002", "0001")
        await hands.press(key("jobs", "find"))
        await hands.type_in("z")
        await hands.until(lambda: searched[-1] == "z")
        await hands.type_in("oe mull")
        assert app.screen.query_one("#find", Input).value == "zoe mull"
        await hands.press("enter")
        go_on.set()
        await hands.shows_a_job(2)
    assert [words for words in searched if words] == ["z", "zoe mull"]


@pytest.mark.parametrize("waits_s", [10.0, 0.0])
async def test_a_letter_is_painted_with_what_it_finds_unless_that_takes_long(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, waits_s: float
) -> None:
    monkeypatch.setattr(jobs_screen, "_AT_ONCE_S", waits_s)
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    by_another_hand(path, _with_others)
    app, go_on, painted = app_on(path), threading.Event(), list[str]()
    find, paint = week_and_jobs.find_jobs, app._display

    def slow(path: Path, words: str, group: Stage | Ending | None) -> week_and_jobs.FoundJobs:
        assert not words or go_on.wait(10)
        return find(path, words, group)

    def noted(screen: Screen[object], drawn: RenderableType | None) -> None:
        painted.extend(each.value for each in screen.query("#find").results(Input))
        paint(screen, drawn)

    monkeypatch.setattr(week_and_jobs, "find_jobs", slow)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands, app)
        await hands.press(key("jobs", "find"))
        await pilot.pause()
        monkeypatch.setattr(app, "_display", noted)
        await hands.type_in("z")
        if not waits_s:
            await hands.until(lambda: "z" in painted)
        await pilot.pause(0.1)
        assert ("z" in painted) is (not waits_s)
        go_on.set()
        await _shown(hands, "0002")
        await hands.until(lambda: "z" in painted)


async def test_a_slip_of_a_letter_offers_the_nearest_name_and_enter_finds_it(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    by_another_hand(path, _with_others)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press(key("week", "find"))
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        await hands.type_in("zoe mullre")
        await sees(pilot, "No job with these words. Nearest: Zoë Müller.")
        assert await cut_off(pilot) == []
        await hands.press("enter")
        await _shown(hands, "0002")
        assert app.screen.query_one("#find", Input).has_focus
        await hands.press("enter")
        await hands.shows_a_job(2)


async def test_enter_opens_the_only_one_found_though_another_stage_is_shown(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    by_another_hand(path, _with_others)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await _opened(hands, app)
        await click_on(pilot, "signed off 1")
        await _shown(hands, "0001")
        await hands.press(key("jobs", "find"))
        await hands.type_in("zoe mull")
        await sees(pilot, "No job of this stage with these words; 1 of others: Enter.")
        await hands.press("enter")
        await hands.shows_a_job(2)


def _with_starting_rates(book: Book, job: Job) -> Job:
    book.save_trader(replace(book.trader(), rates=Rates()))
    return job


@pytest.mark.parametrize("size", SIZES)
async def test_a_size_is_priced_on_the_telephone_and_becomes_an_enquiry(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    by_another_hand(path, _with_starting_rates)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _opened(hands, app)
        await hands.press(key("jobs", "find"))
        await hands.type_in("8x6 pent")
        await sees(
            pilot,
            "8x6 pent: ",
            "packs of square butt shingles, about £",
            "travel (▲ from",
            "F7: new enquiry.",
        )
        assert "No job" not in text(app)
        assert await cut_off(pilot) == []
        await hands.type_in("x")
        await hands.until(lambda: "about £" not in text(app))
        await hands.press("backspace")
        await sees(pilot, "packs of square butt shingles, about £")
        await hands.ask("f7")
        assert hands.form.values["nominal"] == "8x6 pent"
        assert "nominal" in hands.form.typed


async def test_words_to_find_hold_nothing_that_a_terminal_obeys(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await _opened(hands, app)
        await hands.press(key("jobs", "find"))
        app.post_message(events.Paste("birch \x1b[31m\u202ela\x9b\u200fne"))
        await sees(pilot, "birch [31mlane")
        assert all(line.isprintable() for line in lines(app))
