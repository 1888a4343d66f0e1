"""The rows of what was used, and the titles above them."""

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from domain.estimate.usage import Outcome
from domain.quantity import plural, show_quantity
from tui.frame.safe_text import fitted
from tui.frame.theme import PALETTES, Palette
from tui.job.materials.materials_rows import MaterialRow, bar, quantity_of
from tui.widgets.line_list import LineList

_MARK, _WORDS, _ESTIMATED, _USED, _PART = 2, 31, 9, 7, 11
_LEAST_BAR = 6
_WIDE = 100
"""Cells from which every part has a column; what has none is told below the rows."""


class MaterialsList(LineList):
    """A row a material or kind of hours. A click goes to a row, and to the part under the mouse."""

    part = reactive(Outcome.USED)
    """The part that the keys change."""

    class Pointed(Message):
        """A part of a row was pointed at."""

        def __init__(self, part: Outcome) -> None:
            self.part = part
            super().__init__()

    def draw_row(self, row: MaterialRow, width: int) -> Text:
        """One line: words, estimate, used, the bar of the two, and what else became of it."""
        p = PALETTES[self.app.theme]
        usage = row.usage
        line = Text("✓ " if row.accepted else "  ", style=p.moss, end="")
        unit = "h" if usage.unit == "hour" else plural(usage.unit)
        line.append(f"{row.words} ", style=p.ink)
        line.append(fitted(unit, _WORDS - len(row.words) - 1), style=p.quiet)
        line.append(f"{show_quantity(usage.estimated):>{_ESTIMATED}}", style=p.quiet)
        for part, cells in _columns(width, self.part):
            if part is None:
                line.append_text(_bar(row, cells - 4, p))
                continue
            here = part is self.part or (part is Outcome.USED and self.part not in row.parts)
            text = show_quantity(quantity_of(row, part)) if part in row.parts else ""
            style = f"bold {p.caution if part is Outcome.USED and row.far_over else p.ink}"
            quiet = part is not Outcome.USED and not quantity_of(row, part)
            line.append(f"{text:>{cells}}", style=p.quiet if quiet and not here else style)
        return line

    def on_click(self, event: events.Click) -> None:
        """Go to the row, and to the part, under the mouse."""
        event.stop()
        event.prevent_default()  # in a list of lines a click would accept the row
        row = event.y + self.scroll_offset.y
        if row >= self.count:
            return
        self.cursor = row
        at = _MARK + _WORDS + _ESTIMATED
        for part, cells in _columns(self.scrollable_content_region.width, self.part):
            if part is not None and at <= event.x < at + cells:
                self.post_message(self.Pointed(part))
            at += cells


class MaterialsTitles(Widget):
    """What the columns are; the one that the keys change is marked."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "MaterialsTitles { height: 1; }"

    part = reactive(Outcome.USED)
    """The part that the keys change."""

    def render(self) -> RenderResult:
        """The titles over their columns, the marked one with a sign as well as a colour."""
        p = PALETTES[self.app.theme]
        line = Text(" " * (_MARK + _WORDS), end="")
        line.append(f"{'estimated':>{_ESTIMATED}}", style=p.quiet)
        for part, cells in _columns(self.size.width, self.part):
            marked = part is self.part
            title = f"▾{part}" if marked else part or ""
            line.append(f"{title:>{cells}}", style=f"bold {p.verdigris}" if marked else p.quiet)
        return line


def _columns(width: int, marked: Outcome) -> list[tuple[Outcome | None, int]]:
    """The columns after the estimate with their cells; None is the bar.

    Where there is room for one part beside what was used, it is the one that the keys change.
    """
    narrow = (Outcome.LEFT if marked is Outcome.USED else marked,)
    parts = tuple(Outcome)[1:] if width >= _WIDE else narrow
    taken = _MARK + _WORDS + _ESTIMATED + _USED + _PART * len(parts)
    return [
        (Outcome.USED, _USED),
        (None, max(_LEAST_BAR, width - taken)),
        *((part, _PART) for part in parts),
    ]


def _bar(row: MaterialRow, width: int, p: Palette) -> Text:
    inside, over, short = bar(row, width)
    text = Text(" ▲ " if row.far_over else "   ", style=p.caution, end="")
    text.append("▆" * inside, style=p.slate)
    text.append("▆" * over, style=p.caution)
    text.append("▁" * short, style=p.line)
    return text.append(" " * (width + 1 - inside - over - short))
