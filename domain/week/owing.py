"""What is owed, an invoice a line, the oldest first, each with its next thing."""

from dataclasses import dataclass, replace
from datetime import date

from domain.accounts.chasing import Next, NextThing, next_thing
from domain.days.calendar import show_day
from domain.week.tasks import Task, task_of
from domain.week.tonight_order import TaskKind
from domain.week.week_data import Bill, WeekData, WeekLine


@dataclass(frozen=True, slots=True)
class Owing:
    """An invoice on which something is owed."""

    line: WeekLine
    """Its job."""
    bill: Bill
    next: Next

    def days_over(self, today: date) -> int:
        """Days since it was due; less than 1 while it is not overdue."""
        return (today - self.bill.due_on).days

    def as_task(self) -> Task:
        """The line as Tonight would have it, to be settled in the same way."""
        task = task_of(
            TaskKind.OVERDUE,
            self.line,
            f"Owed on {self.bill.label}",
            self.bill.due_on,
            self.bill.owed,
        )
        about = f"invoice {self.bill.label}, due {show_day(self.bill.due_on)}"
        return replace(task, document_id=self.bill.id, about=about)


def owing_by_age(data: WeekData, today: date) -> tuple[Owing, ...]:
    """Every invoice on which something is owed, that due first first."""
    found = (
        Owing(line, bill, _next(line, bill, today))
        for line in data.lines
        for bill in line.bills
        if bill.owed > 0
    )
    return tuple(sorted(found, key=lambda each: (each.bill.due_on, each.bill.number)))


def next_words(owing: Owing, today: date) -> str:
    """What comes next, in a few words: from which day, where that has not come."""
    what, on = owing.next.what, owing.next.on
    match what:
        case NextThing.WAIT:
            return f"due {show_day(on)}"
        case NextThing.PROMISED:
            return f"will pay on {show_day(on)}"
        case NextThing.FURTHER:
            return f"taken further {show_day(on)}"
        case _ if on > today:
            return f"{what} {show_day(on)}"
        case _:
            return f"{what} now"


def _next(line: WeekLine, bill: Bill, today: date) -> Next:
    chased = [chase for chase in line.chased if chase.document_id == bill.id]
    return next_thing(bill.due_on, chased, today)
