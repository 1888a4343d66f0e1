"""Random lives of jobs against a reckoner that reads only the ledger, and what it finds wrong."""

import shutil
from datetime import date
from pathlib import Path
from random import Random

import pytest

from tests.storage.books import opened
from tests.storage.ledger.agreed_jobs import csv_of
from tests.storage.ledger.money_lives import DEEDS, DEEDS_OF_MONEY, JOBS, Life, lay_jobs
from tests.storage.ledger.reckoner import reckon, reckoned_book
from tests.storage.ledger.tax_reckoner import reckon_tax

LIVES = 1_000
LAST = date(2027, 6, 1)
SHARDS = 5
STEPS = 230


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> dict[bool, Path]:
    """Books of laid jobs, of a trader who is registered for VAT and of one who is not."""
    folder, books = tmp_path_factory.mktemp("laid"), {}
    for registered in (True, False):
        books[registered] = folder / f"{registered}.headlap"
        with opened(books[registered]) as book:
            lay_jobs(book, Random(registered), registered=registered)  # noqa: S311 -- to be repeated
    return books


def _live_through(laid: dict[bool, Path], path: Path, seed: int) -> int:
    """Live the lives of a book's jobs, one thing after the other; return how many rows it gave."""
    chance = Random(seed)  # noqa: S311 -- to be repeated
    shutil.copy(laid[chance.random() < 0.75], path)
    with opened(path) as book:
        done: list[str] = []
        lives = [Life(book, book.job(at + 1), chance, done) for at in range(JOBS)]
        for _ in range(DEEDS * JOBS):
            chance.choice(lives).live()
        told = csv_of(book, LAST).decode()
    try:
        reckon_tax(told)
        return reckon(told)
    except Exception as wrong:
        raise AssertionError("\n".join((f"{seed}: {wrong}", *done, told))) from wrong


def test_lives_of_jobs_come_out_as_the_reckoner_has_them(
    laid: dict[bool, Path], path: Path
) -> None:
    assert sum(_live_through(laid, path, seed) for seed in range(5)) > 20 * JOBS


@pytest.mark.long
def test_a_life_balances_after_every_step(laid: dict[bool, Path], path: Path) -> None:
    shutil.copy(laid[False], path)  # of whom registers among it
    chance, done = Random(10), list[str]()  # noqa: S311 -- to be repeated
    with opened(path) as book:
        lives = [Life(book, book.job(at + 1), chance, done) for at in range(JOBS)]
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
    assert deeds == {deed.__name__ for deed in DEEDS_OF_MONEY}


@pytest.mark.long
@pytest.mark.parametrize("shard", range(SHARDS))
def test_a_thousand_lives_come_out_as_the_reckoner_has_them(
    laid: dict[bool, Path], path: Path, shard: int
) -> None:
    for seed in range(LIVES // JOBS // SHARDS):
        _live_through(laid, path, 1_000 * (shard + 1) + seed)
