"""The lines of the list of backups, and the titles above it with the book as it is now."""

from datetime import datetime

from rich.text import Text
from textual.app import RenderResult
from textual.reactive import reactive
from textual.widget import Widget

from domain.job.invoice_label import invoice_label
from domain.signs import Sign
from storage.backups.everywhere import Backup
from storage.backups.holding import Holding
from tui.frame.safe_text import fitted
from tui.frame.theme import PALETTES, Palette
from tui.lists.backup_words import moment

_WEEKDAY, _MOMENT, _JOBS, _INVOICE, _GAP = 4, 21, 5, 9, 2
_NARROW = 74
"""Cells under which the days go without their weekday and the place is not told."""


class BackupTitles(Widget):
    """What the columns are, and what the book itself holds."""

    DEFAULT_CSS = "BackupTitles { height: 3; }"

    now: reactive[Holding | None] = reactive(None)

    def render(self) -> RenderResult:
        """Draw the titles quietly, each over its column, and the book as the line to compare."""
        p, width = PALETTES[self.app.theme], self.size.width
        made = _day_cells(width)
        held = f"{'jobs':>{_JOBS}}  {'invoice':<{_INVOICE}}{'last change':<{made + _GAP}}"
        where = "" if width < _NARROW else "where"
        text = Text(f"{'backup of':<{made}}{held}{where}\n", style=p.quiet, end="")
        if self.now is not None:
            text.append(_before_jobs("your book now", self.now, width), style=p.verdigris)
            text.append_text(_held(self.now, width, p))
        return text


def backup_line(backup: Backup, holding: Holding | str | None, width: int, p: Palette) -> Text:
    """One backup in ``width`` cells: when it was made, what it holds, and where it lies.

    ``holding`` is why it cannot be restored, or None while it is not read yet.
    """
    made = _moment(backup.at, width)
    if isinstance(holding, Holding):
        text = Text(_before_jobs(made, holding, width), style=p.ink, end="")
        text.append_text(_held(holding, width, p))
    else:
        text = Text(f"{made:<{_day_cells(width)}}  ", style=p.ink, end="")
        told = "…" if holding is None else f"{Sign.CAUTION} {holding}"
        style = p.quiet if holding is None else p.caution
        text.append(fitted(told, _JOBS + _INVOICE + _day_cells(width) + _GAP), style=style)
    return text.append("" if width < _NARROW else _where(backup), style=p.quiet)


def _day_cells(width: int) -> int:
    """Cells of a day with its time."""
    return _MOMENT - _WEEKDAY if width < _NARROW else _MOMENT


def _moment(at: datetime, width: int) -> str:
    """A day with its time, and its weekday if there is room."""
    told = moment(at)
    return told[_WEEKDAY:] if width < _NARROW else told


def _before_jobs(words: str, holding: Holding, width: int) -> str:
    """The first column, filled up so that the number of jobs ends its own."""
    return fitted(words, _day_cells(width) + _JOBS - len(str(holding.jobs)))


def _held(holding: Holding, width: int, p: Palette) -> Text:
    number, at = holding.last_invoice, holding.last_change
    invoice = invoice_label(number) if number else "none"
    text = Text(f"{holding.jobs}  {invoice:<{_INVOICE}}", style=p.ink, end="")
    change = "nothing saved" if at is None else _moment(at, width)
    return text.append(f"{change:<{_day_cells(width) + _GAP}}", style=p.quiet)


def _where(backup: Backup) -> str:
    if backup.beside is None:
        return "second folder"
    return "beside the book" if backup.second is None else "both folders"
