"""The order of Tonight: one table, a row a kind of task, what costs most to leave first."""

from enum import StrEnum
from typing import NamedTuple

from domain.page_names import PageName
from domain.signs import Sign


class TaskSign(StrEnum):
    """What stands before a task: only signs that can be read without learning them."""

    STOP = Sign.STOP.value
    MONEY = Sign.MONEY.value
    NONE = " "


class TaskKind(StrEnum):
    """What is to be done."""

    SHEET = "sheet the deck"
    TARPAULIN = "tie the tarpaulin down"
    CLOSED = "is the deck closed?"
    TEST = "get the old covering tested"
    RING = "ring about the weather"
    ORDER = "order the materials"
    DELIVERY = "has it come?"
    SHORT = "split or move a day too short"
    REQUEST = "get the request to start early"
    EXPIRED = "renew what has run out"
    LAID = "mark as laid"
    INVOICE = "issue the invoice"
    EXTRA = "agree an extra"
    DEPOSIT = "issue the deposit invoice"
    PAY_BACK = "pay money back"
    CREDIT = "settle what was overpaid"
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
    STATEMENT = "ask for the statement of deduction"
    SURVEY = "fill in the survey"
    ARRANGE = "arrange the visit"
    VISIT = "visit"
    RENEW = "renew a registration or policy"
    RATES = "confirm the starting rates"
    BACKUP = "see to a second backup"


class KindOfTask(NamedTuple):
    """One row of the table."""

    kind: TaskKind
    sign: TaskSign
    page: PageName
    """Where it is done."""
    many: str = ""
    """What several of them are called, with ``{}`` for how many; empty for those that are shown
    one by one."""
    tonight: bool = True
    """Whether it costs money, a day or safety if it is left until tomorrow."""


TONIGHT: tuple[KindOfTask, ...] = (
    KindOfTask(TaskKind.SHEET, TaskSign.STOP, PageName.STRIP),
    KindOfTask(TaskKind.TARPAULIN, TaskSign.STOP, PageName.STRIP),
    KindOfTask(TaskKind.CLOSED, TaskSign.STOP, PageName.STRIP),
    KindOfTask(TaskKind.TEST, TaskSign.STOP, PageName.SURVEY),
    KindOfTask(TaskKind.RING, TaskSign.NONE, PageName.BOOKING, "Ring {} about the weather"),
    KindOfTask(TaskKind.ORDER, TaskSign.NONE, PageName.BOOKING, "Order for {} jobs"),
    KindOfTask(TaskKind.DELIVERY, TaskSign.NONE, PageName.BOOKING, "{} orders: have they come?"),
    KindOfTask(TaskKind.SHORT, TaskSign.NONE, PageName.BOOKING, "{} days are too short"),
    KindOfTask(TaskKind.REQUEST, TaskSign.NONE, PageName.QUOTE, "Get {} requests in writing"),
    KindOfTask(TaskKind.EXPIRED, TaskSign.NONE, PageName.TRADER, "Renew {} registrations"),
    KindOfTask(TaskKind.LAID, TaskSign.NONE, PageName.LAYING, "Mark {} as laid"),
    KindOfTask(TaskKind.INVOICE, TaskSign.MONEY, PageName.MONEY, "Send {} invoices"),
    KindOfTask(TaskKind.EXTRA, TaskSign.NONE, PageName.STRIP, "Agree extras on {} jobs"),
    KindOfTask(TaskKind.DEPOSIT, TaskSign.MONEY, PageName.MONEY, "Send {} deposit invoices"),
    KindOfTask(TaskKind.PAY_BACK, TaskSign.MONEY, PageName.MONEY, "Pay {} customers back"),
    KindOfTask(TaskKind.CREDIT, TaskSign.MONEY, PageName.MONEY, "Settle {} overpayments"),
    KindOfTask(TaskKind.OVERDUE, TaskSign.MONEY, PageName.MONEY, "Chase {} invoices"),
    KindOfTask(TaskKind.WENT_AHEAD, TaskSign.NONE, PageName.STRIP, "Did {} booked days go ahead?"),
    KindOfTask(TaskKind.USED, TaskSign.NONE, PageName.MATERIALS, "Record materials of {} jobs"),
    KindOfTask(TaskKind.BOOKED, TaskSign.NONE, PageName.BOOKING, "Mark {} as booked"),
    KindOfTask(TaskKind.BOOK, TaskSign.NONE, PageName.BOOKING, "Book {} jobs"),
    KindOfTask(TaskKind.LAYING, TaskSign.NONE, PageName.BOOKING, "Book {} layings"),
    KindOfTask(TaskKind.SIGN_OFF, TaskSign.NONE, PageName.SIGN_OFF, tonight=False),
    KindOfTask(TaskKind.SNAG, TaskSign.NONE, PageName.SIGN_OFF, tonight=False),
    KindOfTask(TaskKind.QUOTE, TaskSign.MONEY, PageName.QUOTE, "Send {} quotes"),
    KindOfTask(TaskKind.RUNS_OUT, TaskSign.NONE, PageName.QUOTE, "{} quotes run out soon"),
    KindOfTask(TaskKind.RAN_OUT, TaskSign.NONE, PageName.QUOTE, tonight=False),
    KindOfTask(TaskKind.STATEMENT, TaskSign.MONEY, PageName.MONEY, tonight=False),
    KindOfTask(TaskKind.SURVEY, TaskSign.NONE, PageName.SURVEY, tonight=False),
    KindOfTask(TaskKind.ARRANGE, TaskSign.NONE, PageName.ENQUIRY, tonight=False),
    KindOfTask(TaskKind.VISIT, TaskSign.NONE, PageName.ENQUIRY, tonight=False),
    KindOfTask(TaskKind.RENEW, TaskSign.NONE, PageName.TRADER, tonight=False),
    KindOfTask(TaskKind.RATES, TaskSign.NONE, PageName.TRADER, tonight=False),
    KindOfTask(TaskKind.BACKUP, TaskSign.NONE, PageName.TRADER, tonight=False),
)
"""Every kind of task. Within a kind larger sums come first, then what has waited longest."""

RANKS = {row.kind: rank for rank, row in enumerate(TONIGHT)}
"""How soon each kind comes: the smaller the sooner."""


def kind_of(kind: TaskKind) -> KindOfTask:
    """The row of a kind."""
    return TONIGHT[RANKS[kind]]
