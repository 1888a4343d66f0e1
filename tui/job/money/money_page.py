"""Invoices, payments and receipts of a job."""

from collections.abc import Callable, Iterable
from datetime import date
from typing import ClassVar

from rich.text import Text
from textual.widget import Widget
from textual.widgets import Static

from domain.accounts.calling_off import to_pay_back
from domain.accounts.cis import is_inside
from domain.accounts.counter_entries import payment_behind
from domain.accounts.invoice import Invoice, deposit_invoice_for, invoice_for
from domain.accounts.vat_since import as_if_said, asks_for_vat_terms
from domain.checks.check import Situation
from domain.checks.sending import waiting
from domain.errors import NotNow
from domain.job import Document, DocumentKind, Job, Outgoing, Received, Stage
from domain.money import Pence, show_money
from domain.page_names import PageName
from domain.tone import Tone
from domain.trader import Trader
from storage.book import Book
from tui.frame.commands import key_of
from tui.job.money.account_words import account_standing, nothing_owed
from tui.job.money.document_rows import DocumentTitles, deducts, document_line
from tui.job.money.invoice_dialog import IssueDialog
from tui.job.money.materials_cost_dialog import MaterialsCostDialog
from tui.job.money.payment_dialog import AheadDialog, MoneyIn, PaymentDialog
from tui.job.money.putting_right import give_up, put_right
from tui.job.money.vat_terms_dialog import Said, VatTermsDialog
from tui.job.page import JobPage
from tui.job.stage_moves import stops_ahead, where_to_begin
from tui.papers.as_issued import paper_as_issued
from tui.widgets.line_list import LineList
from tui.widgets.notice import Notice

_Plan = Callable[[Job, Trader, int, date], Invoice]
_Issue = Callable[[Book, Job, date], Job]
_NOT_YET = 1  # the number is taken when it is issued
_NONE_AWAITED = "A statement is awaited for each payment from which a contractor deducted CIS."


