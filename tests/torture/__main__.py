"""Torture the book in every way, and print how often and what was found: ``KILLS SEED``."""

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.storage.all_sorts import fill
from tests.storage.books import opened, settle
from tests.torture.drafts import closed_windows
from tests.torture.kills import kill_over_and_over
from tests.torture.mid_action import kill_in_mid_action
from tests.torture.no_room import full_disk
from tests.torture.nonsense import fuzzed
from tests.torture.outcome import Outcome, heading, lines
from tests.torture.spoilt_files import cut, flipped, foreign, read_only, swapped
from tests.torture.together import clock_back, two_programs
from tests.torture.trials import backed_up, backing_up, making, restoring, upgrading


def torture(kills: int, seed: int, folder: Path) -> Iterator[Outcome]:
    """Try every kind, the others in proportion to the kills in mid-action: of 1,000 as follows."""
    some, fewer = max(1, kills // 5), max(1, kills // 10)
    whole = folder / "all sorts.headlap"
    with opened(whole) as book:
        settle(book)
        fill(book)
    yield kill_in_mid_action(kills, seed, folder)  # 1,000
    for way in ("delete", "wal"):
        yield kill_over_and_over(upgrading(folder / f"old {way}", way), fewer, seed, folder)  # 100
    template = backed_up(folder / "backed up")
    yield kill_over_and_over(backing_up(template), some, seed, folder)  # 200
    for trial in (making(), *(restoring(template, damaged=each) for each in (False, True))):
        yield kill_over_and_over(trial, fewer, seed, folder)
    yield flipped(fewer, seed, folder, whole)  # 100
    yield cut(max(6, fewer), seed, folder, whole)
    yield swapped(fewer, seed, folder)
    yield foreign(fewer, seed, folder)
    yield read_only(max(1, kills // 50), seed, folder)
    yield full_disk(fewer, seed, folder)
    yield two_programs(max(1, kills // 20), seed, folder)
    yield clock_back(max(1, kills // 50), seed, folder)
    yield closed_windows(kills // 100, seed, folder)
    yield from fuzzed(kills * 20, seed, folder, whole)  # 20,000


def main(kills: int, seed: int) -> int:
    """Return 1 if anything was found."""
    folder = Path(tempfile.mkdtemp(prefix="headlap-torture-"))
    folder.chmod(0o755)  # one of the kinds is another user's
    bad = 0
    print(heading())
    for outcome in torture(kills, seed, folder):
        print(lines(outcome), flush=True)
        bad += len(outcome.faults)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2])))
