"""Safety at the place where the work is about to happen: short, quiet, never left out."""

from rich.text import Text
from textual.app import RenderResult
from textual.widget import Widget

from domain.job import Stage
from tui.theme import PALETTES


class Reminders(Widget):
    """The reminders of a stage, one after another on as many lines as they need."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "Reminders { height: auto; margin-bottom: 1; }"

    def __init__(self, stage: Stage) -> None:
        super().__init__()
        self.stage = stage

    def render(self) -> RenderResult:
        """Sign, word, and what to mind."""
        from domain.stages import REMINDERS

        p = PALETTES[self.app.theme]
        text = Text("▲ reminder  ", style=p.caution, end="")
        text.append("  ".join(REMINDERS.get(self.stage, ())), style=p.quiet)
        return text
