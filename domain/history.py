"""What was done, in words, and what may be undone: the rules that need no book."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from domain.changes import Change, told
from domain.days.calendar import MONTHS, WEEKDAYS
from domain.scope import Scope, Touched

if TYPE_CHECKING:
    from domain.estimate.stock import StockLine  # not needed at the first paint

_OF_A_THING = ("saved", "recorded", "deleted", "issued")
"""How a clause ends that tells what was done to a thing of a job."""
_BEGINNING = "enquiry of "
"""How the clause of a new job begins: it names the customer itself."""
_TOLD_ALREADY = (_BEGINNING, "payment of ", "stock of ", "new price of ", "note “")
"""How clauses begin that tell all there is to tell in a line."""


@dataclass(frozen=True, slots=True)
class LastSaved:
    """What an undo would undo, or a redo do again."""

    id: int
    of: Scope
    at: datetime
    """When it was saved."""
    clause: str
    """What was done: "survey saved"."""
    place: str
    """Where the job is; empty for a list."""
    touched: tuple[Touched, ...]
    """The pages and lists on which something changes."""
    takes_job: bool = False
    """Whether the job is then no longer in the book."""
    brings_job: bool = False
    """Whether the job is then in the book again."""
    changes: tuple[Change, ...] = ()
    """What it changed, field by field."""
    short: tuple["StockLine", ...] = ()
    """By how much stock would be short afterwards: what had been put in has been taken since."""

    def told(self, now: datetime) -> str:
        """What it is, with its job and when it was saved: ``survey of Mill Row saved 18:42``."""
        return f"{of_place(self.clause, self.place)} {show_when(self.at, now)}"


def in_a_line(clause: str, changes: Sequence[Change]) -> str:
    """What was done, with figures: ``Survey: length 2.20 → 2.40 m, covering square butt``."""
    thing, _, done = clause.rpartition(" ")
    line = starting(clause)
    if done not in _OF_A_THING or not changes or clause.startswith(_TOLD_ALREADY):
        return line
    first = f"{changes[0].label} "
    if f"{thing} ".startswith(first):  # it is named by the clause already
        return line if thing != first.strip() else f"{line}: {told(changes).removeprefix(first)}"
    head = starting(thing) if done in ("saved", "recorded") else line
    return f"{head}: {told(changes)}"


def starting(words: str) -> str:
    """The words as a sentence starts."""
    return f"{words[:1].upper()}{words[1:]}"


def of_place(clause: str, place: str) -> str:
    """The clause with the place of the job in it: ``survey of Mill Row saved``."""
    if not place or clause.startswith(_BEGINNING):
        return clause
    thing, _, done = clause.rpartition(" ")
    return f"{thing} of {place} {done}" if done in _OF_A_THING else f"{place} {clause}"


def clause_of(words: str, ref: str, place: str) -> str:
    """The clause alone of what the journal tells: ``0041 Mill Row, survey saved``.

    If the place was named otherwise then, all of it.
    """
    clause = words.removeprefix(f"{ref} {place}".rstrip() + ", ")
    return "marked as surveyed" if clause == "marked as survey" else clause


def show_when(at: datetime, now: datetime) -> str:
    """The time, ``18:42``; of another day with the day, ``Wed 3 June 18:42``."""
    return f"{at:%H:%M}" if at.date() == now.date() else show_moment(at, now)


def show_moment(at: datetime, now: datetime) -> str:
    """Day and time: ``Wed 3 June 18:42``; of another year with the year."""
    year = "" if at.year == now.year else f" {at.year}"
    return f"{WEEKDAYS[at.weekday()][:3]} {at.day} {MONTHS[at.month - 1]}{year} {at:%H:%M}"
