"""Ten evenings at random: Tonight names what is due, by an account of its own, and nothing else."""

import random
from collections import Counter
from contextlib import closing
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from domain.days.forecast_line import read_line
from domain.week import TaskKind, plan_week
from domain.week.put_off import PutOff
from domain.week.tonight_order import TaskSign, kind_of
from storage.week_and_jobs import read_week
from tests.storage.due_by_sqlite import lines_due
from tests.storage.evenings import Evening, one_at_random

pytestmark = pytest.mark.long

FIRST = date(2026, 5, 4)
JOBS = 36
SKIES = ("d", "d", "r", "c", "d@45", "?")
NOT_TOLD = {TaskKind.BACKUP, TaskKind.SHORT}
"""Whether a stick is there stands in no table, nor how long a day is light."""
NOT_IN_THE_BOOK = {*NOT_TOLD, TaskKind.DELIVERY, TaskKind.STATEMENT, TaskKind.CREDIT}
"""Nothing is ordered on these evenings, and no contractor pays."""


def _lay_out(path: Path, seed: int) -> date:
    """A book of jobs at random, the weather of a week and some lines that were put off."""
    rng = random.Random(seed)  # noqa: S311 -- no secret
    today = FIRST + timedelta(days=rng.randrange(100))
    evening = Evening(path, today)
    with closing(evening.book) as book:
        jobs = [one_at_random(evening, rng, number) for number in range(JOBS)]
        evening.called_off("Called off", kept=20_00 * (seed % 2))
        for job in rng.sample(jobs, 6):
            kind = rng.choice([k for k in TaskKind if kind_of(k).sign is not TaskSign.STOP])
            book.put_off(job, PutOff(kind, evening.day(rng.choice((1, 3)))))
        tonight = "d@45" if seed % 3 == 0 else "d"
        line = " ".join([tonight, *(rng.choice(SKIES) for _ in range(9))])
        book.save_forecasts(read_line("forecast", line, today))
        waste, liability = evening.day((-3, 4, 20, 200)[seed % 4]), evening.day(25)
        own = replace(book.trader(), waste_expires=waste, liability_expires=liability)
        rates = replace(own.rates, confirmed=()) if seed % 5 == 0 else own.rates
        book.save_trader(replace(own, rates=rates))
    return today


def test_none_is_missing_and_none_is_false(tmp_path: Path) -> None:
    met: Counter[str] = Counter()
    for seed in range(10):
        path = tmp_path / f"{seed}.headlap"
        today = _lay_out(path, seed)
        shown = plan_week(read_week(path, today), today).tonight
        told = Counter((task.kind.value, task.job_id or 0) for task in shown)
        told = Counter({key: n for key, n in told.items() if key[0] not in NOT_TOLD})
        due = lines_due(path, today)
        assert (told - due, due - told) == (Counter(), Counter()), f"evening {seed}, {today}"
        met.update(kind for kind, _ in due.elements())
    assert {kind.value for kind in TaskKind} - set(met) == set(NOT_IN_THE_BOOK)
