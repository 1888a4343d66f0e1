"""An overdue invoice, settled from its line: a payment, a reminder to copy, a day to wait for."""

from collections.abc import Awaitable, Callable, Mapping
from datetime import date
from typing import Any, ClassVar

from textual.binding import BindingType

from domain.accounts.chasing import (
    CHASED_AFTER,
    NextThing,
    back_on,
    is_chased,
    is_second_due,
    next_thing,
    taken_further,
)
from domain.accounts.cis import is_inside
from domain.accounts.invoice import Invoice
from domain.accounts.write_off import GivenUp
from domain.days.calendar import show_date
from domain.days.dates import read_date
from domain.errors import NotNow
from domain.job import Chase, Document, Received
from domain.money import show_money
from domain.page_names import PageName
from domain.papers.blocks import Paper
from domain.papers.letters import reminder_text
from domain.papers.reminder_paper import second_reminder
from domain.snapshot import from_json
from domain.week import Task
from domain.week.put_off import demand_later
from tui.frame.safe_text import one_line
from tui.frame.screen import BaseScreen
from tui.job.money.payment_dialog import MoneyIn, PaymentDialog
from tui.job.money.write_off_dialog import write_off_dialog
from tui.papers.copying import copy_or_save
from tui.papers.paper_screen import PaperScreen
from tui.widgets.field_row import Field
from tui.widgets.form_dialog import FormDialog, dialog_bindings
from tui.widgets.line_input import Takes

_EARLY = f"A reminder usually waits until {CHASED_AFTER} days after the due day."
_DECIDE = "\nReminded twice: a day they promise, written off, or taken further."
_PAID = "It has been paid meanwhile."
_DAY = Field("will_pay", "Will pay on", example="fri, or 3 Dec", takes=Takes.COMING)


async def chase(screen: BaseScreen, task: Task, job_id: int) -> None:
    """Show the reminder of an invoice, and record what is done, or the payment that came.

    From the day of the second reminder on it is that one. Raises :class:`NotNow` if nothing is owed
    on it any more.
    """
    job = await screen.open_book.ask(lambda book: book.job(job_id))
    found = (each for each in job.documents if each.id == task.document_id and each.owed > 0)
    bill = next(found, None)
    if bill is None or bill.id is None:
        raise NotNow(_PAID)
    document_id, today = bill.id, screen.open_book.today
    chased = [each for each in job.chased if each.document_id == document_id]
    comes = next_thing(bill.due_on, chased, today)
    is_second = comes.what in (NextThing.SECOND, NextThing.DECIDE) and is_second_due(
        bill.due_on, today
    )
    paper = second_reminder(bill, today, job.customer.email)
    text = one_line(_text_of(bill, paper if is_second else None, today))

    async def record(wanted: Chase, told: str) -> None:
        await screen.open_book.ask(lambda book: book.chase(book.job(job_id), wanted))
        screen.undo_of = job_id
        await screen.say_saved(told)

    async def remind() -> None:
        unsure = await copy_or_save(
            screen.app, screen.open_book.path, f"Reminder {bill.label}", text
        )
        until = back_on(today)
        told = f"Reminder made. {unsure}." if unsure else f"Reminder of {bill.label} copied."
        wanted = Chase(document_id, today, until, promised=False)
        await record(wanted, f"{told} Back on {show_date(until)} if it is not paid.")

    async def second() -> None:
        until = back_on(today)
        wanted = Chase(document_id, today, until, promised=False)
        back = f"Back on {show_date(until)} if it is not paid."
        await record(wanted, f"Recorded: second reminder of {bill.label}. {back}")
        screen.app.push_screen(PaperScreen(paper))

    async def further() -> None:
        wanted = taken_further(document_id, today)
        await record(wanted, f"{bill.label} taken further: back on {show_date(wanted.until)}.")

    async def give_up(given_up: GivenUp) -> None:
        await screen.open_book.ask(lambda book: book.write_off(book.job(job_id), given_up))
        await screen.say_saved(f"Saved: {bill.label} written off.")

    early = "" if is_chased(task.since, today) else f"\n{_EARLY}"
    dialog = ChaseDialog(
        f"{show_money(bill.owed)} from {task.who}: {task.words.lower()}",
        f"{task.about}{early}{_DECIDE * (comes.what is NextThing.DECIDE)}\n\n{text}",
        remind,
        {
            "payment": lambda: screen.in_worker(ask_what_came(screen, task, job_id)),
            "will_pay": lambda: screen.app.push_screen(
                _asks_for_a_day(screen, task, document_id, record)
            ),
            "money": lambda: screen.program.open_job(job_id, PageName.MONEY),
            "write_off": lambda: screen.app.push_screen(
                write_off_dialog(job, bill, today, give_up)
            ),
            "further": lambda: screen.in_worker(further()),
        }
        | ({"second": lambda: screen.in_worker(second())} if is_second else {}),
    )
    screen.app.push_screen(dialog, lambda _: dialog.go_on())


