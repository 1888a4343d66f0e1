"""The rows of the money page: a document a line, and the titles over them."""

from datetime import date

from rich.text import Text
from textual.app import RenderResult
from textual.reactive import reactive
from textual.widget import Widget

from domain.accounts.counter_entries import payment_behind
from domain.days.calendar import show_date, show_day
from domain.job import Document, DocumentKind, Job
from domain.money import show_money
from domain.signs import Sign
from tui.frame.safe_text import fitted
from tui.frame.theme import PALETTES, Palette
from tui.job.money.account_words import about

_WIDE, _NARROW = 100, 68
"""Cells from which dates are whole, and under which two columns have no room."""
_DEDUCTED = 11  # cells


def deducts(job: Job) -> bool:
    """Whether a contractor deducts something of it, and so it has a column."""
    return any(document.deduction for document in job.documents)


def document_line(job: Job, row: int, width: int, today: date, p: Palette) -> Text:
    """Number, kind, days, what is asked, came and was deducted of it, and what is owed."""
    document, in_cis = job.documents[row], deducts(job)
    shown = show_date if width >= _WIDE else show_day
    dates, wide = _dates_width(width), width >= _NARROW
    line = Text(f"{document.label:<8}", style=f"bold {p.ink}", end="")
    line.append(fitted(document.kind, _kind_width(width, in_cis=in_cis)), style=p.ink)
    if _has_issued(width, in_cis=in_cis):
        line.append(f"{shown(document.issued_on):>{dates}}", style=p.quiet)
    if not document.kind.asks:
        came = f"{show_money(_sum(document, job)):>11}"
        line.append(" " * dates + came, style=f"bold {p.ink}")
        room = max(0, min(31 if in_cis else 25, width - line.cell_len - 2))
        told = about(document, job)
        told = told if len(told) <= room else told.removeprefix("bank ")
        return line.append(f"  {fitted(told, room)}", style=p.quiet)
    line.append(f"{shown(document.due_on):>{dates}}", style=p.quiet)
    line.append(f"{show_money(document.gross):>11}", style=f"bold {p.ink}")
    if wide:
        line.append(
            f"{show_money(document.came):>{_paid_width(width, in_cis=in_cis)}}", style=p.ink
        )
    if wide and in_cis:
        line.append(f"{show_money(document.deduction):>{_DEDUCTED}}", style=p.ink)
    return line.append_text(_owed(document, today, p))


def _sum(document: Document, job: Job) -> int:
    """Of a receipt the money that came: what was deducted is told beside it."""
    if document.kind is DocumentKind.RECEIPT:
        return payment_behind(job, document).money
    return document.gross


def _owed(document: Document, today: date, p: Palette) -> Text:
    if document.is_withdrawn:
        return Text(f"{'credited':>13}", style=p.quiet)
    if not document.owed and document.written_off:
        return Text(f"{'written off':>13}", style=p.quiet)
    if not document.owed:
        done = f"{Sign.GOOD} {'rest paid' if document.credited else 'paid'}"
        return Text(f"{done:>13}", style=p.moss)
    late = document.due_on < today
    owed = f"{Sign.CAUTION} " * late + show_money(document.owed)
    return Text(f"{owed:>13}", style=p.caution if late else p.ink)


class DocumentTitles(Widget):
    """What the columns are."""

    DEFAULT_CSS = "DocumentTitles { height: 1; }"

    deducts: reactive[bool] = reactive(False)
    """Whether a contractor deducts something."""

    def render(self) -> RenderResult:
        """Draw the titles quietly, each over its column."""
        width, in_cis = self.size.width, self.deducts
        dates = _dates_width(width)
        words = f"{'number':<{8 + _kind_width(width, in_cis=in_cis)}}"
        words += f"{'issued':>{dates}}" if _has_issued(width, in_cis=in_cis) else ""
        words += f"{'due':>{dates}}{'asked':>11}"
        if width >= _NARROW:
            words += f"{'paid':>{_paid_width(width, in_cis=in_cis)}}"
            words += f"{'CIS':>{_DEDUCTED}}" if in_cis else ""
        words += f"{'owed':>13}"
        return Text(words, style=PALETTES[self.app.theme].quiet)


def _has_issued(width: int, *, in_cis: bool) -> bool:
    """The day of issue makes room for what is deducted."""
    return width >= (_WIDE + _DEDUCTED if in_cis else _NARROW)


def _kind_width(width: int, *, in_cis: bool) -> int:
    """A contractor is asked for no deposit, whose kind has the longest name."""
    return 13 if in_cis and width < _WIDE else 16


def _paid_width(width: int, *, in_cis: bool) -> int:
    return 11 if in_cis and width < _WIDE else 12


def _dates_width(width: int) -> int:
    return 17 if width >= _WIDE else 8
