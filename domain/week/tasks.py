"""One line of the evening's list: what kind of thing it is, its sign, where it is done."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from types import MappingProxyType

from domain.money import Pence
from domain.sheets import SheetName


class TaskSign(StrEnum):
    """What kind of sign stands before a task."""

    STOP = "stop"
    CAUTION = "caution"
    MONEY = "money"
    ORDER = "order"
    WRITE = "write"
    ASK = "ask"


class TaskKind(StrEnum):
    """What is to be done, the dearest to leave first."""

    SHEET = "sheet the deck"
    RING = "ring about the weather"
    INVOICE = "send the invoice"
    EXTRA = "agree an extra"
    LAID = "mark as laid"
    DEPOSIT = "send the deposit invoice"
    OVERDUE = "chase what is overdue"
    BOOK = "book a day"
    ORDER = "order the materials"
    USED = "record materials and hours"
    SNAG = "put a snag right"
    TEST = "get the old covering tested"
    QUOTE = "send the quote"
    LAPSE = "ask about a quote"
    ARRANGE = "arrange the visit"
    SURVEY = "fill in the survey"
    VISIT = "visit"
    PAPERS = "renew a registration or policy"

    @property
    def sign(self) -> TaskSign:
        """The sign that stands before it."""
        return _OF_KIND[self][0]

    @property
    def sheet(self) -> SheetName:
        """Where it is done."""
        return _OF_KIND[self][1]


_OF_KIND: Mapping[TaskKind, tuple[TaskSign, SheetName]] = MappingProxyType(
    {
        TaskKind.SHEET: (TaskSign.STOP, SheetName.STRIP),
        TaskKind.RING: (TaskSign.CAUTION, SheetName.BOOKING),
        TaskKind.INVOICE: (TaskSign.MONEY, SheetName.MONEY),
        TaskKind.EXTRA: (TaskSign.ASK, SheetName.STRIP),
        TaskKind.LAID: (TaskSign.WRITE, SheetName.LAYING),
        TaskKind.DEPOSIT: (TaskSign.MONEY, SheetName.MONEY),
        TaskKind.OVERDUE: (TaskSign.CAUTION, SheetName.MONEY),
        TaskKind.BOOK: (TaskSign.ASK, SheetName.BOOKING),
        TaskKind.ORDER: (TaskSign.ORDER, SheetName.BOOKING),
        TaskKind.USED: (TaskSign.WRITE, SheetName.MATERIALS),
        TaskKind.SNAG: (TaskSign.CAUTION, SheetName.SIGN_OFF),
        TaskKind.TEST: (TaskSign.STOP, SheetName.SURVEY),
        TaskKind.QUOTE: (TaskSign.MONEY, SheetName.QUOTE),
        TaskKind.LAPSE: (TaskSign.ASK, SheetName.QUOTE),
        TaskKind.ARRANGE: (TaskSign.ASK, SheetName.ENQUIRY),
        TaskKind.SURVEY: (TaskSign.WRITE, SheetName.SURVEY),
        TaskKind.VISIT: (TaskSign.ASK, SheetName.ENQUIRY),
        TaskKind.PAPERS: (TaskSign.CAUTION, SheetName.TRADER),
    }
)


@dataclass(frozen=True, slots=True)
class Task:
    """One line of the evening's list."""

    kind: TaskKind
    words: str
    """The verb first: "Order for Friday"."""
    who: str
    """Customer and place."""
    since: date
    """The day it hangs on: of tasks of one kind the earliest comes first."""
    amount: Pence | None = None
    job_id: int | None = None
    """None: the trader's own details."""

    @property
    def sign(self) -> TaskSign:
        """The sign that stands before it."""
        return self.kind.sign

    @property
    def sheet(self) -> SheetName:
        """Where it is done."""
        return self.kind.sheet
