"""The torture finds what it is there to find: a save that is lost, and one that is half there."""

import os
import signal
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from storage import database
from storage.remembered_rows import RememberedRows
from storage.rows import JournalRow
from storage.tables import Tables
from tests.torture.mid_action import kill_in_mid_action


def loses_a_save() -> None:
    """Confirm the first save and throw it away."""
    whole = database._all_or_nothing

    @contextmanager
    def thrown_away(driver: sqlite3.Connection, remembered: RememberedRows) -> Iterator[None]:
        driver.execute("BEGIN IMMEDIATE")
        yield
        driver.rollback()
        database._all_or_nothing = whole

    database._all_or_nothing = thrown_away


def saves_a_half() -> None:
    """Save the first row of an action, with its line in the journal, and die."""
    add = Tables.add

    def add_and_die(self: Tables, kind: Any, record: Any) -> int:
        given = add(self, kind, record)
        if kind is JournalRow:
            self._driver.execute("COMMIT")
            os.kill(os.getpid(), signal.SIGKILL)
        return given

    Tables.add = add_and_die  # type: ignore[method-assign]


@pytest.mark.parametrize(
    ("spoil", "words"), [(loses_a_save, "not in "), (saves_a_half, "nobody saved in ")]
)
def test_what_is_planted_is_found(spoil: Callable[[], None], words: str, tmp_path: Path) -> None:
    (fault, *_) = kill_in_mid_action(20, 1, tmp_path, spoil, most_faults=1).faults
    assert words in fault
    assert Path(fault.partition(":")[0]).exists()  # its book is kept
