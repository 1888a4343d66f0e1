"""One line to type into: words are added to, a figure, a sum or a date is typed anew."""

from datetime import date
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING, ClassVar, cast

from rich.segment import Segment
from textual import events
from textual.binding import Binding, BindingType
from textual.strip import Strip
from textual.widgets import Input
from textual.widgets.input import Selection

from domain.days.calendar import show_date
from domain.days.dates import read_date
from domain.errors import Refused
from domain.quantity import read_number
from tui.frame.safe_text import fitted
from tui.widgets.field_values import number_typed
from tui.widgets.safe_input import SafeInput

if TYPE_CHECKING:
    from tui.frame.program import Program

_MOST = 20_000
"""Characters that can be typed: more than the book keeps, so that it can say so."""
_STEPS = {"+": 1, "-": -1, "\N{MINUS SIGN}": -1}


class Takes(Enum):
    """What is typed into a field, and so what its first key does."""

    WORDS = "words"
    """The cursor stands at the end; nothing is replaced."""
    FIGURE = "figure"
    """A number, a length or a sum: the first character replaces what stood there."""
    COUNT = "count"
    """A figure that is never negative: + and − move it by one while nothing else was typed."""
    QUARTERS = "quarters"
    """The same, by a quarter: hours."""
    DATE = "date"
    """As a figure; + and − move it by a working day while nothing else was typed."""
    DONE = "done"
    """The date of what was done: + does not go past today."""
    COMING = "coming"
    """A date that lies ahead as a rule: a visit, a day that is booked."""
    LAST_DAY = "last day"
    """A date that is years ahead as a rule: the end of a guarantee or a registration."""


_BY = {Takes.COUNT: Decimal(1), Takes.QUARTERS: Decimal("0.25")}


class LineInput(SafeInput, inherit_bindings=False):
    """An input that leaves the paging keys and Enter to its surroundings: it is one line.

    ctrl+u clears all of it, and ctrl+z brings back what stood there: neither reaches the book.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        *(
            kept
            for kept in Input.BINDINGS
            if not (isinstance(kept, Binding) and kept.action in ("submit", "delete_left_all"))
        ),
        Binding("ctrl+u", "empty", "clear the field", show=False),
        Binding("ctrl+z", "bring_back", "bring back", show=False),
    ]

    def __init__(
        self,
        *,
        takes: Takes,
        placeholder: str = "",
        id: str | None = None,  # noqa: A002  Textual's own name
        classes: str | None = None,
    ) -> None:
        super().__init__(
            placeholder=placeholder,
            id=id,
            classes=classes,
            select_on_focus=takes is not Takes.WORDS,
            max_length=_MOST,
        )
        self._takes = takes
        self._before: list[str] = []

    def render_line(self, y: int) -> Strip:
        """Of a text that is too long its beginning; where it is typed on, that more stands before.

        The framework shows the end alone, with the cursor or without it.
        """
        width = self.scrollable_content_region.width
        if y or self.content_width <= width + 1 or width < 1:
            return super().render_line(y)
        if not self.has_focus:
            begins = Strip([Segment(fitted(self.value, width))])
            return begins.extend_cell_length(width + 1).apply_style(self.rich_style)
        strip, (hidden, _) = super().render_line(y), self.scroll_offset
        if not hidden or self.cursor_position <= hidden:
            return strip
        return Strip([Segment("…", self.rich_style), *strip.crop(1)])

    def fill(self, text: str) -> None:
        """Show what is on record: there is nothing to bring back, and a figure is typed anew."""
        self.value = text
        self._before.clear()
        if self._takes is Takes.WORDS or not self.has_focus:
            self.cursor_position = len(text)
        else:
            self._mark()

    def action_empty(self) -> None:
        """Clear all of the line."""
        self._keep()
        self.value = ""

    def action_bring_back(self) -> None:
        """What stood there before it was replaced, stepped or cleared, or before typing began."""
        if self._before:
            self.value = self._before.pop()
            self.cursor_position = len(self.value)

    def on_key(self, event: events.Key) -> None:
        """Step, if the key does; else keep what is to be replaced, and the framework types."""
        by = _STEPS.get(event.character or "")
        stepped = self._stepped(by) if by and self._is_untouched else None
        if stepped is not None:
            event.stop()
            event.prevent_default()
            self._keep()
            self.value = stepped
            self._mark()
            return
        if event.is_printable and (not self._before or not self.selection.is_empty):
            self._keep()

    def on_paste(self) -> None:
        """Keep what stood there; the framework then pastes."""
        self._keep()

    @property
    def _is_untouched(self) -> bool:
        """Whether nothing was typed since the field got the cursor, and no arrow was pressed."""
        return sorted(self.selection) == [0, len(self.value)]

    def _stepped(self, by: int) -> str | None:
        """What the value becomes a step on or back; None where + and − are characters."""
        if self._takes in (Takes.DATE, Takes.DONE, Takes.COMING, Takes.LAST_DAY):
            return self._day_on(by)
        step = _BY.get(self._takes)
        if step is None:
            return None
        try:
            number = read_number(str(self.id), self.value, "") if self.value else Decimal(0)
        except Refused:
            return None
        return number_typed(max(Decimal(0), number + by * step))

    def _day_on(self, by: int) -> str | None:
        """The working day after or before the date; of an empty field, that from today."""
        open_book = cast("Program", self.app).open_book
        today: date = open_book.today
        try:
            done = self._takes is Takes.DONE
            text = self.value.strip()
            day = read_date(str(self.id), text, today, done=done) if text else today
        except Refused:
            return None
        stepped = open_book.working_day(day, by)
        return show_date(min(stepped, max(day, today)) if done else stepped)

    def _keep(self) -> None:
        if not self._before or self._before[-1] != self.value:
            self._before.append(self.value)

    def _mark(self) -> None:
        """Mark all of it, as that which the next character replaces."""
        self.selection = Selection(0, len(self.value))
