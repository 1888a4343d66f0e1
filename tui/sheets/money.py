"""Invoices, payments and receipts of a job."""

from collections.abc import Callable, Iterable
from datetime import date
from typing import ClassVar

from rich.text import Text
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.calendar import show_date
from domain.checks.check import Situation
from domain.invoice import Invoice, deposit_invoice_for, invoice_for
from domain.job import Document, DocumentKind, Job
from domain.money import show_money
from domain.papers.blocks import Paper, Tone
from domain.papers.invoice import invoice_paper
from domain.papers.receipt import receipt_paper
from domain.receipt import Receipt
from domain.sheets import SheetName
from domain.snapshot import from_json
from domain.trader import Trader
from tui.dialogs.base import FormDialog
from tui.dialogs.payment import MoneyIn, payment_dialog
from tui.sheets.base import Sheet
from tui.widgets.line_list import LineList

_Draw = Callable[[Job, Trader, int, date], Invoice]
_NOT_YET = 1  # the number is taken when it is issued


class MoneySheet(Sheet):
    """The documents in order; what can be asked for next is on the line of keys."""

    sheet: ClassVar[SheetName] = SheetName.MONEY
    place: ClassVar[str] = "money"
    DEFAULT_CSS = "MoneySheet Static { margin-bottom: 1; } MoneySheet LineList { height: 1fr; }"

    def body(self) -> Iterable[Widget]:
        """What is owed, and the documents."""
        yield Static("", id="owed")
        yield LineList()

    def fill(self, situation: Situation) -> None:
        """The documents on record."""
        job = situation.job
        credit = sum(payment.unallocated for payment in job.payments)
        words = f"Owed {show_money(job.owed)}" if job.documents else "Nothing is invoiced yet."
        over = f"  ·  to the customer's credit {show_money(credit)}" if credit else ""
        self.query_one("#owed", Static).update(Content(words + over))
        self.query_one(LineList).show(len(job.documents), self._draw)

    def action_issue(self) -> None:
        """Show what the invoice will ask for, and issue it when that is confirmed."""
        self.job_screen.errand(self._propose("the invoice", invoice_for))

    def action_deposit(self) -> None:
        """As :meth:`action_issue`, for the deposit."""
        self.job_screen.errand(self._propose("the deposit invoice", deposit_invoice_for))

    def action_money_in(self) -> None:
        """Put a payment on record for the first invoice that is not paid."""
        owing = next((d for d in self.job.documents if d.owed > 0), None)
        if owing is None or owing.id is None:
            self.job_screen.say("Nothing is owed on this job.", Tone.QUIET)
            return
        key = owing.id

        async def save(money: MoneyIn) -> None:
            job = self.job
            await self.record(
                lambda book: book.record_payment(
                    job, key, money.pence, money.received_on, money.method
                ),
                f"Saved: {show_money(money.pence)} in. The receipt is in the list.",
            )

        self.app.push_screen(payment_dialog(owing, self.desk.today, save))

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Show the document as it was issued."""
        event.stop()
        from tui.screens.paper import PaperScreen

        self.app.push_screen(PaperScreen(_paper(self.job.documents[event.row])))

    async def _propose(self, what: str, draw: _Draw) -> None:
        job, trader, today = self.job, self.situation.trader, self.desk.today
        planned = draw(job, trader, _NOT_YET, today)

        async def save(_: None) -> None:
            if draw is invoice_for:
                await self.record(lambda book: book.issue_invoice(job, today), f"Issued: {what}.")
            else:
                await self.record(
                    lambda book: book.issue_deposit_invoice(job, today), f"Issued: {what}."
                )

        self.app.push_screen(
            FormDialog(f"Issue {what}", (), lambda _: None, save, words=_in_words(planned))
        )

    def _draw(self, row: int, width: int) -> Text:
        document, p = self.job.documents[row], self.palette
        line = Text(f"{document.label:<7}", style=f"bold {p.ink}", end="")
        line.append(f"{document.kind.value:<17}{show_date(document.issued_on):<17}", style=p.quiet)
        line.append(f"{show_money(document.gross):>11}", style=p.ink)
        if document.kind is not DocumentKind.RECEIPT:
            owed = f"▲ owed {show_money(document.owed)}" if document.owed else "✓ paid"
            line.append(f"   {owed}", style=p.caution if document.owed else p.moss)
        line.truncate(width)
        return line


def _in_words(invoice: Invoice) -> str:
    """What will stand on it, in a few lines."""
    totals = invoice.totals
    lines = [f"{len(invoice.lines)} lines, net {show_money(totals.net)}"]
    if totals.gross != totals.net:
        lines.append(f"VAT {show_money(totals.gross - totals.net)}")
    if invoice.deduction is not None:
        less = show_money(invoice.deduction.totals.gross)
        lines.append(f"less deposit invoice {invoice.deduction.label} {less}")
    lines.append(f"to pay {show_money(invoice.due)} by {show_date(invoice.due_on)}")
    return "\n".join([*lines, "Once issued it never changes."])


def _paper(document: Document) -> Paper:
    """The document as a paper."""
    if document.kind is DocumentKind.RECEIPT:
        return receipt_paper(from_json(Receipt, document.snapshot))
    return invoice_paper(from_json(Invoice, document.snapshot))
