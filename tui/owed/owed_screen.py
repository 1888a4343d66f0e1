"""Owed: every invoice that is not paid, the oldest first, each with its next thing."""

from collections.abc import Awaitable, Callable
from typing import ClassVar

from rich.text import Text
from textual.widget import Widget
from textual.widgets import Static

from domain.accounts.chasing import NextThing
from domain.errors import NotNow
from domain.job import DocumentKind, Received
from domain.money import show_money
from domain.page_names import PageName
from domain.week import WeekData
from domain.week.debts import owed_by_age
from domain.week.owing import Owing, owing_by_age
from storage.week_and_jobs import read_week
from tui.frame.safe_text import one_line, plain
from tui.frame.screen import BaseScreen
from tui.owed.owed_lines import ages, owed_line, titles
from tui.week.chase_dialog import ask_what_came, chase
from tui.widgets.line_list import LineList

_NOTHING = "Nothing is owed to you."


class OwedScreen(BaseScreen):
    """Enter does the next thing of a line."""

    place: ClassVar[str] = "owed"
    title_words: ClassVar[str] = "owed"
    CSS = """
    OwedScreen #ages { margin: 0 2 1 2; height: auto; color: $quiet; }
    OwedScreen #titles { margin: 0 2; height: 1; color: $quiet; }
    OwedScreen LineList { margin: 0 2; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._owing: tuple[Owing, ...] = ()

    def heading_words(self) -> str:
        """What is owed in all, and how much of it is overdue."""
        today = self.open_book.today
        owed = sum(each.bill.owed for each in self._owing)
        late = sum(each.bill.owed for each in self._owing if each.days_over(today) > 0)
        return f"{show_money(owed)}, {show_money(late)} overdue" if owed else ""

    def body(self) -> list[Widget]:
        """Return what is owed by age, the titles, and the list."""
        return [Static("", id="ages"), Static("", id="titles"), LineList()]

    def on_mount(self) -> None:
        """Put the cursor into the list."""
        self.query_one(LineList).focus()

    def on_resize(self) -> None:
        """Titles stand over their columns."""
        self._draw_titles()

    async def reload(self) -> None:
        """Read what is owed."""
        path, today = self.open_book.path, self.open_book.today
        data: WeekData = await self.open_book.ask(lambda _: read_week(path, today))
        self._owing = owing_by_age(data, today)
        bills = [each.bill for each in self._owing]
        self.query_one("#ages", Static).update(plain(ages(owed_by_age(bills, today)) or _NOTHING))
        self.query_one(LineList).show(len(self._owing), self._draw)
        self._draw_titles()
        self.refresh_heading()

    def action_open(self) -> None:
        """Do the next thing of the line under the cursor."""
        self.query_one(LineList).action_choose()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Remind, decide, or record what came of an invoice that is not due yet."""
        event.stop()
        of = self._owing[event.row]
        if of.next.what is NextThing.WAIT:
            self.action_payment()
        else:
            self._go(of, lambda: chase(self, of.as_task(), of.line.job_id))

    def action_payment(self) -> None:
        """Record a payment of the invoice under the cursor, filled with what is owed."""
        if of := self._under_cursor():
            self._go(of, lambda: ask_what_came(self, of.as_task(), of.line.job_id))

    def action_transfer(self) -> None:
        """Record one transfer for several invoices of the customer's."""
        if of := self._under_cursor():
            self._go(of, lambda: self._ask_transfer(of.line.job_id))

    def action_statement(self) -> None:
        """Show the statement of account of the customer."""
        if of := self._under_cursor():
            self._go(of, lambda: self._show_statement(of.line.job_id))

    def action_job(self) -> None:
        """Open the job of the invoice under the cursor, at its money."""
        if of := self._under_cursor():
            self.program.open_job(of.line.job_id, PageName.MONEY)

    def _go(self, of: Owing, what: Callable[[], Awaitable[None]]) -> None:
        self.undo_of = of.line.job_id

        async def done() -> None:
            await what()

        self.in_worker(done())

    async def _ask_transfer(self, job_id: int) -> None:
        from tui.job.money.transfer_dialog import TransferDialog

        today = self.open_book.today
        situation = await self.open_book.ask(lambda book: book.situation(job_id, today))
        customer = situation.job.customer
        owing = await self.open_book.ask(lambda book: book.owing(customer.id or 0))
        if len(owing) < 2:
            raise NotNow("Only one invoice of theirs is open: record the payment of that.")

        async def save(came: Received) -> None:
            await self.open_book.ask(lambda book: book.record_payment(book.job(job_id), came))
            count = len(came.shares)
            told = "one invoice" if count == 1 else f"{count} invoices"
            await self.say_saved(f"Saved: {show_money(came.pence)} received, for {told}.")

        who = one_line(customer.called)
        last = situation.last_issued.get(DocumentKind.RECEIPT)
        self.app.push_screen(TransferDialog(who, owing, last, today, save))

    async def _show_statement(self, job_id: int) -> None:
        from tui.papers.paper_screen import PaperScreen
        from tui.papers.statement import statement_for

        today = self.open_book.today
        paper = await self.open_book.ask(
            lambda book: statement_for(book, book.job(job_id).customer.id or 0, today)
        )
        self.app.push_screen(PaperScreen(paper))

    def _under_cursor(self) -> Owing | None:
        row = self.query_one(LineList).cursor
        if row < len(self._owing):
            return self._owing[row]
        self.say(_NOTHING)
        return None

    def _draw(self, row: int, width: int) -> Text:
        return owed_line(self._owing[row], width, self.open_book.today, self.palette)

    def _draw_titles(self) -> None:
        width = self.query_one(LineList).size.width
        self.query_one("#titles", Static).update(plain(titles(width) if self._owing else ""))
