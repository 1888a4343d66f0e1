"""Money to ask for: invoices, the deposit, extras, and what is overdue."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from domain.days.calendar import pay_back_by, show_day
from domain.job.chase import Chase
from domain.job.stage import Stage
from domain.job.to_send import Outgoing
from domain.week.tasks import Going, Task, task_of
from domain.week.tonight_order import TaskKind
from domain.week.week_data import Bill, WeekLine


def _no_invoice(line: WeekLine, _today: date) -> Task | None:
    if line.stage.rank < Stage.LAID.rank or any(not bill.deposit for bill in line.bills):
        return None
    since = line.laid_on or date.min
    task = task_of(TaskKind.INVOICE, line, "Send the invoice", since, line.quote_gross)
    return replace(task, to_send=Going(Outgoing.INVOICE))


def _open_extra(line: WeekLine, _today: date) -> Task | None:
    """Speak of extras still to agree: done first and agreed later, they are never paid."""
    if not line.extras_open:
        return None
    words = "Agree the extra" if line.extras_open == 1 else f"Agree {line.extras_open} extras"
    return task_of(TaskKind.EXTRA, line, words, line.stripped_on or date.min)


def _no_deposit(line: WeekLine, _today: date) -> Task | None:
    """Speak of a deposit that was agreed, until it is asked for or the work has begun."""
    begun = line.stripped_on or line.laid_on
    if not line.deposit or line.accepted_on is None or line.bills or begun:
        return None
    words = "Send the deposit invoice"
    task = task_of(TaskKind.DEPOSIT, line, words, line.accepted_on, line.deposit)
    return replace(task, to_send=Going(Outgoing.INVOICE))


def unsent(line: WeekLine) -> Iterator[Task]:
    """Make a task of every invoice that is issued and waits to be sent.

    Money that came for one shows that it got there.
    """
    for bill in line.bills:
        if _waits(bill):
            kind = TaskKind.DEPOSIT if bill.deposit else TaskKind.INVOICE
            since = line.accepted_on if bill.deposit else line.laid_on
            words = f"Mark as sent: {bill.label}"
            task = task_of(kind, line, words, since or date.min, bill.owed)
            going = Going(Outgoing.INVOICE, bill.number)
            yield replace(task, to_send=going, about=f"issued, dated {show_day(bill.issued_on)}")


def overdue(line: WeekLine, today: date) -> Iterator[Task]:
    """Make a task of every invoice past its day; a job that has ended owes it all the same.

    One that was chased waits for its day: that the customer named, or a week after a reminder.
    """
    for bill in line.bills:
        chased = [chase for chase in line.chased if chase.document_id == bill.id]
        if chased and chased[-1].until > today:
            continue
        late = (today - bill.due_on).days
        if bill.owed > 0 and late > 0 and not _waits(bill):
            words = f"Overdue {late} day{'' if late == 1 else 's'}"
            about = f"invoice {bill.label}, due {show_day(bill.due_on)}"
            if chased:
                about += f"; {_said_of(chased[-1])}"
            task = task_of(TaskKind.OVERDUE, line, words, bill.due_on, bill.owed)
            yield replace(task, about=about, document_id=bill.id)


def pay_back(line: WeekLine, _today: date) -> Task | None:
    """Speak of money that goes back to the customer of a job that ended, until it is paid back."""
    if line.ended is None or line.credit <= 0:
        return None
    by = pay_back_by(line.told_on) if line.told_on else None
    words = f"Pay back by {show_day(by)}" if by else "Pay back"
    task = task_of(TaskKind.PAY_BACK, line, words, by or date.min, line.credit)
    return replace(task, about=f"the job was {line.ended}")


def _overpaid(line: WeekLine, _today: date) -> Task | None:
    """Speak of what was overpaid once all is invoiced and paid: the next invoice may never come."""
    invoiced = any(not bill.deposit for bill in line.bills)
    if line.credit <= 0 or not invoiced or any(bill.owed for bill in line.bills):
        return None
    since = max((on for on, _ in line.paid), default=date.min)
    task = task_of(TaskKind.CREDIT, line, "Overpaid: pay it back", since, line.credit)
    return replace(task, about="or it comes off their next invoice")


def with_vat_day(task: Task, line: WeekLine, today: date) -> Task:
    """The task of an invoice that is not issued, with the day by which a VAT invoice is due.

    It is 30 days after the tax point (VAT Regulations 1995 reg. 13(5): from memory): of money that
    came before any invoice, and of the work where the agreement asks for one payment.
    """
    by = _vat_invoice_by(line)
    if task.to_send is None or task.to_send.number is not None or by is None:
        return task
    told = replace(task, about=f"VAT invoice by {show_day(by)}, 30 days after the tax point")
    if (by - today).days > _VAT_DAY_SAID:
        return told
    return replace(told, words=f"{_INVOICE_BY[task.kind]} by {show_day(by)}")


def _vat_invoice_by(line: WeekLine) -> date | None:
    points = [line.laid_on] if line.laid_on and not line.deposit else []
    if line.credit > 0 and line.paid:  # what of it is in no invoice came last, if there is one
        points.append((max if line.bills else min)(on for on, _ in line.paid))
    return min(points) + _VAT_INVOICE_IN if points else None


_VAT_INVOICE_IN, _VAT_DAY_SAID = timedelta(days=30), 10
_INVOICE_BY = {TaskKind.INVOICE: "Invoice", TaskKind.DEPOSIT: "Deposit invoice"}


def statements(line: WeekLine, today: date) -> Iterator[Task]:
    """Make a task of every statement of deduction that should be here: after the 19th."""
    if not line.statements:
        return
    from domain.tax.cis import statement_due  # the tables of tax are not for the first paint

    for received_on, pence in line.statements:
        due = statement_due(received_on)
        if today > due:
            words = "Ask for the CIS statement"
            task = task_of(TaskKind.STATEMENT, line, words, due, pence)
            yield replace(task, about=f"deducted on {show_day(received_on)}, due {show_day(due)}")


def _said_of(chase: Chase) -> str:
    """What came of chasing it last."""
    if chase.promised:
        return f"said they would pay on {show_day(chase.until)}"
    if chase.further:
        return f"taken further on {show_day(chase.on)}"
    return f"reminded on {show_day(chase.on)}"


def _waits(bill: Bill) -> bool:
    return bill.unsent and 0 < bill.owed == bill.gross - bill.cis


MONEY_RULES: tuple[Callable[[WeekLine, date], Task | None], ...] = (
    _no_invoice,
    _open_extra,
    _no_deposit,
    _overpaid,
)
"""What is asked of the money of every job that has not ended."""