def _text_of(bill: Document, second: Paper | None, today: date) -> str:
    """What is copied: the second reminder short, or the first."""
    if second is not None and second.letter is not None:
        return second.letter.short
    return reminder_text(from_json(Invoice, bill.snapshot), bill.owed, today)


def _asks_for_a_day(
    screen: BaseScreen,
    task: Task,
    document_id: int,
    record: Callable[[Chase, str], Awaitable[None]],
) -> FormDialog[Chase]:
    """The question when they will pay."""
    today = screen.open_book.today

    def read(values: dict[str, str]) -> Chase:
        until = read_date(_DAY.id, values[_DAY.id], today)
        demand_later(_DAY.id, until, today)
        return Chase(document_id, today, until, promised=True)

    async def save(wanted: Chase) -> None:
        day = show_date(wanted.until)
        await record(wanted, f"They said they would pay on {day}: back on that day if not paid.")

    return FormDialog(f"{task.who}: they will pay", (_DAY,), read, save)


async def ask_what_came(screen: BaseScreen, task: Task, job_id: int) -> None:
    """The question what was paid, filled with what is owed. Raises :class:`NotNow` for nothing."""
    today = screen.open_book.today
    situation = await screen.open_book.ask(lambda book: book.situation(job_id, today))
    job = situation.job
    bill = next(each for each in job.documents if each.id == task.document_id)
    if bill.owed <= 0:
        raise NotNow(_PAID)

    async def save(money: MoneyIn) -> None:
        came = Received(bill.id or 0, money.pence, money.received_on, money.method, money.cis)
        await screen.open_book.ask(lambda book: book.record_payment(book.job(job_id), came))
        await screen.say_saved(f"Saved: {show_money(money.pence)} received.")

    others, last = job.owed - bill.owed, situation.last_receipt_on
    screen.app.push_screen(PaymentDialog(bill, others, last, today, save, deducts=is_inside(job)))


class ChaseDialog(FormDialog[None], inherit_bindings=False):
    """Nothing is typed: a key copies the reminder and records that it was made."""

    place: ClassVar[str] = "chase"
    places: ClassVar[tuple[str, ...]] = ("chase",)
    BINDINGS: ClassVar[list[BindingType]] = dialog_bindings("chase")

    def __init__(
        self,
        title: str,
        words: str,
        remind: Callable[[], Awaitable[Any]],
        ways: Mapping[str, Callable[[], Any]],
    ) -> None:
        """``ways`` are the other commands that there are here, each with what it leads to."""
        super().__init__(title, (), lambda _: None, lambda _: remind(), words=words)
        self._ways = ways
        self.go_on: Callable[[], Any] = lambda: None
        """What comes once it is closed."""

    def on_mount(self) -> None:
        """Hide the form: nothing is typed here."""
        super().on_mount()
        self._form.display = False

    def action_copy(self) -> None:
        """Copy the reminder, and record it."""
        self.action_save()

    def action_payment(self) -> None:
        """Ask what was paid."""
        self._go("payment")

    def action_will_pay(self) -> None:
        """Ask for the day they will pay on."""
        self._go("will_pay")

    def action_money(self) -> None:
        """Go to the page of the invoice."""
        self._go("money")

    def action_second(self) -> None:
        """Show the second reminder, and record it."""
        self._go("second")

    def action_write_off(self) -> None:
        """Ask why it is given up."""
        self._go("write_off")

    def action_further(self) -> None:
        """Record that it was taken further."""
        self._go("further")

    def _go(self, way: str) -> None:
        self.go_on = self._ways[way]
        self.dismiss(False)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's own names
        """The second reminder has its day."""
        return action != "second" or action in self._ways
