"""A program killed in the middle of an action: what was confirmed is there, nothing is half there.

Beside each book a second one is kept to which the same is done and nothing happens.
"""

import random
import shutil
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from domain.errors import HeadlapError
from storage.book import Book
from storage.week_and_jobs import find_jobs
from tests.storage.books import dump, laid, opened, settle
from tests.torture.actions import act
from tests.torture.forked import Forked
from tests.torture.outcome import Outcome
from tests.torture.whole import difference, wrong_with

_LIVES = 20
"""Programs killed one after another on one book."""
_MOST = 3
"""A kill comes in one of so many actions, or in the next."""
_ACTION_S = 0.03
"""Longer than most actions take."""
BEGUN, DONE = b"b", b"d"


def kill_in_mid_action(
    kills: int,
    seed: int,
    folder: Path,
    spoil: Callable[[], object] = lambda: None,
    most_faults: int = 10,
) -> Outcome:
    """Kill until so many kills came between the begin of an action and its confirmation.

    ``spoil`` is called in the program that is killed; a test plants a fault with it.
    It ends with so many faults at the most.
    """
    chance = random.Random(seed)  # noqa: S311 -- chance that can be repeated
    template = folder / "to act on.headlap"
    with opened(template) as book:
        settle(book)
        laid(book)  # what is reckoned once is then known to every fork
    kept: list[str] = []
    counts = {"in time": 0, "landed": 0, "confirmed": 0}
    books = 0
    while counts["in time"] < kills and len(kept) < most_faults:
        lives = _Lives(template, folder / f"in mid-action {books}", seed * 1_000_000 + books, spoil)
        books += 1
        for _ in range(_LIVES):
            fault = lives.one_more(chance, counts)
            if fault or counts["in time"] == kills:
                break
        if fault:
            kept.append(f"{lives.path}: {fault}")
        else:
            shutil.rmtree(lives.path.parent)
    note = f"{books} books, {counts['confirmed']} confirmed, {counts['landed']} whole before it"
    return Outcome("killed in mid-action", counts["in time"], tuple(kept), note)


class _Lives:
    """The lives that programs have on one book, one after another."""

    def __init__(
        self, template: Path, folder: Path, seed: int, spoil: Callable[[], object]
    ) -> None:
        folder.mkdir()
        self.path, self._twin = folder / "book.headlap", folder / "unharmed.headlap"
        shutil.copy(template, self.path)
        shutil.copy(template, self._twin)
        self._seed = seed
        self._spoil = spoil
        self._next = 0

    def one_more(self, chance: random.Random, counts: dict[str, int]) -> str:
        """Let a program live and kill it; what is wrong with what it left."""
        child = Forked(self._live, self.path.with_name("died of"))
        if chance.random() > 0.1:  # else while it opens the book
            child.hears(BEGUN, chance.randint(1, _MOST))
        time.sleep(chance.uniform(0, _ACTION_S))
        died_of = child.dies()
        if died_of:
            return died_of
        confirmed, begun = child.heard.count(DONE), child.heard.count(BEGUN)
        first, self._next = self._next, self._next + begun
        counts["confirmed"] += confirmed
        counts["in time"] += begun > confirmed
        try:
            find_jobs(self.path, "")  # as the first screen does
            with opened(self.path):
                pass
        except HeadlapError as error:
            return f"{type(error).__name__}: {error}"
        wrong = wrong_with(self.path)
        if not wrong:
            wrong = self._compared(range(first, first + confirmed), begun > confirmed, counts)
        return f"after {confirmed} of {begun} actions from {first}: {wrong}" if wrong else ""

    def _live(self, say: Callable[[bytes], object]) -> None:
        self._spoil()
        with opened(self.path) as book:
            number = self._next
            while True:
                say(BEGUN)
                self._act(book, self.path, number)
                say(DONE)
                number += 1

    def _act(self, book: Book, path: Path, number: int) -> None:
        with suppress(HeadlapError):  # refused by a rule
            act(book, path, self._seed, number)

    def _compared(self, confirmed: range, began: bool, counts: dict[str, int]) -> list[str]:
        """Do to the twin what was confirmed; one action more may be in the book, or not."""
        found = dump(self.path)
        with opened(self._twin) as book:
            for number in confirmed:
                self._act(book, self._twin, number)
            wrong = difference(found, dump(self._twin))
            if not wrong or not began:
                return wrong
            self._act(book, self._twin, confirmed.stop)
            if found == dump(self._twin):
                counts["landed"] += 1
                return []
        return wrong
