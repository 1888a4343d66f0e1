"""What is said under the fields of a form: a slip, a refusal, and what is worked out at length."""

from collections.abc import Iterable

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.signs import BEFORE_WORDS
from domain.tone import Tone
from tui.frame.safe_text import one_line
from tui.widgets.field_row import Field


class SaidUnder:
    """Two lines a field, silent at first: what is asked or refused, and below it what is told."""

    def __init__(self, fields: Iterable[Field]) -> None:
        self.lines = {field.id: Static("", classes="slip") for field in fields}
        """What is asked or refused of each field, to be mounted under it."""
        self._told: dict[str, Static] = {}

    def say(self, field_id: str, words: str, tone: Tone) -> None:
        """Ask something of a field, or say why it is refused."""
        line = self.lines[field_id]
        line.set_classes(f"slip -{tone.value}")
        told = (f"{BEFORE_WORDS[tone]}{one_line(each)}" for each in words.splitlines())
        line.update(Content("\n".join(told)))
        line.display = True

    def take_back(self, field_id: str) -> None:
        """Take away what was asked or refused: the field was changed since."""
        self.lines[field_id].display = False

    def take_back_refusals(self) -> None:
        """Take away what was refused; what was asked stays."""
        for line in self.lines.values():
            line.display = line.display and not line.has_class("-stop")

    def tell(self, field_id: str, words: str, tone: Tone) -> Widget | None:
        """Tell something below; returns the line if it is new and has yet to be mounted.

        Without words the line is silent. A caution takes as many lines as it needs.
        """
        line, new = self._told.get(field_id), None
        if line is None and words:
            line = new = self._told[field_id] = Static(classes="told")
        if line is not None:
            line.set_classes(f"told -{tone.value}")
            line.update(Content(words))
            line.set_class(not words, "-silent")
        return new

    def show(self, field_id: str, *, shown: bool) -> None:
        """Show what is told with its field, or hide it with that."""
        if line := self._told.get(field_id):
            line.display = shown and not line.has_class("-silent")
