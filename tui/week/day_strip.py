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

from domain.signs import Sign
from domain.week import DayView, Entry, Verdict
from tui.frame.safe_text import fitted
from tui.frame.theme import PALETTES, Palette
from tui.roof.roof_in_cells import roof_in_cells

DAYS = 7
ENTRY_LINES = 3  # place, roof, task
OTHER_LINES = 4  # rule, day, weather, hours
_GAP = 1
_NARROW = 11  # cells; a day so wide needs them all for words


class DayStrip(Widget, can_focus=True):
    """The week's days: left and right choose one, up and down one of its jobs; a click opens it.

    Enter is not taken, so that the line of keys shows what the screen calls it.
    """

    ALLOW_SELECT = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1)", "day before", show=False),
        Binding("right", "step(1)", "day after", show=False),
        Binding("up", "step_entry(-1)", "job before", show=False),
        Binding("down", "step_entry(1)", "next job", show=False),
    ]
    DEFAULT_CSS = """
    DayStrip { height: 7; margin: 0 2; }
    """

    chosen = reactive(0)
    """The day the cursor stands on: 0 is Monday."""
    entry = reactive(0)
    """The job of that day it stands on."""
    days: reactive[tuple[DayView, ...]] = reactive((), layout=True)

    class Chosen(Message):
        """A job of a day was asked for."""

        def __init__(self, job_id: int) -> None:
            self.job_id = job_id
            super().__init__()

    def watch_days(self, days: tuple[DayView, ...]) -> None:
        """Put the cursor on today, or on the first day where today is not among them."""
        self.chosen = next((i for i, d in enumerate(days) if d.is_today), 0)

    def watch_chosen(self) -> None:
        """Put the cursor on the first job of the day it moved to."""
        self.entry = 0

    def render_line(self, y: int) -> Strip:
        """The line ``y`` of all seven days."""
        p = PALETTES[self.app.theme]
        line = Text(end="")
        for place, day in enumerate(self.days):
            cell = self._cell(place, y, self._width(place), p)
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
        """Draw it again without its cursor: the focus has gone elsewhere."""
        self.refresh()

    def action_step(self, by: int) -> None:
        """Put the cursor on the day before or after."""
        self.chosen = max(0, min(len(self.days) - 1, self.chosen + by))

    def action_step_entry(self, by: int) -> None:
        """The next job of the day or the one before."""
        self.entry = max(0, min(len(self._entries(self.chosen)) - 1, self.entry + by))

    def open(self) -> None:
        """Open the job that the cursor stands on."""
        entries = self._entries(self.chosen)
        if entries:
            self.post_message(self.Chosen(entries[self.entry].job_id))

    def on_click(self, event: events.Click) -> None:
        """Open the job under the mouse."""
        place = min(DAYS - 1, event.x * DAYS // max(1, self.size.width))
        if place < len(self.days):
            entry = self._first_shown(place) + max(0, event.y - 2) // self._lines_of_one(place)
            self.chosen = place
            self.entry = max(0, min(len(self._entries(place)) - 1, entry))
            self.open()

    def _entries(self, place: int) -> tuple[Entry, ...]:
        return self.days[place].entries if place < len(self.days) else ()

    def _first_shown(self, place: int) -> int:
        """The job at the top of a day: there is room for some, and one is chosen."""
        return max(0, self.entry - self._room(place) + 1) if self._marked(place) else 0

    def _lines_of_one(self, place: int) -> int:
        """The lines of a job: one, without its picture and task, where a day has no room for more.

        So that no work is hidden.
        """
        lines = self.size.height - OTHER_LINES
        return ENTRY_LINES if len(self._entries(place)) * ENTRY_LINES <= lines else 1

    def _room(self, place: int) -> int:
        """How many jobs a day shows."""
        return (self.size.height - OTHER_LINES) // self._lines_of_one(place)

    def _marked(self, place: int) -> bool:
        return self.has_focus and place == self.chosen

    def _width(self, place: int) -> int:
        """The strip's width shared out among seven days and six gaps."""
        inner = self.size.width - _GAP * (DAYS - 1)
        return inner // DAYS + (1 if place < inner % DAYS else 0)

    def _cell(self, place: int, y: int, width: int, p: Palette) -> Text:
        day, room = self.days[place], self.size.height - OTHER_LINES
        if y == 0:
            return Text("▔" * width, style=p.verdigris if day.is_today else p.line, end="")
        if y == 1:
            name = f"{day.day:%a} {day.day.day}"
            style = f"bold {p.verdigris}" if day.is_today else p.quiet
            return Text(_in_cell(name, width), style=style, end="")
        if y < 2 + room:
            return self._entry_line(place, y - 2, width, p)
        if y == 2 + room:
            return _weather(day, width, p)
        return _hours(day, width, p)

    def _entry_line(self, place: int, line: int, width: int, p: Palette) -> Text:
        row, part = divmod(line, self._lines_of_one(place))
        number, entries = self._first_shown(place) + row, self._entries(place)
        if number >= len(entries):
            return Text(" " * width, end="")
        entry = entries[number]
        if part == 0:
            return self._place_line(place, number, width, p)
        if part == 1:
            cell = Text(_margin(width), end="")
            cell.append_text(roof_in_cells(entry.picture, p))
            cell.append(" " * (width - cell.cell_len))
            return cell
        return Text(_in_cell(entry.task, width), style=p.quiet, end="")

    def _place_line(self, place: int, number: int, width: int, p: Palette) -> Text:
        """The place of a job; on the last line how many more there are."""
        entries, room = self._entries(place), self._room(place)
        entry, more = entries[number], len(entries) - room
        last = more > 0 and number == self._first_shown(place) + room - 1
        behind = f" +{more}" if last else ""
        chosen = self._marked(place) and number == self.entry and len(entries) > 1
        quiet = self.days[place].is_past or not entry.is_work
        cells = width - len(behind)
        words = (
            fitted(f"{Sign.HERE}{entry.place}", cells) if chosen else _in_cell(entry.place, cells)
        )
        line = Text(words, style=p.quiet if quiet else f"bold {p.ink}", end="")
        line.append(behind, style=p.slate)
        return line


def _weather(day: DayView, width: int, p: Palette) -> Text:
    style = {Verdict.GOOD: p.moss, Verdict.POOR: p.caution, Verdict.UNKNOWN: p.quiet}[day.verdict]
    style = p.caution if day.against else style
    words = day.weather_words
    shorter = words.partition(":")[0].replace("dry ", "").replace(" °C", "°")
    tried = (words, shorter, shorter.replace("too ", ""))  # by how much stands below
    fits = (each for each in tried if len(_margin(width) + each) <= width)
    return Text(
        _in_cell(next(fits, shorter.removeprefix(f"{Sign.CAUTION} ")), width), style=style, end=""
    )


def _hours(day: DayView, width: int, p: Palette) -> Text:
    words, style = day.hours_words, p.ink if day.hours_booked else p.quiet
    if len(_margin(width) + words) > width:
        words = words.replace(" h", "")
    style = p.caution if day.hours_over else style
    return Text(_in_cell(words, width), style=style, end="")


def _in_cell(text: str, width: int) -> str:
    """The text as wide as a day, set in a little where there is room."""
    return fitted(_margin(width) + text, width)


def _margin(width: int) -> str:
    return " " if width > _NARROW else ""
