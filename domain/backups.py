"""Which backups are kept, and which go when a new one has come."""

from collections.abc import Callable, Iterable
from datetime import datetime
from typing import Final

DAYS: Final = 7
WEEKS: Final = 5
MONTHS: Final = 12


def kept(made: Iterable[datetime]) -> frozenset[datetime]:
    """Return which of the backups made at these times are kept.

    All of the last seven days that have any, the newest of each of the last five weeks and of each
    of the last twelve months that have any. It asks no clock: time that passes without a new backup
    takes none away.
    """
    newest_first = sorted(set(made), reverse=True)
    days = _of_each(newest_first, lambda at: at.date())
    last_days = {at.date() for at in days[:DAYS]}
    return frozenset(
        {
            *(at for at in newest_first if at.date() in last_days),
            *_of_each(newest_first, lambda at: at.isocalendar()[:2])[:WEEKS],
            *_of_each(newest_first, lambda at: (at.year, at.month))[:MONTHS],
        }
    )


def _of_each(newest_first: list[datetime], when: Callable[[datetime], object]) -> list[datetime]:
    """The newest of each day, week or month, the newest of all first."""
    found: dict[object, datetime] = {}
    for at in newest_first:
        found.setdefault(when(at), at)
    return list(found.values())
