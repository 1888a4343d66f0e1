"""A little of every kind of torture; ``make torture`` has the patience for more."""

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.torture.drafts import closed_windows
from tests.torture.mid_action import kill_in_mid_action
from tests.torture.no_room import full_disk
from tests.torture.nonsense import fuzzed
from tests.torture.outcome import Outcome
from tests.torture.spoilt_files import cut, flipped, foreign, read_only, swapped
from tests.torture.together import clock_back, two_programs

SEED = 1
Kind = Callable[[int, int, Path], Outcome]


@pytest.mark.parametrize(
    ("kind", "tries"),
    [
        (kill_in_mid_action, 5),
        (swapped, 3),
        (foreign, 4),
        (read_only, 2),
        (full_disk, 1),
        (two_programs, 1),
        (clock_back, 1),
    ],
)
def test_nothing_is_found(kind: Kind, tries: int, tmp_path: Path) -> None:
    assert kind(tries, SEED, tmp_path).faults == ()


def test_nothing_is_found_in_spoilt_copies(tmp_path: Path, all_sorts: Path) -> None:
    for kind in (cut, flipped):
        assert kind(6, SEED, tmp_path, all_sorts).faults == ()


def test_nothing_is_found_by_nonsense(tmp_path: Path, all_sorts: Path) -> None:
    for outcome in fuzzed(600, SEED, tmp_path, all_sorts):
        assert outcome.faults == (), outcome.kind


@pytest.mark.long
def test_nothing_typed_is_lost_with_the_window(tmp_path: Path) -> None:
    assert closed_windows(4, SEED, tmp_path).faults == ()
