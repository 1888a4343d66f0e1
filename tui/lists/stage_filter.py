"""A row of group names with counts, one of them chosen; each can be clicked."""

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.geometry import Size
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from domain.signs import Sign
from tui.frame.theme import PALETTES


class StageFilter(Widget):
    """``all 31  survey 4  quoted 6 …``, on as many lines as they need."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "StageFilter { height: auto; }"

    chosen = reactive(0, init=False)
    """The number of the chosen group."""
    counts: reactive[tuple[int, ...]] = reactive(())
    """How many each holds; groups that hold none are drawn quietly."""

    class Changed(Message):
        """Another group was chosen."""

    def __init__(self, names: tuple[str, ...]) -> None:
        super().__init__()
        self.names = names
        self._spans: list[tuple[int, int, int, int]] = []

    def render(self) -> RenderResult:
        """The names, the chosen one marked by more than its colour."""
        p = PALETTES[self.app.theme]
        text, line = Text(end=""), 0
        self._spans = self._set_in(self.size.width)
        for y, _start, _end, place in self._spans:
            text.append("\n" * (y - line))
            line, count = y, self.counts[place]
            text.append(Sign.HERE if place == self.chosen else " ", style=p.verdigris)
            text.append(self.names[place], f"bold {p.ink}" if place == self.chosen else p.quiet)
            text.append(f" {count}", style=p.ink if count else p.quiet)
            text.append("  ")
        return text

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002 -- Textual calls it so
        """As many lines as the groups need in so many cells."""
        return self._lines_in(width)

    def watch_counts(self) -> None:
        """Move what stands below only where the figures take another number of lines."""
        if self._lines_in(self.size.width) != self.size.height:
            self.refresh(layout=True)

    def _lines_in(self, width: int) -> int:
        return max((y + 1 for y, *_ in self._set_in(width)), default=1)

    def _set_in(self, width: int) -> list[tuple[int, int, int, int]]:
        """Where each group stands: line, first cell, the cell after its last, its number."""
        spans, x, y = list[tuple[int, int, int, int]](), 0, 0
        for place, (name, count) in enumerate(zip(self.names, self.counts, strict=False)):
            cells = len(f" {name} {count}")
            if x and x + cells > width:
                x, y = 0, y + 1
            spans.append((y, x, x + cells, place))
            x += cells + 2
        return spans

    def step(self, by: int) -> None:
        """Choose the next one, or the one before, round and round."""
        self.chosen = (self.chosen + by) % len(self.names)

    def watch_chosen(self) -> None:
        """Post :class:`Changed`: another group was chosen."""
        self.post_message(self.Changed())

    def on_click(self, event: events.Click) -> None:
        """Choose the one under the mouse."""
        for y, start, end, place in self._spans:
            if event.y == y and start <= event.x < end:
                self.chosen = place
