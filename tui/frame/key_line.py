"""The line of keys at the foot of every screen: the commands in force, each can be clicked."""

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.binding import Binding
from textual.widget import Widget
from textual.widgets import Input

from tui.frame.commands import key_words
from tui.frame.theme import PALETTES

_ALWAYS = ("escape", "f1", "ctrl+s", "f8")
"""Never dropped while any other is shown: who knows the first two finds all the rest, and
who knows the last two loses nothing."""
_PAPERS = "papers"
"""Every paper of a job, from the pages of the work: dropped after what only shows more."""
_GAP = "  "
_OTHERS = "…"
"""Stands for the commands that have no room."""


def _width(binding: Binding) -> int:
    """Cells of a command in the line."""
    return len(key_words(binding.key)) + 1 + len(binding.description)


class KeyLine(Widget):
    """Draws key and words of each command that works now, the nearest first, as many as fit.

    At its end a sign stands for all the others: a click on it brings the palette.
    """

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    KeyLine { dock: bottom; height: 1; padding: 0 2; background: $panel; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._spans: list[tuple[int, int, Binding]] = []

    def on_mount(self) -> None:
        """Follow the screen: the commands change with the focus."""
        self.screen.bindings_updated_signal.subscribe(self, lambda _: self.refresh())

    def render(self) -> RenderResult:
        """One line, cut at a whole command."""
        palette = PALETTES[self.app.theme]
        line, self._spans = Text(end=""), []
        for binding in self._with_room(self.size.width - len(_OTHERS) - 1):
            key = key_words(binding.key)
            start, width = line.cell_len, _width(binding)
            line.append(f"{key} ", style=f"bold {palette.verdigris}")
            line.append(binding.description, style=palette.quiet)
            self._spans.append((start, start + width, binding))
            line.append(_GAP)
        line.truncate(self.size.width - len(_OTHERS), pad=True)
        return line.append(_OTHERS, style=f"bold {palette.verdigris}")

    async def on_click(self, event: events.Click) -> None:
        """Run the command under the mouse; the sign at the end brings all of them."""
        at = event.x - self.styles.padding.left
        if at >= self.size.width - len(_OTHERS):
            self.app.action_command_palette()
        for start, end, binding in self._spans:
            if start <= at < end:
                namespace = next(
                    (a.node for a in self.screen.active_bindings.values() if a.binding == binding),
                    self.screen,
                )
                await self.app.run_action(binding.action, namespace)
                return

    def _with_room(self, cells: int) -> list[Binding]:
        """The commands that fit into so many cells: the way back and the help before all others."""
        in_force = self._in_force()
        first = [b for b in in_force if b.key in _ALWAYS]
        papers = [b for b in in_force if b.action == _PAPERS]
        first += papers
        fitting: list[Binding] = []
        rest = [b for b in in_force if b not in first]
        if papers:  # those show the roof too, and what a page of the work does has no other place
            rest.sort(key=lambda binding: binding.action == "drawing")
        for binding in first + rest:
            taken = [*fitting, binding]
            if sum(map(_width, taken)) + len(_GAP) * (len(taken) - 1) <= cells:
                fitting = taken
        return [b for b in in_force if b in fitting]

    def _in_force(self) -> list[Binding]:
        """Bindings to show: not the letters while a field is typed in, and each action once."""
        screen, typing = self.screen, isinstance(self.screen.focused, Input)
        left_out = getattr(screen, "keys_left_out", ())  # of a job it takes some asking
        brought_in = getattr(screen, "keys_brought_in", ())
        nothing_to_undo = getattr(screen, "undo_of", None) is None
        shown: dict[str, Binding] = {}
        for active in screen.active_bindings.values():
            binding = active.binding
            letter = len(binding.key) == 1 or binding.key in ("slash", "question_mark")
            if binding.action in left_out or (binding.action == "undo" and nothing_to_undo):
                continue
            if not active.enabled or (typing and letter):
                continue
            if binding.action in brought_in:
                shown[binding.action] = binding  # its last key: the shortest to type
            elif binding.show:
                shown.setdefault(binding.action, binding)
        # What turns pages comes last: the trail above shows where to.
        return sorted(shown.values(), key=lambda binding: "page" in binding.key)
