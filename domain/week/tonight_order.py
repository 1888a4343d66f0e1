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
    RING = "ring about the weather"
    INVOICE = "issue the invoice"
    EXTRA = "agree an extra"
    LAID = "mark as laid"
    DEPOSIT = "issue the deposit invoice"
    OVERDUE = "chase what is overdue"
    BOOK = "book a day"
    ORDER = "order the materials"
    USED = "record materials and hours"
    SNAG = "put a snag right"
    TEST = "get the old covering tested"
    QUOTE = "send the quote"
    QUOTE_RUNS_OUT = "ask about a quote"
    ARRANGE = "arrange the visit"
    SURVEY = "fill in the survey"
    VISIT = "visit"
    PAPERS = "renew a registration or policy"
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
    KindOfTask(TaskKind.RING, TaskSign.NONE, PageName.BOOKING),
    KindOfTask(TaskKind.INVOICE, TaskSign.MONEY, PageName.MONEY),
    KindOfTask(TaskKind.EXTRA, TaskSign.NONE, PageName.STRIP),
    KindOfTask(TaskKind.LAID, TaskSign.NONE, PageName.LAYING),
    KindOfTask(TaskKind.DEPOSIT, TaskSign.MONEY, PageName.MONEY),
    KindOfTask(TaskKind.OVERDUE, TaskSign.MONEY, PageName.MONEY),
    KindOfTask(TaskKind.BOOK, TaskSign.NONE, PageName.BOOKING),
    KindOfTask(TaskKind.ORDER, TaskSign.NONE, PageName.BOOKING),
    KindOfTask(TaskKind.USED, TaskSign.NONE, PageName.MATERIALS),
    KindOfTask(TaskKind.SNAG, TaskSign.NONE, PageName.SIGN_OFF),
    KindOfTask(TaskKind.TEST, TaskSign.STOP, PageName.SURVEY),
    KindOfTask(TaskKind.QUOTE, TaskSign.MONEY, PageName.QUOTE),
    KindOfTask(TaskKind.QUOTE_RUNS_OUT, TaskSign.NONE, PageName.QUOTE),
    KindOfTask(TaskKind.ARRANGE, TaskSign.NONE, PageName.ENQUIRY),
    KindOfTask(TaskKind.SURVEY, TaskSign.NONE, PageName.SURVEY),
    KindOfTask(TaskKind.VISIT, TaskSign.NONE, PageName.ENQUIRY),
    KindOfTask(TaskKind.PAPERS, TaskSign.NONE, PageName.TRADER),
    KindOfTask(TaskKind.BACKUP, TaskSign.NONE, PageName.TRADER),
)
"""Every kind of task. Within a kind the earliest comes first."""

RANKS = {row.kind: rank for rank, row in enumerate(TONIGHT)}
"""How soon each kind comes: the smaller the sooner."""
