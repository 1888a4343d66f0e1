"""A call about the weather is one action: told in the history, undone like any other."""

from dataclasses import replace
from datetime import timedelta

import pytest

from domain.errors import NotNow
from domain.job import DaysMoved, Rung
from domain.week import TaskKind
from domain.week.put_off import PutOff
from storage.book import Book
from storage.week_and_jobs import read_week
from tests import builders
from tests.storage.books import booked, undo

TOMORROW = builders.LAY_DAY - timedelta(days=1)
RAINY = Rung(builders.LAY_DAY, TOMORROW, "r11/3@14")


def test_days_are_moved_told_and_undone(book: Book) -> None:
    before = booked(book)
    after = book.move_days(before, DaysMoved(before.days, 6))
    assert after == book.job(before.id or 0)
    moved_on = [replace(each, day=each.day + timedelta(days=6)) for each in before.days]
    assert list(after.days) == moved_on
    assert after.materials_in_hand == before.materials_in_hand
    assert book.history(before.id or 0)[0].words == "moved to Tue 30 Jun"
    assert undo(book, before.id or 0) == "moved to Tue 30 Jun"
    assert book.job(before.id or 0).days == before.days


def test_a_day_that_stays_is_kept_told_and_undone(book: Book) -> None:
    before = booked(book)
    after = book.keep_days(before, (RAINY,))
    assert after == book.job(before.id or 0)
    told = [(rung.day, rung.on, rung.forecast) for rung in after.rung]
    assert told == [(builders.LAY_DAY, TOMORROW, "r11/3@14")]
    (line,) = read_week(book._path, TOMORROW).lines
    assert line.rung == after.rung
    clause = "rung about Wed 24 Jun: it stays"
    assert book.history(before.id or 0)[0].words == clause
    assert undo(book, before.id or 0) == clause
    assert book.job(before.id or 0).rung == ()


def test_a_call_that_nobody_answered_waits_until_its_day(book: Book) -> None:
    before = booked(book)
    wanted = PutOff(TaskKind.RING, builders.LAY_DAY)
    book.ring_again(before, wanted)
    assert read_week(book._path, TOMORROW).put_off == {(before.id, TaskKind.RING)}
    assert read_week(book._path, builders.LAY_DAY).put_off == set()
    clause = "rung, no answer: again on Wed 24 Jun 2026"
    assert book.history(before.id or 0)[0].words == clause
    assert undo(book, before.id or 0) == clause
    assert read_week(book._path, TOMORROW).put_off == set()


def test_days_that_are_booked_otherwise_by_now_are_not_moved(book: Book) -> None:
    job = booked(book)
    was = tuple(replace(each, hours=each.hours + 1) for each in job.days)
    with pytest.raises(NotNow, match="changed meanwhile"):
        book.move_days(job, DaysMoved(was, 6))
    with pytest.raises(NotNow, match="changed meanwhile"):
        book.keep_days(job, (replace(RAINY, day=builders.SIGNED),))
