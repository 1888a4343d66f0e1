"""What an invoice will ask for, shown once more before it is issued for good."""

from collections.abc import Awaitable, Callable, Iterable, Iterator
from datetime import date
from decimal import Decimal
from textwrap import wrap
from typing import Any

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Static

from domain.accounts.invoice import Invoice
from domain.days.calendar import show_date
from domain.job import DocumentKind, Extra, ExtraState
from domain.money import show_money
from domain.papers.blocks import Paper, Totals
from domain.papers.shared_parts import item_words
from domain.quantity import show_amount
from domain.signs import Sign
from domain.tone import Tone
from domain.typing_slips import before_last
from tui.frame.commands import key_of
from tui.frame.key_line import KeyLine
from tui.frame.message_line import MessageLine
from tui.frame.safe_text import plain, shortened
from tui.papers.paper_part import PaperPart
from tui.widgets.question import Question
from tui.widgets.slip_words import is_that_right

_MOST = 4
"""Lines that are shown: as many as leave the answers in sight where the window is low."""
_WIDE = 52
"""Cells of what a line is for."""
_NAMED = 20
"""Cells of an extra where it is asked about in one line."""


class IssueDialog(Question):
    """Shows what would be issued.

    Enter leads here from the week: pressed a moment too long it only goes back.
    """

    place = "issue"
    DEFAULT_CSS = """
    IssueDialog PaperPart { padding: 0 2; margin: 1 0; }
    IssueDialog .stops { color: $stop; padding: 0 2; height: auto; max-height: 2; }
    IssueDialog .extras { color: $caution; padding: 0 2; height: 1; }
    """

    def __init__(
        self,
        invoice: Invoice,
        last_invoice_on: date | None,
        save: Callable[[], Awaitable[Any]],
        stops: str,
        extras: Iterable[Extra],
    ) -> None:
        """``invoice`` is as it would be; its number is taken when it is issued.

        One dated before ``last_invoice_on``, of whichever job, is asked about first. ``stops`` is
        what will stop the next stage of its job: nothing for none. Of the ``extras`` of the job
        those that the invoice charges are asked about in a line: agreed is not done yet.
        """
        deposit = invoice.kind is DocumentKind.DEPOSIT
        super().__init__(
            "Issue the deposit invoice" if deposit else "Issue the invoice",
            save,
            "Once issued it cannot be changed.",
        )
        self._invoice = invoice
        self._stops = f"{Sign.STOP} {stops}" if stops else ""
        self._extras = "" if deposit else all_done(extras)
        self._doubt = before_last("issued_on", invoice.issued_on, last_invoice_on, "invoice")

    def compose(self) -> ComposeResult:
        """Yield title, what the invoice will say, message line and line of keys."""
        part = PaperPart()
        part.paper = in_short(self._invoice)
        with Vertical():
            yield Static(plain(self._title), id="title")
            yield part
            if self._stops:
                yield Static(plain(self._stops), classes="stops")
            if self._extras:
                yield Static(plain(self._extras), classes="extras")
            yield Static(plain(self._words), id="words")
            yield self._form
            yield MessageLine()
            yield KeyLine()

    async def _saved(self) -> None:
        """There is no field to say it under: it is said where every sentence is."""
        doubt, self._doubt = self._doubt, None
        if doubt is None:
            await super()._saved()
        else:
            yes = f"{key_of('issue', 'save')} again to issue it."
            self._refuse(f"{is_that_right([doubt.words])} {yes}", Tone.CAUTION)


def all_done(extras: Iterable[Extra]) -> str:
    """Ask whether the extras that are charged were done, in one line; nothing without any."""
    charged = [each for each in extras if each.state is ExtraState.AGREED]
    if not charged:
        return ""
    rest = len(charged) - 1
    named = shortened(charged[0].words, _NAMED) + (f" and {rest} more" if rest else "")
    return f"{Sign.CAUTION} Done: {named}? If not, mark it not charged first."


def in_short(invoice: Invoice) -> Paper:
    """Who it is for, the lines, and the sums; VAT only if there is any."""
    totals, taken = invoice.totals, invoice.deduction
    rows = [*_lines(invoice)]
    rows.append(("Total before VAT" if totals.rated else "Total", show_money(totals.net)))
    if totals.rated:
        rows.append(("VAT", show_money(totals.vat_whole)))
        rows.append(("Including VAT", show_money(totals.gross)))
    if taken is not None:
        rows.append((f"Less deposit invoice {taken.label}", show_money(-taken.totals.gross)))
    if invoice.credit:
        rows.append(("Less what they paid already", show_money(-invoice.paid_before)))
    if invoice.cis is not None:
        rows.append(("CIS deducted", show_money(-invoice.cis.deducted)))
    rows.append((f"Due by {show_date(invoice.due_on)}", show_money(invoice.to_pay)))
    return Paper(f"{invoice.buyer.name}, {invoice.place}", (Totals(tuple(rows)),))


def _lines(invoice: Invoice) -> Iterator[tuple[str, str]]:
    """Each line whole, if they have the room; of many the first, and what the rest comes to."""
    fits = len(invoice.lines) <= _MOST
    shown = invoice.lines if fits else invoice.lines[: _MOST - 1]
    whole = [wrap(item_words(line), _WIDE) for line in shown]
    for line, words in zip(shown, whole, strict=True):
        if sum(map(len, whole)) <= _MOST:
            yield from ((part, "") for part in words[:-1])
            yield words[-1], show_money(line.net)
        else:
            yield shortened(item_words(line), _WIDE), show_money(line.net)
    rest = invoice.lines[len(shown) :]
    if rest:
        count = show_amount(Decimal(len(rest)), "more line")
        yield f"and {count}", show_money(sum(line.net for line in rest))
