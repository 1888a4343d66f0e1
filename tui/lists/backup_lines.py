"""The lines of the list of backups, and the titles above it with the book as it is now."""

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

_MADE, _JOBS, _INVOICE, _CHANGE = 21, 5, 9, 23
_HOLDING = _JOBS + 2 + _INVOICE + _CHANGE


class BackupTitles(Widget):
    """What the columns are, and what the book itself holds."""

    DEFAULT_CSS = "BackupTitles { height: 3; }"

    now: reactive[Holding | None] = reactive(None)

    def render(self) -> RenderResult:
        """Draw the titles quietly, each over its column, and the book as the line to compare."""
        p = PALETTES[self.app.theme]
        held = f"{'jobs':>{_JOBS}}  {'invoice':<{_INVOICE}}{'last change':<{_CHANGE}}"
        text = Text(f"{'backup of':<{_MADE}}{held}where\n", style=p.quiet, end="")
        if self.now is not None:
            text.append(_before_jobs("your book now", self.now), style=p.verdigris)
            text.append_text(_held(self.now, p))
        return text


def backup_line(backup: Backup, holding: Holding | str | None, p: Palette) -> Text:
    """One backup: when it was made, what it holds, and where it lies.

    ``holding`` is why it cannot be restored, or None while it is not read yet.
    """
    made = moment(backup.at)
    if isinstance(holding, Holding):
        text = Text(_before_jobs(made, holding), style=p.ink, end="")
        text.append_text(_held(holding, p))
    else:
        text = Text(f"{made:<{_MADE}}  ", style=p.ink, end="")
        told = "…" if holding is None else f"{Sign.CAUTION} {holding}"
        style = p.quiet if holding is None else p.caution
        text.append(fitted(told, _HOLDING - 2), style=style)
    return text.append(_where(backup), style=p.quiet)


def _before_jobs(words: str, holding: Holding) -> str:
    """The first column, filled up so that the number of jobs ends its own."""
    return fitted(words, _MADE + _JOBS - len(str(holding.jobs)))


def _held(holding: Holding, p: Palette) -> Text:
    number, at = holding.last_invoice, holding.last_change
    invoice = invoice_label(number) if number else "none"
    text = Text(f"{holding.jobs}  {invoice:<{_INVOICE}}", style=p.ink, end="")
    change = "nothing saved" if at is None else moment(at)
    return text.append(f"{change:<{_CHANGE}}", style=p.quiet)


def _where(backup: Backup) -> str:
    if backup.beside is None:
        return "second folder"
    return "beside the book" if backup.second is None else "both folders"
