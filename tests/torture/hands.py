"""The program of any checkout driven through a terminal: ``python -m tests.torture.hands SEED``.

``python -m tests.torture.hands 1 ../headlap-before`` drives the program that lies there, with the
same hand by the same chance, so that two checkouts can be held side by side. It knows of them only
the keys f7, f8, ctrl+s, ctrl+q and /, the words "Tonight" and "Who", and the tables customer, site,
job and action. What needs more of the machine than there is counts against the program: nothing
else should be running.
"""

import random
import shutil
import signal
import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path

from storage.errors import OF_SQLITE
from tests.storage.books import query
from tests.storage.test_older_books import HELD
from tests.torture.checkout import Checkout
from tests.torture.outcome import Outcome, heading, lines, try_each
from tests.tui.terminal import ENTER, ESCAPE, Terminal, ctrl

_F7, _F8 = "\x1b[18~", "\x1b[19~"
_FORM_S = 3.0
"""Seconds between a name and its being saved: the form of a loaded program is open by then."""


def all_measures(checkout: Checkout, seed: int, folder: Path) -> list[Callable[[], Outcome]]:
    """What is measured, in order."""
    return [
        lambda: _upgrades(checkout, seed, folder),
        lambda: _closed_windows(checkout, folder),
        lambda: _names(checkout, seed, folder),
        lambda: _damaged(checkout, seed, folder),
        lambda: _undo(checkout, seed, folder),
        lambda: _drafts(checkout, seed, folder),
    ]


def _enquires(terminal: Terminal, name: str, place: str, ref: str) -> None:
    """Save an enquiry unhurried, and wait until its job is in front."""
    terminal.types(_F7, pause_s=0)
    terminal.shows("Who")
    _types_unhurried(terminal, name, place)
    terminal.types(ctrl("s"), pause_s=0)
    terminal.shows(ref)


def _types_unhurried(terminal: Terminal, name: str, place: str) -> None:
    terminal.reads(0.4)
    terminal.types(name, pause_s=0.02)
    terminal.reads(0.2)
    terminal.types(ENTER, pause_s=0)
    terminal.reads(0.3)
    terminal.types(place, pause_s=0.02)
    terminal.reads(0.3)


def _upgrades(checkout: Checkout, seed: int, folder: Path) -> Outcome:
    """Kill the program while it brings a book up to date; then it must open."""
    old = folder / "old.db"
    checkout.makes_an_old_book(old)
    for statement in HELD:
        query(old, statement)

    def once(chance: random.Random, home: Path) -> str:
        path = home / "book.db"
        shutil.copy(old, path)
        with checkout.starts(path) as terminal:
            terminal.waits(lambda: Path(f"{path}-journal").exists(), every_s=0.001)
            time.sleep(chance.uniform(0, 0.3))
            terminal.ends(signal.SIGKILL)
        with checkout.starts(path) as terminal:
            terminal.shows("Priory Gardens")
        return ""

    return try_each("upgrade killed, opens no more", 20, seed, folder, once)


def _closed_windows(checkout: Checkout, folder: Path) -> Outcome:
    """Three enquiries in each of twenty windows that are closed; what a plain copy then lacks."""
    path = folder / "closed" / "book.db"
    path.parent.mkdir()
    for window in range(20):
        with checkout.starts(path) as terminal:
            terminal.shows("Tonight")
            for number in range(3 * window, 3 * window + 3):
                _enquires(terminal, f"Caller {number}", f"Place {number}", f"{number + 1:04d}")
            terminal.ends(signal.SIGHUP)
    alone = folder / "plain copy.db"
    shutil.copy(path, alone)
    try:
        ((there,),) = query(alone, "SELECT count(*) FROM job")
    except sqlite3.Error:
        there = 0
    lacking = tuple([f"{alone}: holds {there}"] * (60 - there))
    return Outcome("enquiry missing in a plain copy", 60, lacking)


def _names(checkout: Checkout, seed: int, folder: Path) -> Outcome:
    """Type a name while the form opens, at three speeds, on a busy machine."""
    jobs = folder / "forty.db"
    checkout.makes_jobs(jobs)
    wanted = "SELECT name FROM customer WHERE id > 40"

    def once(chance: random.Random, home: Path) -> str:
        path, name = home / "book.db", chance.choice(("Dave Hollis", "Ann O'Brien", "Mrs Adeyemi"))
        shutil.copy(jobs, path)
        with checkout.starts(path, busy=2) as terminal:
            terminal.shows("Tonight")
            pause_s = chance.choice((0.005, 0.02, 0.05))
            terminal.types(_F7, name, pause_s=pause_s)
            terminal.reads(_FORM_S)
            terminal.types(ctrl("s"), pause_s=0)
            with suppress(AssertionError):
                terminal.waits(lambda: bool(query(path, wanted)), every_s=0.5)
        found = [each for (each,) in query(path, wanted)]
        return "" if found == [name] else f"typed {name}, saved {found}"

    return try_each("name reordered, cut or lost", 12, seed, folder, once)


