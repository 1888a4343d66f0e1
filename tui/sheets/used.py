"""What was used: a row a material and kind of hours, filled with the estimate, soon corrected."""

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal
from typing import ClassVar

from rich.text import Text
from textual import events
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.checks.check import Situation
from domain.job import Job, Usage
from domain.papers.blocks import Tone
from domain.sheets import SheetName
from domain.usage import ELEMENTS, estimate, leftovers_to_store, pack_size, with_used
from tui.reading.plain import shown
from tui.safe_text import fitted
from tui.sheets.base import Sheet
from tui.widgets.line_list import LineList

_BAR = 16
_HOUR_STEP = Decimal("0.5")
_LONGEST = 6  # figures that can be typed


class UsedSheet(Sheet):
    """Left and right change a row, figures type it, Enter goes on, a accepts all."""

    sheet: ClassVar[SheetName] = SheetName.MATERIALS
    place: ClassVar[str] = "used"
    DEFAULT_CSS = """
    UsedSheet LineList { height: auto; max-height: 9; }
    UsedSheet Static { color: $quiet; margin-bottom: 1; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[Usage, ...] = ()
        self._at_first: tuple[Usage, ...] = ()
        self._typing = ""

    def body(self) -> Iterable[Widget]:
        """What the columns are, and the rows."""
        yield Static(Content("estimated, used, and left for the store"), id="columns")
        yield LineList()

    def fill(self, situation: Situation) -> None:
        """What was written up, or the estimate."""
        job = situation.job
        self._rows = job.usages or (estimate(job.quote.basis) if job.quote else ())
        self._at_first = self._rows
        self._show()

    def part(self, job: Job) -> object:
        """What was written up."""
        return job.usages

    @property
    def dirty(self) -> bool:
        """Whether a row was changed."""
        return self._rows != self._at_first

    def action_step(self, by: int) -> None:
        """A unit less or more; hours by the half."""
        row = self._row()
        if row is not None:
            step = _HOUR_STEP if row.unit == "hour" else Decimal(1)
            self._set(row.used + by * step)

    def action_pack(self, by: int) -> None:
        """A pack less or more."""
        row, quote = self._row(), self.situation.job.quote
        if row is not None and quote is not None:
            self._set(row.used + by * pack_size(quote.basis, row.element))

    def action_accept_all(self) -> None:
        """Save all rows as they stand."""
        self.job_screen.errand(self.save())

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Another row: what is typed next is a new figure."""
        event.stop()
        self._typing = ""

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """The row is right: on to the next."""
        event.stop()
        self.query_one(LineList).action_move(1)

    def on_key(self, event: events.Key) -> None:
        """Figures type the quantity; Backspace takes the last away."""
        typed = event.character or ""
        if event.key == "backspace":
            self._typing = self._typing[:-1]
        elif typed in tuple("0123456789") or (typed == "." and "." not in self._typing):
            self._typing = (self._typing + typed)[:_LONGEST]
        else:
            return
        event.stop()
        event.prevent_default()
        self._set(Decimal(self._typing.rstrip(".") or 0) if self._typing != "." else Decimal(0))

    async def save(self) -> None:
        """Write it up; what is left over goes to the store."""
        job, rows = self.job, self._rows
        if not rows:
            self.job_screen.say("There is no quote to set it against yet.", Tone.QUIET)
            return
        moves = leftovers_to_store(job, rows, self.desk.today)
        await self.record(lambda book: book.record_usage(job, rows, moves), "Saved: what was used.")

    def _row(self) -> Usage | None:
        cursor = self.query_one(LineList).cursor
        return self._rows[cursor] if cursor < len(self._rows) else None

    def _set(self, used: Decimal) -> None:
        row = self._row()
        if row is not None:
            changed = with_used(row, max(used, Decimal(0)))
            self._rows = tuple(changed if each is row else replace(each) for each in self._rows)
            self._show()

    def _show(self) -> None:
        self.query_one(LineList).show(len(self._rows), self._draw)

    def _draw(self, number: int, width: int) -> Text:
        row, p = self._rows[number], self.palette
        over = row.used > row.estimated
        words = max(12, width - 32 - _BAR)
        line = Text(f"{fitted(ELEMENTS[row.element].words, words)} ", style=p.quiet, end="")
        line.append(f"{shown(row.estimated):>7}", style=p.quiet)
        line.append(f"{shown(row.used):>7} ", style=f"bold {p.caution if over else p.ink}")
        line.append(fitted(row.unit, 10), style=p.quiet)
        most = max(row.used, row.estimated, Decimal(1))
        filled = int(row.used / most * (_BAR - 1))
        line.append("█" * filled + "░" * (_BAR - 1 - filled), style=p.brick)
        line.append(f"{shown(row.left):>6}", style=p.moss if row.left else p.quiet)
        return line