class MoneyPage(JobPage):
    """The documents in order; Enter shows one as it was issued."""

    page: ClassVar[PageName] = PageName.MONEY
    place: ClassVar[str] = "money"
    DEFAULT_CSS = "MoneyPage #standing { height: auto; margin-bottom: 1; }"

    def __init__(self) -> None:
        super().__init__()
        self._offered = self._sent_on = self._led = False

    def body(self) -> Iterable[Widget]:
        """How the account stands, and the documents."""
        yield Static("", id="standing")
        yield DocumentTitles()
        yield LineList()

    def fill(self, situation: Situation) -> None:
        """List the recorded documents."""
        job = situation.job
        words, tone = account_standing(job, situation.today)
        self.query_one("#standing", Static).update(Text(words, style=self.palette.tone(tone)))
        titles = self.query_one(DocumentTitles)
        titles.display, titles.deducts = bool(job.documents), deducts(job)
        self.query_one(LineList).show(len(job.documents), self._draw)
        self._lead_to_what_goes_back(job)

    def keys_left_out(self) -> frozenset[str]:
        """What is issued already, or nobody asked for, is not offered; nothing is typed here."""
        job = self.job
        asked = job.quote is not None and job.quote.acceptance is not None and job.quote.deposit
        done = job.invoice is not None
        gone = done or job.deposit_invoice is not None or not asked
        sent = (done or self.job.ended is not None) and self._to_send() is None
        awaited = any(each.wants_statement for each in job.payments)
        left_out = {"save": True, "send": sent, "deposit": gone, "statement": not awaited}
        left_out["write_off"] = not self.job.owed
        return frozenset(name for name, out in left_out.items() if out)

    def begin(self) -> None:
        """Where the job was opened to invoice it, go straight to that: once it can be, and once."""
        super().begin()
        opened_for_it = self.job_screen.opened_at is self.page and self.job.invoice is None
        if not opened_for_it:
            return
        if self.job.stage.rank >= Stage.LAID.rank and not self._offered:
            self._offered = True
            self._propose(invoice_for, Book.issue_invoice)
        elif self.job.stage.rank < Stage.LAID.rank and not self._sent_on:
            self._sent_on = True
            self.job_screen.in_worker(self._turn_to_what_is_first())

    def _lead_to_what_goes_back(self, job: Job) -> None:
        """Put the cursor, once, on the receipt of the money that goes back to them."""
        if self._led or to_pay_back(job) is None:
            return
        self._led = True
        for row, document in enumerate(job.documents):
            if document.kind is DocumentKind.RECEIPT and payment_behind(job, document).refundable:
                self.query_one(LineList).cursor = row

    def action_send(self) -> None:
        """Mark as sent what is issued; else show what the invoice will ask for, and issue it."""
        issued = self._to_send()
        if issued is None:
            self._propose(invoice_for, Book.issue_invoice)
        else:
            self.job_screen.save_in_worker(self._mark_sent(issued))

    def action_deposit(self) -> None:
        """Show what the invoice for the deposit will ask for, and issue it once confirmed."""
        self._propose(deposit_invoice_for, Book.issue_deposit_invoice)

    def action_money_in(self) -> None:
        """Record a payment: for the invoice under the cursor, else the first not paid."""
        owing = [document for document in self.job.documents if document.owed > 0]
        here = self._under_cursor()
        document = here if here in owing else next(iter(owing), None)

        async def save(money: MoneyIn) -> None:
            job, key = self.job, document.id if document else None
            received = Received(key, money.pence, money.received_on, money.method, money.cis)
            await self.record(
                lambda book: book.record_payment(job, received),
                f"Saved: {show_money(money.pence)} received. If it is wrong: "
                f"{key_of('money', 'put_right')} on its receipt.",
            )
            self._show_newest()

        last, today = self.situation.last_issued.get(DocumentKind.RECEIPT), self.open_book.today
        words, inside = nothing_owed(self.job), is_inside(self.job)
        if document is None:
            self.app.push_screen(AheadDialog(words, last, today, save, deducts=inside))
        else:
            others = self.job.owed - document.owed
            self.app.push_screen(PaymentDialog(document, others, last, today, save, deducts=inside))

    def action_put_right(self) -> None:
        """Put right what is under the cursor: an invoice or a payment."""
        put_right(self, self._under_cursor(), self._show_newest)

    def action_statement(self) -> None:
        """Tick off the statement of deduction of the receipt under the cursor, else the first."""
        awaited = [each for each in self.job.payments if each.wants_statement]
        here = self._under_cursor()
        if here is not None and here.kind is DocumentKind.RECEIPT:
            awaited.sort(key=lambda each: payment_behind(self.job, here).id != each.id)
        job, today = self.job, self.open_book.today
        if not awaited:
            self.app.push_screen(Notice("No statement to tick off", _NONE_AWAITED))
            return
        payment = awaited[0]
        self.job_screen.save_in_worker(
            self.record(
                lambda book: book.tick_statement(job, payment.id or 0, today),
                f"Saved: the statement of {show_money(payment.cis)} deducted came.",
            )
        )

    def action_write_off(self) -> None:
        """Give up what is owed on the invoice under the cursor, else the first not paid."""
        owing = [document for document in self.job.documents if document.owed > 0]
        here = self._under_cursor()
        if here is not None and here.written_off and not here.owed:
            put_right(self, here, self._show_newest)  # once more takes it back
        else:
            give_up(self, here if here in owing else next(iter(owing), None))

    def _show_newest(self) -> None:
        self.query_one(LineList).cursor = len(self.job.documents) - 1

    def action_open(self) -> None:
        """Show the document under the cursor."""
        self.query_one(LineList).action_choose()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Show the document as it was issued."""
        event.stop()
        from tui.papers.paper_screen import PaperScreen

        paper = paper_as_issued(self.job.documents[event.row], self.job.customer)
        self.app.push_screen(PaperScreen(paper))

    def _propose(self, plan: _Plan, issue: _Issue) -> None:
        try:
            self._ask(plan, issue)
        except NotNow as error:
            self.job_screen.say(str(error), Tone.STOP)

    def _ask(self, plan: _Plan, issue: _Issue) -> None:
        job, today = self.job, self.open_book.today
        if asks_for_vat_terms(job, self.situation.trader):
            plan(as_if_said(job), self.situation.trader, _NOT_YET, today)
            self._ask_for_vat_terms(plan, issue)
            return
        if plan is invoice_for and is_inside(job):
            self.job_screen.in_worker(self._ask_what_materials_cost())
            return
        self._confirm(plan, issue)

    async def _ask_what_materials_cost(self) -> None:
        """Ask it of a contractor's invoice, then go on to that."""
        job, trader, today = self.job, self.situation.trader, self.open_book.today
        paid = await self.open_book.ask(lambda book: book.paid_for(job.id))

        def planned(cost: Pence | None) -> Invoice:
            return invoice_for(job, trader, _NOT_YET, today, paid, cost)

        try:
            cis = planned(None).cis
        except NotNow as error:
            self.job_screen.say(str(error), Tone.STOP)
            return
        proposed = cis.materials if cis else 0
        typed: list[Pence] = []

        async def save(cost: Pence) -> None:
            typed.append(cost)

        def go_on(saved: bool | None) -> None:
            if saved:
                cost = None if typed[-1] == proposed else typed[-1]
                self._confirm(
                    lambda *_: planned(cost),
                    lambda book, of, day: book.issue_invoice(of, day, cost),
                )

        self.app.push_screen(MaterialsCostDialog(proposed, planned, save), go_on)

    def _confirm(self, plan: _Plan, issue: _Issue) -> None:
        """Show the invoice once more, and issue it."""
        job, today = self.job, self.open_book.today
        planned = plan(job, self.situation.trader, _NOT_YET, today)

        async def save() -> None:
            what = f"the {planned.kind}"
            await self.record(
                lambda book: issue(book, job, today), f"Issued: {what}. Enter shows it."
            )
            self._show_newest()

        last, stops = (
            self.situation.last_issued.get(DocumentKind.INVOICE),
            stops_ahead(self.situation),
        )
        self.app.push_screen(IssueDialog(planned, last, save, stops, job.extras))

    def _ask_for_vat_terms(self, plan: _Plan, issue: _Issue) -> None:
        """Ask how VAT stands to a price that was agreed without it, then go on to the invoice."""

        async def save(said: Said) -> None:
            await self.record(
                lambda book: book.say_vat_terms(self.job, said.terms, said.on),
                f"Saved: VAT is {said.terms}.",
            )

        def go_on(saved: bool | None) -> None:
            if saved:
                self._propose(plan, issue)

        self.app.push_screen(VatTermsDialog(self.open_book.today, save), go_on)

    def _to_send(self) -> Document | None:
        """What is issued and waits to be sent: under the cursor, else the newest.

        Money that came for one shows that it got there.
        """
        asked = [d for d in self.job.documents if d.kind.asks and d.unsettled == d.gross]
        left = [each for each in asked if waiting(self.job, Outgoing.INVOICE, each.number)]
        here = self._under_cursor()
        return here if here in left else left[-1] if left else None

    async def _mark_sent(self, issued: Document) -> None:
        today = self.open_book.today
        await self.act(
            lambda book: book.mark_sent(self.job, Outgoing.INVOICE, issued.number, today),
            f"Marked as sent: {issued.label}.",
        )

    async def _turn_to_what_is_first(self) -> None:
        await self.job_screen.turn_to(where_to_begin(self.situation))
        self.job_screen.say(
            "You can invoice once the roof is marked laid. This comes first.", Tone.CAUTION
        )

    def _under_cursor(self) -> Document | None:
        row = self.query_one(LineList).cursor
        return self.job.documents[row] if row < len(self.job.documents) else None

    def _draw(self, row: int, width: int) -> Text:
        return document_line(self.job, row, width, self.open_book.today, self.palette)
