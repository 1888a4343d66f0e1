"""Lines of Tonight that were put off: each comes back on its day."""

from dataclasses import dataclass
from datetime import date

from domain.errors import NotNow, Refused
from domain.week.tonight_order import TaskKind, TaskSign, kind_of


@dataclass(frozen=True, slots=True)
class PutOff:
    """One kind of task of a job, put off."""

    kind: TaskKind
    until: date
    """The day on which it is back."""


def demand_can_wait(kind: TaskKind) -> None:
    """Raise :class:`NotNow` for a stop: what can hurt somebody stays in sight."""
    if kind_of(kind).sign is TaskSign.STOP:
        raise NotNow("A stop cannot wait: it stays until it is settled.")


def demand_later(field: str, until: date, today: date) -> None:
    """Raise :class:`Refused` for a day that is not ahead."""
    if until <= today:
        raise Refused(field, until, "Give a day after today.")
