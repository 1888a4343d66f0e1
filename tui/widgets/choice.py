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
    """``● boards  ○ page``: left and right choose, first letters jump, a click picks."""

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

    class Swallowed(Message):
        """Something was typed or pasted that none of the choices begins with."""

        def __init__(self, choice: "ChoiceField", text: str) -> None:
            self.choice, self.text = choice, text
            super().__init__()

    def __init__(
        self,
        words: tuple[str, ...],
        *,
        called: tuple[str, ...] = (),
        id: str | None = None,  # noqa: A002  Textual's own name
    ) -> None:
        """``called`` is what each is shown as, if not as itself."""
        super().__init__(id=id)
        self.words = words
        self._called = dict(zip(words, called or words, strict=True))
        self._spans: list[tuple[int, int, str]] = []
        self._typed = self._before = ""

    def render(self) -> RenderResult:
        """All of them if they fit, else the chosen one between arrows; underlined with the cursor.

        The line under them is seen without colour.
        """
        palette = PALETTES[self.app.theme]
        under = " underline" if self.has_focus else ""
        kept = (self.value,) if self.value and self.value not in self.words else ()
        shown = (*self.words, *kept)  # what was recorded before there was this choice
        line, self._spans = Text(end=""), []
        if sum(len(self._shown(w)) + 4 for w in shown) <= self.size.width:
            for word in shown:
                chosen = word == self.value
                start = line.cell_len
                line.append(
                    f"{Sign.CHOSEN} " if chosen else f"{Sign.NOT_CHOSEN} ",
                    style=palette.verdigris if chosen else palette.quiet,
                )
                line.append(
                    self._shown(word),
                    style=(f"bold {palette.ink}" if chosen else palette.quiet) + under,
                )
                self._spans.append((start, line.cell_len, word))
                line.append("  ")
            return line
        place = self.words.index(self.value) + 1 if self.value in self.words else 0
        line.append("‹ ", style=palette.verdigris)
        line.append(
            f"{self._shown(self.value) or 'choose'} ",
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
        self._typed = ""
        if self.value in self.words:
            self.value = self.words[(self.words.index(self.value) + by) % len(self.words)]
        else:
            self.value = self.words[0 if by > 0 else -1]

    def action_clear(self) -> None:
        """Clear the choice."""
        self._typed = ""
        self.value = ""

    def on_key(self, event: events.Key) -> None:
        """What is typed picks the choice that begins so; what none begins with is swallowed.

        It would otherwise be a command of the screen: ``n`` for no is not a new enquiry. Typed a
        field too high, ``2.4 m`` picks nothing, its space and its m neither.
        """
        if event.key == "backspace" and self._is_amiss:
            self._typed = self._typed[:-1]
        elif event.is_printable and self._is_typing(event.character or ""):
            self._type(event.character or "")
        else:
            return
        event.stop()
        event.prevent_default()

    def on_paste(self, event: events.Paste) -> None:
        """Say that nothing is pasted here."""
        event.stop()
        self.post_message(self.Swallowed(self, event.text))

    def on_blur(self) -> None:
        """What is typed next begins anew."""
        self._typed = ""

    @property
    def _is_amiss(self) -> bool:
        """Whether something was typed here that no choice begins with."""
        return bool(self._typed) and self._beginning(self._typed) is None

    def _is_typing(self, character: str) -> bool:
        """Whether it is typed here: any letter, and what goes on with what was typed or is amiss.

        Another space chooses the next, and another sign is a command of the screen.
        """
        goes_on = bool(self._typed) and self._beginning(self._typed + character) is not None
        return character.isalnum() or self._is_amiss or goes_on

    def _type(self, character: str) -> None:
        """Go by all that was typed here, else by the last; else what stood there before stays."""
        if not self._typed:
            self._before = self.value
        was_amiss, self._typed = self._is_amiss, self._typed + character
        found = None if was_amiss else self._beginning(self._typed)
        if found is None and not was_amiss and (found := self._beginning(character)) is not None:
            self._typed = character
        self.value = self._before if found is None else found
        if found is None:
            self.post_message(self.Swallowed(self, self._typed))

    def _beginning(self, typed: str) -> str | None:
        """The choice that begins so; by a single letter the next one after the chosen."""
        at = self.words.index(self.value) + (len(typed) == 1) if self.value in self.words else 0
        turned = self.words[at:] + self.words[:at]
        return next(
            (w for w in turned if self._shown(w).casefold().startswith(typed.casefold())), None
        )

    def _shown(self, word: str) -> str:
        """What a choice is shown as."""
        return self._called.get(word, word)

    def on_click(self, event: events.Click) -> None:
        """Pick what is under the mouse; between arrows, step on."""
        self._typed = ""
        if not self._spans:
            self.action_step(-1 if event.x < 2 else 1)
        for start, end, word in self._spans:
            if start <= event.x < end:
                self.value = word
