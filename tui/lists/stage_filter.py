"""A row of group names with counts, one of them chosen; each can be clicked."""

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from tui.frame.theme import PALETTES


class StageFilter(Widget):
    """``all 31  survey 4  quoted 6 …``, on as many lines as they need."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "StageFilter { height: auto; }"

    chosen = reactive(0, init=False)
    """The number of the chosen group."""
    counts: reactive[tuple[int, ...]] = reactive((), layout=True)
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
        text, self._spans = Text(end=""), []
        x = y = 0
        for place, (name, count) in enumerate(zip(self.names, self.counts, strict=False)):
            mark = "▸" if place == self.chosen else " "
            words = f"{mark}{name} {count}"
            if x and x + len(words) > self.size.width:
                text.append("\n")
                x, y = 0, y + 1
            text.append(mark, style=p.verdigris)
            text.append(name, style=f"bold {p.ink}" if place == self.chosen else p.quiet)
            text.append(f" {count}", style=p.ink if count else p.quiet)
            self._spans.append((y, x, x + len(words), place))
            text.append("  ")
            x += len(words) + 2
        return text

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
