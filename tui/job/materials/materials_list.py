"""The rows of what was used, and the titles above them."""

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from domain.estimate.usage import Outcome
from domain.quantity import plural, show_quantity
from domain.signs import Sign
from tui.frame.safe_text import fitted
from tui.frame.theme import PALETTES, Palette
from tui.job.materials.materials_rows import MaterialRow, bar, quantity_of
from tui.widgets.line_list import LineList

_MARK, _WORDS, _ESTIMATED, _USED, _PART = 2, 31, 9, 7, 11
_LEAST_BAR = 6
_EVERY = 70
"""Cells from which every part has a column; what has none is told below the rows."""
_WIDE = 100
"""Cells from which the bar stands beside all of them."""


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
        line = Text(f"{Sign.GOOD} " if row.accepted else "  ", style=p.moss, end="")
        unit = "h" if usage.unit == "hour" else plural(usage.unit)
        line.append(f"{row.words} ", style=p.ink)
        room = _words_width(width) - len(row.words) - 1
        line.append(fitted(unit, max(0, room)), style=p.quiet)
        line.append(f"{show_quantity(usage.estimated):>{_ESTIMATED}}", style=p.quiet)
        for part, cells in _columns(width, self.part):
            if part is None:
                line.append_text(_bar(row, cells - 4, p))
                continue
            here = part is self.part or (part is Outcome.USED and self.part not in row.parts)
            text = show_quantity(quantity_of(row, part)) if part in row.parts else ""
            if part is Outcome.USED and row.far_over and _EVERY <= width < _WIDE:
                text = f"{Sign.CAUTION}{text}"
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
        width = self.scrollable_content_region.width
        at = _MARK + _words_width(width) + _ESTIMATED
        for part, cells in _columns(width, self.part):
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
        line = Text(" " * (_MARK + _words_width(self.size.width)), end="")
        line.append(f"{'estimated':>{_ESTIMATED}}", style=p.quiet)
        for part, cells in _columns(self.size.width, self.part):
            marked = part is self.part
            title = f"▾{part}" if marked else part or ""
            line.append(f"{title:>{cells}}", style=f"bold {p.verdigris}" if marked else p.quiet)
        return line


def _columns(width: int, marked: Outcome) -> list[tuple[Outcome | None, int]]:
    """The columns after the estimate with their cells; None is the bar.

    Every part has one where there is room, and the bar beside them where there is more; else one
    part stands beside what was used: the one that the keys change.
    """
    if _EVERY <= width < _WIDE:
        return [(Outcome.USED, _USED + 1), *((part, len(part) + 2) for part in tuple(Outcome)[1:])]
    narrow = (Outcome.LEFT if marked is Outcome.USED else marked,)
    parts = tuple(Outcome)[1:] if width >= _WIDE else narrow
    taken = _MARK + _words_width(width) + _ESTIMATED + _USED + _PART * len(parts)
    return [
        (Outcome.USED, _USED),
        (None, max(_LEAST_BAR, width - taken)),
        *((part, _PART) for part in parts),
    ]


def _words_width(width: int) -> int:
    """Cells of what a row is about."""
    if not _EVERY <= width < _WIDE:
        return _WORDS
    return min(
        _WORDS, width - _MARK - _ESTIMATED - sum(n for _, n in _columns(width, Outcome.USED))
    )


def _bar(row: MaterialRow, width: int, p: Palette) -> Text:
    inside, over, short = bar(row, width)
    text = Text(f" {Sign.CAUTION} " if row.far_over else "   ", style=p.caution, end="")
    text.append("▆" * inside, style=p.slate)
    text.append("▆" * over, style=p.caution)
    text.append("▁" * short, style=p.line)
    return text.append(" " * (width + 1 - inside - over - short))
