"""Seven days side by side: place, roof, what is to be done, the weather, the hours."""

from typing import ClassVar

from rich.style import Style
from rich.text import Text
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from domain.week import DayView, Verdict
from tui.roof_cells import roof_cells
from tui.safe_text import fitted
from tui.theme import PALETTES, Palette

DAYS = 7
ENTRY_LINES = 3  # place, roof, task
OTHER_LINES = 4  # rule, day, weather, hours
_GAP = 1
_NARROW = 11  # cells; a day so wide needs them all for words


class DayStrip(Widget, can_focus=True):
    """The week's days; left and right choose one, Enter or a click opens the job of that day."""

    ALLOW_SELECT = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1)", "day before", show=False),
        Binding("right", "step(1)", "day after", show=False),
        Binding("enter", "choose", "open", show=False),
    ]
    DEFAULT_CSS = """
    DayStrip { height: 7; margin: 0 2; }
    """

    chosen = reactive(0)
    """The day the cursor stands on: 0 is Monday."""
    days: reactive[tuple[DayView, ...]] = reactive((), layout=True)

    class Chosen(Message):
        """A job of a day was asked for."""

        def __init__(self, job_id: int) -> None:
            self.job_id = job_id
            super().__init__()

    def watch_days(self, days: tuple[DayView, ...]) -> None:
        """Begin at today."""
        self.chosen = next((i for i, d in enumerate(days) if d.is_today), 0)

    def render_line(self, y: int) -> Strip:
        """The line ``y`` of all seven days."""
        p = PALETTES[self.app.theme]
        line = Text(end="")
        for place, day in enumerate(self.days):
            cell = self._cell(day, y, self._width(place), p)
            ground = p.line if self._marked(place) else p.panel if day.is_today else p.ground
            cell.stylize(Style(bgcolor=ground))
            line.append_text(cell)
            if place < DAYS - 1:
                line.append(" " * _GAP, style=f"on {p.ground}")
        return Strip(line.render(self.app.console)).adjust_cell_length(
            self.size.width, Style.parse(f"on {p.ground}")
        )

    def on_focus(self) -> None:
        """The cursor shows only while the strip has the focus."""
        self.refresh()

    def on_blur(self) -> None:
        """See :meth:`on_focus`."""
        self.refresh()

    def action_step(self, by: int) -> None:
        """The day before or after."""
        self.chosen = max(0, min(len(self.days) - 1, self.chosen + by))

    def action_choose(self) -> None:
        """Open the first job of the day."""
        self._open(self.chosen, 0)

    def on_click(self, event: events.Click) -> None:
        """Open the job under the mouse."""
        place = min(DAYS - 1, event.x * DAYS // max(1, self.size.width))
        if place < len(self.days):
            self.chosen = place
            self._open(place, max(0, (event.y - 2) // ENTRY_LINES))

    def _open(self, place: int, entry: int) -> None:
        entries = self.days[place].entries if place < len(self.days) else ()
        if entries:
            self.post_message(self.Chosen(entries[min(entry, len(entries) - 1)].job_id))

    def _marked(self, place: int) -> bool:
        return self.has_focus and place == self.chosen

    def _width(self, place: int) -> int:
        """The strip's width shared out among seven days and six gaps."""
        inner = self.size.width - _GAP * (DAYS - 1)
        return inner // DAYS + (1 if place < inner % DAYS else 0)

    def _cell(self, day: DayView, y: int, width: int, p: Palette) -> Text:
        room = self.size.height - OTHER_LINES
        if y == 0:
            return Text("▔" * width, style=p.brick if day.is_today else p.line, end="")
        if y == 1:
            name = f"{day.day:%a} {day.day.day}"
            style = f"bold {p.brick}" if day.is_today else p.quiet
            return Text(_in_cell(name, width), style=style, end="")
        if y < 2 + room:
            return self._entry_line(day, y - 2, width, p)
        if y == 2 + room:
            return _weather(day, width, p)
        return _hours(day, width, p)

    def _entry_line(self, day: DayView, line: int, width: int, p: Palette) -> Text:
        number, part = divmod(line, ENTRY_LINES)
        if number >= len(day.entries):
            return Text(" " * width, end="")
        entry = day.entries[number]
        if part == 0:
            style = p.quiet if day.is_past else f"bold {p.ink}"
            return Text(_in_cell(entry.place, width), style=style, end="")
        if part == 1:
            cell = Text(_margin(width), end="")
            cell.append_text(roof_cells(entry.picture, p))
            shown = (self.size.height - OTHER_LINES) // ENTRY_LINES
            hidden = len(day.entries) - shown
            more = f" +{hidden}" if hidden > 0 and number == shown - 1 else ""
            cell.append(fitted(more, width - cell.cell_len), style=p.slate)
            return cell
        return Text(_in_cell(entry.task, width), style=p.quiet, end="")


def _weather(day: DayView, width: int, p: Palette) -> Text:
    if day.at_risk:
        return Text(_in_cell(f"■ {day.weather}", width), style=p.stop, end="")
    style = {Verdict.GOOD: p.moss, Verdict.POOR: p.caution, Verdict.UNKNOWN: p.quiet}[day.verdict]
    return Text(_in_cell(day.weather, width), style=style, end="")


def _hours(day: DayView, width: int, p: Palette) -> Text:
    if day.hours_booked:
        return Text(_in_cell(day.hours_words, width), style=p.ink, end="")
    return Text(_in_cell(day.hours_words, width), style=p.quiet, end="")


def _in_cell(text: str, width: int) -> str:
    """The text as wide as a day, set in a little where there is room."""
    return fitted(_margin(width) + text, width)


def _margin(width: int) -> str:
    return " " if width > _NARROW else ""
