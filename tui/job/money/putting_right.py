"""What was wrong on the money page is put right: an invoice, a payment, what will not be paid."""

from collections.abc import Awaitable, Callable
from datetime import date
from typing import Any

from textual.screen import Screen

from domain.accounts.calling_off import to_pay_back
from domain.accounts.counter_entries import GivenBack, payment_behind
from domain.accounts.credit_note import Credited, credit_note, effect_of_credit, lines_left
from domain.accounts.write_off import GivenUp
from domain.job import Document, DocumentKind, Job
from domain.money import show_money
from domain.typing_slips import before_last
from storage.book import Book
from tui.job.money.put_right_dialogs import PAY_BACK, CreditDialog, GiveBackDialog, done_words
from tui.job.money.write_off_dialog import taken_back_dialog, write_off_dialog
from tui.job.page import JobPage
from tui.widgets.notice import Notice

_NOT_YET = 1  # the number is taken when it is issued
_GivesUp = Callable[[Book, Job, GivenUp], Job]
_Asks = Callable[[Job, Document, date, Callable[[GivenUp], Awaitable[Any]]], Screen[bool]]


def put_right(page: JobPage, document: Document | None, done: Callable[[], None]) -> None:
    """Ask how a document is put right; ``done`` is called once there is one more."""
    if document is None:
        words = "Nothing is invoiced yet, so there is nothing to put right."
        page.app.push_screen(Notice("Nothing to put right", words))
    elif document.kind.asks and document.written_off and not document.owed:
        _ask_why(page, document, Book.take_back_write_off, taken_back_dialog, "is owed again")
    elif document.kind.asks:
        _ask_what_to_credit(page, document, done)
    elif document.kind is DocumentKind.RECEIPT:
        _ask_what_happened(page, document, done)
    else:
        words = "This puts another right already. Go to an invoice or a receipt."
        page.app.push_screen(Notice(f"{document.label} stays", words))


def give_up(page: JobPage, invoice: Document | None) -> None:
    """Ask why an invoice will not be paid, and write it off."""
    if invoice is None:
        page.app.push_screen(Notice("Nothing to write off", "Nothing is owed on this job."))
    else:
        _ask_why(page, invoice, Book.write_off, write_off_dialog, "written off")


def _ask_why(page: JobPage, invoice: Document, act: _GivesUp, dialog: _Asks, done: str) -> None:
    async def save(given_up: GivenUp) -> None:
        job = page.job
        await page.record(lambda book: act(book, job, given_up), f"Saved: {invoice.label} {done}.")

    page.app.push_screen(dialog(page.job, invoice, page.open_book.today, save))


def _ask_what_to_credit(page: JobPage, invoice: Document, done: Callable[[], None]) -> None:
    left = invoice.gross - invoice.credited - invoice.written_off
    if not left:
        words = f"All of {invoice.label} is credited already."
        page.app.push_screen(Notice("Nothing to credit", words))
        return

    async def save(credited: Credited) -> None:
        job, today = page.job, page.open_book.today
        await page.record(
            lambda book: book.credit(job, credited, today),
            f"Issued: a credit note for {show_money(credited.pence)}. Enter shows it.",
        )
        done()

    job, trader, today = page.job, page.situation.trader, page.open_book.today
    last = page.situation.last_issued.get(DocumentKind.CREDIT_NOTE)
    dialog = CreditDialog(
        invoice,
        left,
        lambda credited: credit_note(job, credited, trader, _NOT_YET, today),
        lambda note: effect_of_credit(job, note),
        save,
        before_last("amount", today, last, "credit note"),
        () if invoice.bears_cis else lines_left(job, invoice),
    )
    page.app.push_screen(dialog)


def _ask_what_happened(page: JobPage, receipt: Document, done: Callable[[], None]) -> None:
    """Ask what became of a payment: that it goes back is chosen where it has to."""
    payment = payment_behind(page.job, receipt)
    if payment.is_mistake:
        words = f"{receipt.label} was cancelled already."
        page.app.push_screen(Notice("Nothing to put right", words))
        return

    async def save(back: GivenBack) -> None:
        job, today = page.job, page.open_book.today
        await page.record(
            lambda book: book.give_back(job, back, today),
            f"Saved: {done_words(payment, back)}. Enter shows the note.",
        )
        done()

    goes_back = payment.refundable and to_pay_back(page.job) is not None
    what = PAY_BACK if goes_back else ""
    today = page.open_book.today
    page.app.push_screen(
        GiveBackDialog(payment, receipt.label, today, page.situation.last_issued, save, what=what)
    )
