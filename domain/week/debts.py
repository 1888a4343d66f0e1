"""What is owed, by how long it has been overdue."""

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from domain.money import Pence
from domain.week.week_data import Bill

_BANDS: tuple[tuple[int, str], ...] = (
    (0, "not due"),
    (30, "up to 30 days overdue"),
    (60, "31 to 60 days overdue"),
    (90, "61 to 90 days overdue"),
)
_OLDEST = "over 90 days overdue"


class Owed(NamedTuple):
    """What is owed of one age."""

    words: str
    """The age, as people read it."""
    pence: Pence
    bills: int
    """Invoices it stands on."""


def owed_by_age(bills: Iterable[Bill], today: date) -> tuple[Owed, ...]:
    """What is owed on invoices, from what is not due yet to the oldest; every age is there."""
    found = {words: Owed(words, 0, 0) for words in (*(words for _, words in _BANDS), _OLDEST)}
    for bill in bills:
        if bill.owed > 0:
            words = _age((today - bill.due_on).days)
            before = found[words]
            found[words] = Owed(words, before.pence + bill.owed, before.bills + 1)
    return tuple(found.values())


def _age(days_over: int) -> str:
    """The band of a number of days since the due date."""
    return next((words for most, words in _BANDS if days_over <= most), _OLDEST)
