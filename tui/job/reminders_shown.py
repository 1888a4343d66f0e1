"""Safety at the place where the work is about to happen: short, quiet, never left out."""

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.reactive import reactive
from textual.widget import Widget

from domain.checks.reminders import FIRST, REMINDERS
from domain.job import Stage
from domain.signs import Sign
from tui.frame.theme import PALETTES


class Reminders(Widget):
    """The reminders of a stage: what each is about, and in full when they are unfolded."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "Reminders { height: auto; margin-bottom: 1; } Reminders.-folded { margin: 0; }"

    folded = reactive(True, layout=True)
    """Whether each is named by its first words only."""

    def __init__(self, stage: Stage) -> None:
        super().__init__()
        self.stage = stage

    def watch_folded(self) -> None:
        """Take no line while folded."""
        self.set_class(self.folded, "-folded")

    def render(self) -> RenderResult:
        """Sign, word, and what to mind."""
        p = PALETTES[self.app.theme]
        text = Text(f"{Sign.CAUTION} reminder  ", style=p.caution, end="")
        words = REMINDERS[self.stage]
        if self.folded:
            heads = " · ".join(each.split(":")[0] for each in words if each != FIRST)
            text.append(f"{heads}. ", style=p.ink)
            return text.append(FIRST, style=p.quiet)
        return text.append("  ".join(words), style=p.quiet)

    def fold(self) -> None:
        """Unfold them, or fold them away."""
        self.folded = not self.folded

    def on_click(self, event: events.Click) -> None:
        """Fold or unfold them, as the key does."""
        event.stop()
        self.fold()
