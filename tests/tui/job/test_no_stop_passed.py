"""A stop cannot be passed on any way that a screen offers, and the screen says what stops it."""

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from dataclasses import replace
from datetime import datetime, time
from pathlib import Path
from typing import Any

import pytest
from textual.screen import ModalScreen

from domain.checks.check import Check, Severity
from domain.checks.stages import CHECKS, Situation, missing
from domain.job import Job, Stage
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.domain.checks.cases import FAILS, FULL
from tests.tui.books.written_straight import put_down
from tests.tui.hands import Clock, Hands, key
from tui.frame.message_line import MessageLine
from tui.shell.app import make_app

STOPS = [
    check
    for check in CHECKS
    if check.severity is Severity.STOP and check.page is not PageName.TRADER
]
"""Those that the job itself settles."""
EVENING = Clock(datetime.combine(FULL.today, time(19, 0)))
BASIS = priced.quote().counting.basis


def _stops(situation: Situation, to: Stage) -> list[Check]:
    return [c for c in missing(situation, to) if c.severity is Severity.STOP]


def _lacking(check: Check) -> Job:
    """A job in which a stop is open, and as few others as can be."""
    changed = [change(FULL) for check_id, change in FAILS if check_id == check.id]
    fewest = min(changed, key=lambda s: len(_stops(s, check.stage)))
    assert check.id in {each.id for each in _stops(fewest, check.stage)}
    return fewest.job


def _stop(check_id: str) -> Check:
    return next(check for check in STOPS if check.id == check_id)


def _before(stage: Stage) -> Stage:
    return list(Stage)[stage.rank - 1]


def _at(job: Job, stage: Stage) -> Job:
    option = builders.option(basis=BASIS)
    quotes = tuple(replace(quote, options=(option,)) for quote in job.quotes)
    return replace(job, stage=stage, quotes=quotes)


def _rows(path: Path, query: str) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(query).fetchall()


def _stages(path: Path) -> dict[int, str]:
    return dict(_rows(path, "SELECT id, stage FROM job"))


def _book(path: Path, jobs: Iterable[Job]) -> list[int]:
    with closing(Book.open(path, EVENING)) as book:
        book.save_trader(builders.trader())
    return put_down(path, list(jobs))


def _nothing_moved(path: Path, before: dict[int, str], hands: Hands) -> bool:
    """Tell whether the stages are those of before, and no dialog asks how to go on."""
    return _stages(path) == before and not isinstance(hands.app.screen, ModalScreen)


async def _by_palette(hands: Hands, words: str) -> None:
    """Run a command as the palette does when it is chosen there."""
    offered = hands.app.get_system_commands(hands.app.screen)
    command = next(each for each in offered if each.title.startswith(f"{words}  "))
    command.callback()


async def _refused(hands: Hands, command: tuple[str, str], words: str, said: str) -> None:
    """Ask for a command by its key, then in the palette: the same is said to both."""
    await hands.press(key(*command))
    await hands.hears(said)
    hands.app.screen.query_one(MessageLine).hush()
    await _by_palette(hands, words)
    await hands.hears(said)


@pytest.mark.long
async def test_no_stop_is_passed_by_the_next_stage(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    who = STOPS[0]
    cases = [(check, check.stage) for check in STOPS]
    cases += [(who, stage) for stage in Stage if stage.rank > who.stage.rank]  # stops stay stops
    jobs = _book(path, [_at(_lacking(check), _before(stage)) for check, stage in cases])
    before = _stages(path)
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        for job_id, (check, stage) in zip(jobs, cases, strict=True):
            hands.app.open_job(job_id, PageName.MONEY)
            await hands.shows_a_job(job_id)
            said = f"Not {stage.done} yet. {check.words}"
            await _refused(hands, ("job", "next_stage"), "Next stage", said)
            assert _nothing_moved(path, before, hands), check.id
            await hands.press("escape")


@pytest.mark.long
async def test_no_stop_is_passed_by_sending_the_quote(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    checks = [c for c in STOPS if c.stage.rank <= Stage.QUOTED.rank and c.id != "quote-sent"]
    draft = builders.draft(options=(builders.option(basis=BASIS),))
    lacking = [replace(_lacking(check), quotes=(draft,)) for check in checks]
    jobs = _book(path, [replace(job, stage=Stage.SURVEY) for job in lacking])
    before = _stages(path)
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        for job_id, check in zip(jobs, checks, strict=True):
            hands.app.open_job(job_id, PageName.QUOTE)
            await hands.shows_a_job(job_id)
            said = f"Not ready to send. {check.words}"
            await _refused(hands, ("quote", "send"), "Send", said)
            assert _nothing_moved(path, before, hands), check.id
            await hands.press("escape")
    assert _rows(path, "SELECT DISTINCT sent_on FROM quote") == [(None,)]


async def test_no_quote_goes_out_in_nobodys_name(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    draft = builders.draft(options=(builders.option(basis=BASIS),))
    (job_id,) = _book(
        path, [builders.job_at(Stage.SURVEY, survey=builders.survey(), quotes=(draft,))]
    )
    with closing(Book.open(path, EVENING)) as book:
        book.save_trader(replace(book.trader(), address=""))
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        hands.app.open_job(job_id, PageName.QUOTE)
        await hands.shows_a_job(job_id)
        said = "Not ready to send. Are your own name and address filled in?"
        await _refused(hands, ("quote", "send"), "Send", said)
        await _refused(
            hands, ("job", "next_stage"), "Next stage", "Not quoted yet. Are your own name"
        )
    assert _rows(path, "SELECT sent_on FROM quote") == [(None,)]


async def test_haste_passes_no_stop(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job = replace(_lacking(_stop("covering-chosen")), stage=Stage.ENQUIRY)
    (job_id,) = _book(path, [job])
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        hands.app.open_job(job_id, PageName.MONEY)
        await hands.shows_a_job(job_id)
        hands.hold(key("job", "next_stage"), times=9)
        await hands.until(lambda: _stages(path) == {job_id: Stage.SURVEY})
        hands.hold(key("job", "next_stage"), times=9)
        await hands.hears("Not quoted yet. Covering chosen?")
        await hands.comes_to_rest()  # the rest of the keys are to pass no stop either
    assert _stages(path) == {job_id: Stage.SURVEY}
