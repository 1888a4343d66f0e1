"""What is owed on an invoice given up with a reason, or owed again."""

from collections.abc import Awaitable, Callable
from datetime import date
from typing import Any

from domain.accounts.write_off import GivenUp, standing_on, vat_words
from domain.days.dates import read_past_date
from domain.job import Document, Job
from domain.money import show_money
from tui.frame.commands import key_of
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, read_text
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_FIELDS = (
    Field("reason", "Because", example="moved away, no answer"),
    Field("on", "On", hint="today", takes=Takes.DONE),
)


def write_off_dialog(
    job: Job, invoice: Document, today: date, save: Callable[[GivenUp], Awaitable[Any]]
) -> FormDialog[GivenUp]:
    """Ask why what is owed on an invoice will not be paid, and say what becomes of its VAT."""
    words = (
        f"{show_money(invoice.owed)} is owed on it. Written off, it is chased no more. "
        "No credit note is made: they still owe it, and "
        f"{key_of('money', 'write_off')} on the money page takes it back."
    )
    vat = vat_words(job, invoice, today)
    return _dialog(f"Write off {invoice.label}", f"{words}\n{vat}".strip(), invoice, today, save)


def taken_back_dialog(
    job: Job, invoice: Document, today: date, save: Callable[[GivenUp], Awaitable[Any]]
) -> FormDialog[GivenUp]:
    """Ask why a write-off is taken back."""
    before = standing_on(job, invoice)
    pence = before.pence if before else 0
    words = f"{show_money(pence)} was written off. Once cancelled, it is owed again."
    return _dialog(f"{invoice.label} was written off", words, invoice, today, save)


def _dialog(
    title: str,
    words: str,
    invoice: Document,
    today: date,
    save: Callable[[GivenUp], Awaitable[Any]],
) -> FormDialog[GivenUp]:
    def read(typed: dict[str, str]) -> GivenUp:
        on = read_past_date("on", typed["on"], today)
        return GivenUp(invoice.id or 0, on, read_text("reason", typed["reason"], "Say why."))

    values = {"on": date_typed(today)}
    return FormDialog(title, _FIELDS, read, save, words=words, values=values)
