"""Two programs that write one book, one of them killed; and a clock that is put back."""

import random
import time
from collections.abc import Callable
from contextlib import closing, suppress
from datetime import datetime, timedelta
from pathlib import Path

from domain.errors import HeadlapError
from storage.backups.daily import back_up, back_up_of_the_day
from storage.backups.names import backups_folder, backups_in
from storage.book import Book
from tests.storage.books import NOW, dump, enquired, laid, opened, query, settle
from tests.torture.actions import act
from tests.torture.forked import Forked
from tests.torture.outcome import Outcome, try_each
from tests.torture.spoilt_files import BOOK
from tests.torture.whole import difference, wrong_with

_NAMES = ("one", "two")
_EACH = 8
"""Enquiries that each program takes if it is left to."""


def two_programs(tries: int, seed: int, folder: Path) -> Outcome:
    """Both take enquiries and issue papers; one may be killed. What was confirmed is there."""

    def once(chance: random.Random, home: Path) -> str:
        path = home / BOOK
        with opened(path) as book:
            settle(book)
            laid(book)
        both = {name: Forked(_writes(path, name), home / f"died of {name}") for name in _NAMES}
        killed = chance.random() < 0.5
        if killed:
            both["one"].hears(b"d", chance.randrange(_EACH))
            time.sleep(chance.uniform(0, 0.03))
        died_of = both["one"].dies() if killed else both["one"].ends()
        died_of += both["two"].ends()
        if died_of:
            return died_of
        wrong = wrong_with(path)
        for name, child in both.items():
            confirmed = child.heard.count(b"d")
            there = query(path, "SELECT place FROM site WHERE place LIKE :like", like=f"{name} %")
            if len(there) not in {confirmed, confirmed + 1}:
                wrong.append(f"{len(there)} of {confirmed} of {name}")
        refs = [int(ref) for (ref,) in query(path, "SELECT ref FROM job ORDER BY id")]
        if refs != list(range(1, len(refs) + 1)):
            wrong.append(f"references {refs}")
        return "; ".join(wrong)

    return try_each("two programs at once", tries, seed, folder, once)


def _writes(path: Path, name: str) -> Callable[[Callable[[bytes], object]], None]:
    """Takes enquiries, saying each once it is confirmed; asks now and then for a deposit."""

    def write(say: Callable[[bytes], object]) -> None:
        with closing(Book.open(path, lambda: NOW, window=name)) as book:
            for number in range(_EACH):
                enquired(book, f"{name} {number}")
                say(b"d")
                with suppress(HeadlapError):  # the other was first
                    book.issue_deposit_invoice(book.job(1), NOW.date())

    return write


def clock_back(tries: int, seed: int, folder: Path) -> Outcome:
    """Actions and backups by a clock that jumps about: the same is saved, nothing is thinned out.

    Compared with the same by a clock that stands still.
    """

    def once(chance: random.Random, home: Path) -> str:
        path, still = home / BOOK, home / "by a good clock.headlap"
        jumping = _Jumping(chance)
        seed_of_actions = chance.randrange(1_000_000)
        for at, clock in ((path, jumping), (still, lambda: NOW)):
            with closing(Book.open(at, clock)) as book:
                settle(book)
                for number in range(25):
                    with suppress(HeadlapError):
                        act(book, at, seed_of_actions, number)
        wrong = wrong_with(path) + difference(_untimed(path), _untimed(still))
        back_up_of_the_day(path, jumping())
        made = back_up(path, jumping())
        if not made.exists() or made not in backups_in(backups_folder(path), path).values():
            wrong.append("the newest backup went at once")
        return "; ".join(wrong)

    return try_each("clock put back", tries, seed, folder, once)


class _Jumping:
    def __init__(self, chance: random.Random) -> None:
        self._chance = chance

    def __call__(self) -> datetime:
        return NOW + timedelta(hours=self._chance.randrange(-24 * 4000, 24 * 40))


def _untimed(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Everything but when it was done: of an undo only that it was."""
    everything = dump(path, "action")
    wanted = """SELECT id, words, undone_at IS NULL, job_id, list_name, follows FROM action
                ORDER BY id"""
    return everything | {"action": query(path, wanted)}
