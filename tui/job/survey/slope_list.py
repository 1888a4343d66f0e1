"""The slopes of a roof that is taped slope by slope: a draft until the survey is saved."""

from rich.text import Text
from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from domain.setting_out.measures import TapedSlope
from tui.frame.commands import key_of
from tui.frame.safe_text import fitted
from tui.frame.theme import PALETTES
from tui.job.survey.slope_fields import slope_line
from tui.widgets.line_list import LineList

_NONE = f"No slopes yet. Press {key_of('survey', 'add_slope')}. Go round clockwise."
_SOME = f"Slopes, clockwise. Enter: change, {key_of('survey', 'add_slope')}: add."


class AnotherSlope(Static):
    """What can be done with the slopes; a click on it asks for another one."""

    ALLOW_SELECT = False

    class Wanted(Message):
        """Another slope was asked for."""

    def on_click(self, event: events.Click) -> None:
        """Post :class:`Wanted`: the click asks for another slope."""
        event.stop()
        self.post_message(self.Wanted())


class SlopeList(Vertical):
    """A line a slope, in the order in which they are met walking round the roof to the right."""

    DEFAULT_CSS = """
    SlopeList { height: auto; }
    SlopeList > AnotherSlope { height: 1; color: $quiet; }
    SlopeList > LineList { height: auto; max-height: 5; }
    SlopeList.-low > LineList { max-height: 3; }
    """

    class Changed(Message):
        """A slope was added, changed or taken away."""

    def __init__(self) -> None:
        super().__init__()
        self._head, self._lines = AnotherSlope(Content(_NONE)), LineList()
        self._at_first: tuple[TapedSlope, ...] = ()
        self._slopes: tuple[TapedSlope, ...] = ()

    def compose(self) -> ComposeResult:
        """Yield what can be done with the slopes, and their list."""
        yield self._head
        yield self._lines

    def on_mount(self) -> None:
        """Show what was given before there were widgets."""
        self._show()

    @property
    def slopes(self) -> tuple[TapedSlope, ...]:
        """The slopes as they stand in the list now, saved or not."""
        return self._slopes

    @property
    def dirty(self) -> bool:
        """Whether they differ from those that stood there at first."""
        return self._slopes != self._at_first

    @property
    def cursor(self) -> int | None:
        """The slope the cursor stands on, None while the list has not the focus."""
        return self._lines.cursor if self._lines.has_focus and self._slopes else None

    def fill(self, slopes: tuple[TapedSlope, ...]) -> None:
        """Show slopes, and take these as what stood there at first."""
        self._slopes = self._at_first = slopes
        self._show()

    def put(self, at: int, *slopes: TapedSlope, over: int) -> None:
        """Put slopes in the place of ``over`` others, from the one at ``at``."""
        self._slopes = (*self._slopes[:at], *slopes, *self._slopes[at + over :])
        self._show()
        if slopes:
            self._lines.cursor = at
        self.post_message(self.Changed())

    def _show(self) -> None:
        self._head.update(Content(_SOME if self._slopes else _NONE))
        self._lines.display = bool(self._slopes)
        self._lines.show(len(self._slopes), self._draw)

    def _draw(self, row: int, width: int) -> Text:
        ink = PALETTES[self.app.theme].ink
        line = slope_line(row + 1, self._slopes[row])
        return Text(fitted(line, width), style=ink, end="")
