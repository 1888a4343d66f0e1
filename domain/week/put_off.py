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


_WHY = {
    TaskKind.SHEET: "rain gets into an open roof tonight",
    TaskKind.CLOSED: "rain gets into an open roof tonight",
    TaskKind.TARPAULIN: "the wind can take the tarpaulin tonight",
    TaskKind.TEST: "nobody may work on what may hold asbestos",
}
"""What each stop guards against."""


def demand_can_wait(kind: TaskKind) -> None:
    """Raise :class:`NotNow` for a stop, saying why: what can hurt somebody stays in sight."""
    if kind_of(kind).sign is TaskSign.STOP:
        raise NotNow(f"This cannot be put off: {_WHY[kind]}. It stays here until it is settled.")


def demand_later(field: str, until: date, today: date) -> None:
    """Raise :class:`Refused` for a day that is not ahead."""
    if until <= today:
        raise Refused(field, until, "Give a day after today.")
