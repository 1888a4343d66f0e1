"""The order of Tonight: one table, a row a kind of task, what costs most to leave first."""

from dataclasses import dataclass
from enum import StrEnum

from domain.page_names import PageName


class TaskSign(StrEnum):
    """What stands before a task: only signs that can be read without learning them."""

    STOP = "■"
    MONEY = "£"
    NONE = " "


class TaskKind(StrEnum):
    """What is to be done."""

    SHEET = "sheet the deck"
    TARPAULIN = "tie the tarpaulin down"
    CLOSED = "is the deck closed?"
    TEST = "get the old covering tested"
    RING = "ring about the weather"
    ORDER = "order the materials"
    REQUEST = "get the request to start early"
    EXPIRED = "renew what has run out"
    LAID = "mark as laid"
    INVOICE = "issue the invoice"
    EXTRA = "agree an extra"
    DEPOSIT = "issue the deposit invoice"
    OVERDUE = "chase what is overdue"
    WENT_AHEAD = "did it go ahead?"
    USED = "record materials and hours"
    BOOKED = "mark as booked"
    BOOK = "book a day"
    LAYING = "book the laying"
    SIGN_OFF = "get it signed off"
    SNAG = "put a snag right"
    QUOTE = "send the quote"
    RUNS_OUT = "ask about a quote"
    RAN_OUT = "ring about a quote that ran out"
    SURVEY = "fill in the survey"
    ARRANGE = "arrange the visit"
    VISIT = "visit"
    RENEW = "renew a registration or policy"
    BACKUP = "see to a second backup"


@dataclass(frozen=True, slots=True)
class KindOfTask:
    """One row of the table."""

    kind: TaskKind
    sign: TaskSign
    page: PageName
    """Where it is done."""


TONIGHT: tuple[KindOfTask, ...] = (
    KindOfTask(TaskKind.SHEET, TaskSign.STOP, PageName.STRIP),
    KindOfTask(TaskKind.TARPAULIN, TaskSign.STOP, PageName.STRIP),
    KindOfTask(TaskKind.CLOSED, TaskSign.STOP, PageName.STRIP),
    KindOfTask(TaskKind.TEST, TaskSign.STOP, PageName.SURVEY),
    KindOfTask(TaskKind.RING, TaskSign.NONE, PageName.BOOKING),
    KindOfTask(TaskKind.ORDER, TaskSign.NONE, PageName.BOOKING),
    KindOfTask(TaskKind.REQUEST, TaskSign.NONE, PageName.QUOTE),
    KindOfTask(TaskKind.EXPIRED, TaskSign.NONE, PageName.TRADER),
    KindOfTask(TaskKind.LAID, TaskSign.NONE, PageName.LAYING),
    KindOfTask(TaskKind.INVOICE, TaskSign.MONEY, PageName.MONEY),
    KindOfTask(TaskKind.EXTRA, TaskSign.NONE, PageName.STRIP),
    KindOfTask(TaskKind.DEPOSIT, TaskSign.MONEY, PageName.MONEY),
    KindOfTask(TaskKind.OVERDUE, TaskSign.MONEY, PageName.MONEY),
    KindOfTask(TaskKind.WENT_AHEAD, TaskSign.NONE, PageName.STRIP),
    KindOfTask(TaskKind.USED, TaskSign.NONE, PageName.MATERIALS),
    KindOfTask(TaskKind.BOOKED, TaskSign.NONE, PageName.BOOKING),
    KindOfTask(TaskKind.BOOK, TaskSign.NONE, PageName.BOOKING),
    KindOfTask(TaskKind.LAYING, TaskSign.NONE, PageName.BOOKING),
    KindOfTask(TaskKind.SIGN_OFF, TaskSign.NONE, PageName.SIGN_OFF),
    KindOfTask(TaskKind.SNAG, TaskSign.NONE, PageName.SIGN_OFF),
    KindOfTask(TaskKind.QUOTE, TaskSign.MONEY, PageName.QUOTE),
    KindOfTask(TaskKind.RUNS_OUT, TaskSign.NONE, PageName.QUOTE),
    KindOfTask(TaskKind.RAN_OUT, TaskSign.NONE, PageName.QUOTE),
    KindOfTask(TaskKind.SURVEY, TaskSign.NONE, PageName.SURVEY),
    KindOfTask(TaskKind.ARRANGE, TaskSign.NONE, PageName.ENQUIRY),
    KindOfTask(TaskKind.VISIT, TaskSign.NONE, PageName.ENQUIRY),
    KindOfTask(TaskKind.RENEW, TaskSign.NONE, PageName.TRADER),
    KindOfTask(TaskKind.BACKUP, TaskSign.NONE, PageName.TRADER),
)
"""Every kind of task. Within a kind larger sums come first, then what has waited longest."""

RANKS = {row.kind: rank for rank, row in enumerate(TONIGHT)}
"""How soon each kind comes: the smaller the sooner."""
