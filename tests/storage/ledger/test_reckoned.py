"""Random lives of jobs against a reckoner that reads only the ledger, and what it finds wrong."""

import shutil
from datetime import date
from itertools import product
from pathlib import Path
from random import Random

import pytest

from tests.storage.books import opened
from tests.storage.ledger.agreed_jobs import csv_of
from tests.storage.ledger.ahead_lives import DEEDS_AHEAD, agree_jobs
from tests.storage.ledger.money_lives import DEEDS, DEEDS_OF_MONEY, JOBS, Life, lay_jobs
from tests.storage.ledger.reckoner import reckon, reckoned_book
from tests.storage.ledger.tax_reckoner import reckon_tax

LIVES = 1_000
LAST = date(2027, 6, 1)
SHARDS = 5
STEPS = 230


Books = dict[tuple[bool, bool], Path]
"""By whether the trader is registered for VAT, and whether the jobs are laid."""


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Books:
    """Books of jobs that are laid, and of jobs that are only agreed."""
    folder, books = tmp_path_factory.mktemp("begun"), {}
    for registered, laid in product((True, False), repeat=2):
        books[registered, laid] = folder / f"{registered} {laid}.headlap"
        with opened(books[registered, laid]) as book:
            chance = Random(registered)  # noqa: S311 -- to be repeated
            (lay_jobs if laid else agree_jobs)(book, chance, registered=registered)
    return books


def _live_through(begun: Books, path: Path, seed: int) -> int:
    """Live the lives of a book's jobs, one thing after the other; return how many rows it gave."""
    chance = Random(seed)  # noqa: S311 -- to be repeated
    registered, laid = chance.random() < 0.6, chance.random() < 0.5
    shutil.copy(begun[registered, laid], path)
    with opened(path) as book:
        done: list[str] = []
        deeds = DEEDS_OF_MONEY if laid else DEEDS_AHEAD
        lives = [Life(book, book.job(at + 1), chance, done, deeds) for at in range(JOBS)]
        for _ in range(DEEDS * JOBS):
            chance.choice(lives).live()
        told = csv_of(book, LAST).decode()
    try:
        reckon_tax(told)
        return reckon(told)
    except Exception as wrong:
        raise AssertionError("\n".join((f"{seed}: {wrong}", *done, told))) from wrong


def test_lives_of_jobs_come_out_as_the_reckoner_has_them(begun: Books, path: Path) -> None:
    assert sum(_live_through(begun, path, seed) for seed in range(6)) > 20 * JOBS


@pytest.mark.long
def test_a_life_balances_after_every_step(begun: Books, path: Path) -> None:
    shutil.copy(begun[False, False], path)  # of whom registers among it
    chance, done = Random(10), list[str]()  # noqa: S311 -- to be repeated
    with opened(path) as book:
        lives = [Life(book, book.job(at + 1), chance, done, DEEDS_AHEAD) for at in range(JOBS)]
        for _ in range(STEPS):
            chance.choice(lives).live()
            told = csv_of(book, LAST).decode()
            reckon_tax(told)
            reckoned = reckoned_book(told)
            jobs = [book.job(at + 1) for at in range(JOBS)]
            owed = {
                each.label: each.owed for job in jobs for each in job.documents if each.kind.asks
            }
            assert {key: each.owed for key, each in reckoned.asked.items()} == owed, done[-1]
            for who in {job.customer.name for job in jobs}:
                credit = sum(job.credit for job in jobs if job.customer.name == who)
                assert reckoned.credit_of(who) == credit, done[-1]
    deeds = {each for each in done if not each.startswith("not ")}
    assert deeds == {deed.__name__ for deed in DEEDS_AHEAD}


@pytest.mark.long
@pytest.mark.parametrize("shard", range(SHARDS))
def test_a_thousand_lives_come_out_as_the_reckoner_has_them(
    begun: Books, path: Path, shard: int
) -> None:
    for seed in range(LIVES // JOBS // SHARDS):
        _live_through(begun, path, 1_000 * (shard + 1) + seed)
