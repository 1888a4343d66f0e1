"""An overdue invoice, settled from its line: a payment, a reminder to copy, a day to wait for."""

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, ClassVar

from textual.binding import BindingType

from domain.accounts.chasing import (
    CHASED_AFTER,
    NextThing,
    back_on,
    goes_second,
    is_chased,
    next_thing,
    taken_further,
)
from domain.accounts.cis import is_inside
from domain.accounts.invoice import Invoice
from domain.accounts.write_off import GivenUp
from domain.days.calendar import show_date
from domain.days.dates import read_date
from domain.errors import NotNow
from domain.job import Chase, Document, DocumentKind, Job, Received
from domain.money import show_money
from domain.page_names import PageName
from domain.papers.blocks import Paper
from domain.papers.letters import reminder_text
from domain.papers.reminder_paper import second_reminder
from domain.snapshot import from_json
from domain.week import Task
from domain.week.put_off import demand_later
from tui.frame.commands import key_of
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
_SECOND = f"\n{key_of('chase', 'second')} makes it a paper."
_DECIDE = (
    "\nReminded twice: ask for a day, write it off, or "
    f"{key_of('chase', 'further')} for taken further."
)
_ALREADY = "\nThey were reminded today already: another is recorded beside it."
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
    if bill is None:
        raise NotNow(_PAID)
    _Chased(screen, task, job, bill).show()


@dataclass(frozen=True, slots=True)
class _Chased:
    """An invoice that is chased, and what is done about it."""

    screen: BaseScreen
    task: Task
    job: Job
    bill: Document

    def show(self) -> None:
        """Show what would be copied; the other commands lead on."""
        told, second = self._words()
        dialog = ChaseDialog(
            f"{show_money(self.bill.owed)} from {self.task.who}: {_begun_low(self.task.words)}",
            f"{self.task.about}{told}\n\n{self._text(second)}",
            lambda: self._remind(self._text(second)),
            self._ways(second),
        )
        self.screen.app.push_screen(dialog, lambda _: dialog.go_on())

    def _words(self) -> tuple[str, Paper | None]:
        """What is said of the time for a reminder, and the second where it is that one's."""
        today, due = self._today, self.bill.due_on
        chased = [each for each in self.job.chased if each.document_id == self.bill.id]
        comes = next_thing(due, chased, today).what
        already = any(each.on == today and each.is_reminder for each in chased)
        if not goes_second(self.job, self.bill, today):
            early = "" if already or is_chased(self.task.since, today) else f"\n{_EARLY}"
            return _ALREADY * already + early, None
        paper = second_reminder(self.bill, today, self.job.customer.email)
        return _ALREADY * already + _SECOND + (_DECIDE if comes is NextThing.DECIDE else ""), paper

    def _ways(self, second: Paper | None) -> dict[str, Callable[[], Any]]:
        screen, task, job_id = self.screen, self.task, self.job.id or 0
        ways: dict[str, Callable[[], Any]] = {
            "payment": lambda: screen.in_worker(ask_what_came(screen, task, job_id)),
            "will_pay": lambda: screen.app.push_screen(self._asks_for_a_day()),
            "money": lambda: screen.program.open_job(job_id, PageName.MONEY),
            "write_off": lambda: screen.app.push_screen(
                write_off_dialog(self.job, self.bill, self._today, self._give_up)
            ),
            "further": lambda: screen.in_worker(self._further()),
        }
        if second is not None:
            ways["second"] = lambda: screen.in_worker(self._second(second))
        return ways

    @property
    def _today(self) -> date:
        return self.screen.open_book.today

    def _text(self, second: Paper | None) -> str:
        """What is copied: the second reminder short, or the first."""
        if second is not None and second.letter is not None:
            return one_line(second.letter.short)
        invoice = from_json(Invoice, self.bill.snapshot)
        return one_line(reminder_text(invoice, self.bill.came, self.bill.owed, self._today))

    async def _record(self, wanted: Chase, told: str) -> None:
        job_id = self.job.id or 0
        await self.screen.open_book.ask(lambda book: book.chase(book.job(job_id), wanted))
        self.screen.undo_of = job_id
        await self.screen.say_saved(told)

    async def _reminded(self, told: str) -> None:
        until = back_on(self._today)
        wanted = Chase(self.bill.id or 0, self._today, until, promised=False)
        await self._record(wanted, f"{told} Back on {show_date(until)} if it is not paid.")

    async def _remind(self, text: str) -> None:
        label, screen = self.bill.label, self.screen
        unsure = await copy_or_save(screen.app, screen.open_book.path, f"Reminder {label}", text)
        await self._reminded(
            f"Reminder made. {unsure}." if unsure else f"Reminder of {label} copied."
        )

    async def _second(self, paper: Paper) -> None:
        await self._reminded(f"Recorded: second reminder of {self.bill.label}.")
        self.screen.app.push_screen(PaperScreen(paper))

    async def _further(self) -> None:
        wanted = taken_further(self.bill.id or 0, self._today)
        until = show_date(wanted.until)
        await self._record(wanted, f"{self.bill.label} taken further: back on {until}.")

    async def _give_up(self, given_up: GivenUp) -> None:
        job_id = self.job.id or 0
        await self.screen.open_book.ask(lambda book: book.write_off(book.job(job_id), given_up))
        await self.screen.say_saved(f"Saved: {self.bill.label} written off.")

    def _asks_for_a_day(self) -> FormDialog[Chase]:
        """The question when they will pay."""

        def read(values: dict[str, str]) -> Chase:
            until = read_date(_DAY.id, values[_DAY.id], self._today)
            demand_later(_DAY.id, until, self._today)
            return Chase(self.bill.id or 0, self._today, until, promised=True)

        async def save(wanted: Chase) -> None:
            day = show_date(wanted.until)
            told = f"They said they would pay on {day}: back on that day if not paid."
            await self._record(wanted, told)

        return FormDialog(f"{self.task.who}: they will pay", (_DAY,), read, save)


def _begun_low(words: str) -> str:
    """The words of a line within a sentence; the number of an invoice stays as it is."""
    return words[:1].lower() + words[1:]


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

    others, last = job.owed - bill.owed, situation.last_issued.get(DocumentKind.RECEIPT)
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
