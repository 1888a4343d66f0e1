"""A choice of a few words on one line, or of one at a time where they do not fit."""

from typing import ClassVar

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from domain.signs import Sign
from tui.frame.theme import PALETTES


class ChoiceField(Widget, can_focus=True):
    """``● boards  ○ page``: left and right choose, a first letter jumps, a click picks."""

    ALLOW_SELECT = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right,space", "step(1)", "next", show=False),
        Binding("left", "step(-1)", "before", show=False),
        Binding("delete,backspace", "clear", "not yet", show=False),
    ]
    DEFAULT_CSS = """
    ChoiceField { height: 1; width: 1fr; }
    ChoiceField:focus { background: $line; }
    """

    value = reactive("", init=False)  # being there is no change
    """The chosen words; empty while none is chosen."""

    class Changed(Message):
        """Another one was chosen."""

        def __init__(self, choice: "ChoiceField") -> None:
            self.choice = choice
            super().__init__()

    def __init__(self, words: tuple[str, ...], *, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(id=id)
        self.words = words
        self._spans: list[tuple[int, int, str]] = []

    def render(self) -> RenderResult:
        """All of them if they fit, else the chosen one between arrows; underlined with the cursor.

        The line under them is seen without colour.
        """
        palette = PALETTES[self.app.theme]
        under = " underline" if self.has_focus else ""
        kept = (self.value,) if self.value and self.value not in self.words else ()
        shown = (*self.words, *kept)  # what was recorded before there was this choice
        line, self._spans = Text(end=""), []
        if sum(len(w) + 4 for w in shown) <= self.size.width:
            for word in shown:
                chosen = word == self.value
                start = line.cell_len
                line.append(
                    f"{Sign.CHOSEN} " if chosen else f"{Sign.NOT_CHOSEN} ",
                    style=palette.verdigris if chosen else palette.quiet,
                )
                line.append(
                    word, style=(f"bold {palette.ink}" if chosen else palette.quiet) + under
                )
                self._spans.append((start, line.cell_len, word))
                line.append("  ")
            return line
        place = self.words.index(self.value) + 1 if self.value in self.words else 0
        line.append("‹ ", style=palette.verdigris)
        line.append(
            f"{self.value or 'choose'} ",
            style=(f"bold {palette.ink}" if place else palette.quiet) + under,
        )
        count = f"{place} of {len(self.words)}"
        fits = line.cell_len + len("›  ") + len(count) <= self.size.width
        line.append("›  " if fits else "›", style=palette.verdigris)
        if fits:
            line.append(count, style=palette.quiet)
        return line

    def watch_value(self) -> None:
        """Post :class:`Changed`: another choice was made."""
        self.post_message(self.Changed(self))

    def action_step(self, by: int) -> None:
        """The next or the one before, round and round."""
        if self.value in self.words:
            self.value = self.words[(self.words.index(self.value) + by) % len(self.words)]
        else:
            self.value = self.words[0 if by > 0 else -1]

    def action_clear(self) -> None:
        """Clear the choice."""
        self.value = ""

    def on_key(self, event: events.Key) -> None:
        """A first letter jumps to the next choice that begins with it; another does nothing.

        It would otherwise be a command of the screen: ``n`` for no is not a new enquiry.
        """
        if event.character is None or not event.character.isalnum():
            return
        event.stop()
        event.prevent_default()
        start = self.words.index(self.value) + 1 if self.value in self.words else 0
        turned = self.words[start:] + self.words[:start]
        found = next(
            (w for w in turned if w.casefold().startswith(event.character.casefold())), None
        )
        if found is not None:
            self.value = found

    def on_click(self, event: events.Click) -> None:
        """Pick what is under the mouse; between arrows, step on."""
        if not self._spans:
            self.action_step(-1 if event.x < 2 else 1)
        for start, end, word in self._spans:
            if start <= event.x < end:
                self.value = word
