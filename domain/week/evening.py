"""Tonight as it is shown: a few lines that matter, several of a kind behind one, the rest last."""

from collections.abc import Collection, Iterable, Sequence
from itertools import groupby
from typing import NamedTuple, TypeAlias

from domain.money import Pence
from domain.week.tasks import Task
from domain.week.tonight_order import TaskKind, TaskSign, kind_of

MOST = 8
"""Lines that a tired person looks through; only stops go beyond it."""
_A_FEW = 3
"""So many of a kind stand behind one line."""


class Fold(NamedTuple):
    """Several tasks behind one line."""

    kind: TaskKind | None
    """None: of any kind, what can wait or has no room."""
    tasks: tuple[Task, ...]
    here: int = 0
    """How many of them, the first ones, stand below it because there is room."""

    @property
    def words(self) -> str:
        """What they are and how many: ``Chase 3 invoices``, ``When there is time: 4``."""
        count = len(self.tasks)
        if self.kind is not None:
            return kind_of(self.kind).many.format(count)
        more = any(kind_of(task.kind).tonight for task in self.tasks)
        words = f"And {count} more" if more else f"When there is time: {count}"
        return f"{words}, {self.here} of them here" if 0 < self.here < count else words

    @property
    def amount(self) -> Pence | None:
        """What those of one kind come to; None where no sum is known of any."""
        known = [task.amount for task in self.tasks if task.amount is not None]
        return sum(known) if known and self.kind is not None else None


class Inside(NamedTuple):
    """One task of a fold that is open."""

    task: Task


Row: TypeAlias = Task | Fold | Inside


def evening_rows(
    tasks: Sequence[Task], opened: Collection[TaskKind | None] = (), lines: int = 0
) -> list[Row]:
    """Lay Tonight out in :data:`MOST` lines at most; what is in an opened fold follows its line.

    Every task stands in one row, in the order it came. Stops never fold, and whether the work of a
    day went ahead is asked in sight. Where there are more ``lines`` than it takes, as many of those
    behind the last line stand below it.
    """
    tonight = [task for task in tasks if kind_of(task.kind).tonight]
    later = [task for task in tasks if not kind_of(task.kind).tonight]
    room = MOST - 1 if later else MOST
    rows = _folded(tonight)
    if len(rows) > room:
        room = max(MOST - 1, sum(_haste(row) == 0 for row in rows))
        by_haste = sorted(range(len(rows)), key=lambda at: _haste(rows[at]))
        kept, left = sorted(by_haste[:room]), sorted(by_haste[room:])
        rows, over = [rows[at] for at in kept], [rows[at] for at in left]
        later = [*(task for row in over for task in _tasks_of(row)), *later]
    rows += later if len(later) == 1 else [Fold(None, tuple(later))] if later else []
    return _filled([shown for row in rows for shown in _opened(row, opened)], lines)


def _filled(rows: list[Row], lines: int) -> list[Row]:
    """The rows, and the first of what is behind the last of them in the lines that are left."""
    last, spare = rows[-1] if rows else None, lines - len(rows)
    if not isinstance(last, Fold) or last.kind is not None or spare <= 0:
        return rows
    here = last.tasks[:spare]
    return [*rows[:-1], last._replace(here=len(here)), *map(Inside, here)]


def _folded(tasks: Iterable[Task]) -> list[Task | Fold]:
    """The tasks, a few or more of a kind behind one line."""
    rows: list[Task | Fold] = []
    for kind, of_kind in groupby(tasks, key=lambda task: task.kind):
        each = tuple(of_kind)
        folds = len(each) >= _A_FEW and kind_of(kind).sign is not TaskSign.STOP
        rows += [Fold(kind, each)] if folds else each
    return rows


def _haste(row: Task | Fold) -> int:
    """What stays in sight first: a stop, then a day of which nobody knows whether it went ahead."""
    if isinstance(row, Task) and row.sign is TaskSign.STOP:
        return 0
    return 1 if row.kind is TaskKind.WENT_AHEAD else 2


def _tasks_of(row: Task | Fold) -> tuple[Task, ...]:
    return (row,) if isinstance(row, Task) else row.tasks


def _opened(row: Task | Fold, opened: Collection[TaskKind | None]) -> Iterable[Row]:
    """The row, and below it what is in it if it is an opened fold."""
    yield row
    if isinstance(row, Fold) and row.kind in opened:
        yield from map(Inside, row.tasks)