def _damaged(checkout: Checkout, seed: int, folder: Path) -> Outcome:
    """Save into a book of which SQLite itself says that it is damaged."""
    whole = folder / "whole.db"
    checkout.makes_jobs(whole)

    def once(chance: random.Random, home: Path) -> str:
        path = home / "book.db"
        content = whole.read_bytes()
        path.write_bytes(content)
        while _is_sound(path):
            bad = bytearray(content)
            for _ in range(3):
                at = chance.randrange(4096, len(bad) - 200)
                bad[at : at + 200] = chance.randbytes(200)
            path.write_bytes(bad)
        with checkout.starts(path) as terminal, suppress(AssertionError):
            terminal.reads(4)
            terminal.types(_F7, pause_s=0)
            terminal.reads(1)
            _types_unhurried(terminal, "Late Caller", "Late Place")
            terminal.types(ctrl("s"), pause_s=0)
            terminal.reads(2)
            terminal.types(ESCAPE, ctrl("q"), pause_s=0.3)
            terminal.reads(1)
        log = Path(f"{path}-wal")
        grown = path.read_bytes() != bytes(bad) or (log.exists() and log.stat().st_size > 0)
        return "was written to" if grown else ""

    return try_each("damaged book saved to", 10, seed, folder, once)


def _is_sound(path: Path) -> bool:
    with closing(sqlite3.connect(f"{path.as_uri()}?immutable=1", uri=True)) as connection:
        try:
            return bool(connection.execute("PRAGMA quick_check(1)").fetchone() == ("ok",))
        except OF_SQLITE:
            return False


def _undo(checkout: Checkout, seed: int, folder: Path) -> Outcome:
    """Save two jobs, open the first, undo: nothing of the second may go."""

    def once(chance: random.Random, home: Path) -> str:
        path = home / "book.db"
        with checkout.starts(path) as terminal:
            terminal.shows("Tonight")
            _enquires(terminal, "First Caller", "Mill Row", "0001")
            _enquires(terminal, "Second Caller", "Green Lane", "0002")
            terminal.types(ctrl("q"), pause_s=0)
            terminal.ends()
        with checkout.starts(path) as terminal:
            terminal.shows("Tonight")
            terminal.types("/", pause_s=1)
            terminal.types("First", pause_s=0.1)
            terminal.reads(1)
            terminal.types(ENTER, pause_s=1.5)
            terminal.types(_F8, _F8, pause_s=1.5)  # the first may only ask
        wanted = "SELECT words FROM action WHERE undone_at IS NOT NULL"
        undone = " ".join(words for (words,) in query(path, wanted))
        if not undone:
            return "nothing was undone"
        return f"undid {undone}" if "Second" in undone or "Green" in undone else ""

    return try_each("undo that reached into another job", 5, seed, folder, once)


def _drafts(checkout: Checkout, seed: int, folder: Path) -> Outcome:
    """Type half an enquiry and close the window; at the next start it must be offered."""

    def once(chance: random.Random, home: Path) -> str:
        path, name = home / "book.db", f"Draft {chance.randrange(1000)}"
        with checkout.starts(path) as terminal:
            terminal.shows("Tonight")
            terminal.types(_F7, pause_s=0)
            terminal.shows("Who")
            _types_unhurried(terminal, name, "Mill Row")
            terminal.ends(chance.choice((signal.SIGHUP, signal.SIGTERM)))
        with checkout.starts(path) as terminal:
            return "" if name in terminal.reads(5) else "it was not offered"

    return try_each("draft of a closed window lost", 5, seed, folder, once)


def main(seed: int, root: Path) -> int:
    """Print the table of one checkout; 1 if anything failed."""
    folder = Path(tempfile.mkdtemp(prefix="headlap-hands-"))
    bad = 0
    print(heading())
    for measure in all_measures(Checkout(root.resolve()), seed, folder):
        outcome = measure()
        print(lines(outcome), flush=True)
        bad += len(outcome.faults)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), Path(sys.argv[2] if len(sys.argv) > 2 else ".")))
