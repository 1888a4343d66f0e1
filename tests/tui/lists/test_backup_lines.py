"""A line of the list of backups says when, and cuts nothing in the window it is given."""

from datetime import datetime
from pathlib import Path

import pytest

from storage.backups.everywhere import Backup
from storage.backups.holding import Holding
from tui.frame.theme import EVENING
from tui.lists.backup_lines import backup_line

AT = datetime(2026, 6, 10, 19, 0)


@pytest.mark.parametrize(
    ("width", "told"),
    [
        (54, "10 Jun 2026 19:00   41  INV-19   10 Jun 2026 19:00"),
        (76, "Wed 10 Jun 2026 19:00   41  INV-19   Wed 10 Jun 2026 19:00  beside the book"),
    ],
)
def test_a_line_holds_day_and_time_at_every_width(width: int, told: str) -> None:
    line = backup_line(Backup(AT, Path("book"), None), Holding(41, 19, AT), width, EVENING)
    assert line.plain.rstrip() == told
    assert line.cell_len <= width
