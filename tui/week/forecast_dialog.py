"""The forecast of the coming days, typed in one line; the days stand below as it is typed."""

from collections.abc import Awaitable, Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from rich.text import Text
from textual.containers import Vertical
from textual.widget import Widget
from textual.widgets import Static
from textual.widgets.input import Selection

from domain.days.calendar import show_date, show_hours, show_weekday
from domain.days.forecast_line import (
    LineRead,
    look_at_line,
    read_line,
    show_line,
    show_token,
    span_of,
)
from domain.days.places import place_of
from domain.days.weather import Verdict
from domain.scope import ListName
from domain.signs import Sign
from domain.tone import Tone
from domain.trader import Trader
from domain.week import DayView, Forecast, WeekData, plan_days
from tui.frame.safe_text import fitted
from tui.frame.screen import NOTHING_CHANGED, BaseScreen
from tui.frame.theme import PALETTES, Palette
from tui.widgets.field_row import Field
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import LineInput, Takes

LINE = "forecast"
FIELDS = (Field(LINE, "Forecast", example="ddr d9-12 r11", takes=Takes.FIGURE),)
_WORDS = (
    "A word a day from today on: dry, rain, cold or wind; its first letter will do. "
    "3d three dry days, ? not known, - as it was, mon goes on to Monday. If more is known: "
    "d9-12,14-17 dry hours, r11 rain from 11, /3 lowest, @14 wind, g25 gusts."
)
_NARROW = 70
"""Cells of a window under which a day is told in less."""
_FEWEST = 7
"""Days that stand below the line, whatever is typed."""


class ForecastDialog(FormDialog[Sequence[Forecast]]):
    """Reads the line with every key, and shows what each day would come to."""

    DEFAULT_CSS = """
    ForecastDialog #days { height: auto; padding: 1 2 0 2; }
    ForecastDialog FieldRow > .label { width: 12; }
    """

    def __init__(
        self,
        known: Mapping[date, Forecast],
        today: date,
        plan: Callable[[Mapping[date, Forecast], int], Sequence[DayView]],
        trader: Trader,
        save: Callable[[Sequence[Forecast]], Awaitable[Any]],
        about: date | None = None,
    ) -> None:
        """``known`` is what was typed before; ``plan`` lays out so many days from today by it.

        What is typed of the day ``about`` is marked, to be typed over.
        """
        super().__init__(
            f"Forecast from today, {show_date(today)}",
            FIELDS,
            lambda values: read_line(LINE, values[LINE], today),
            save,
            words=f"{_WORDS} {_daylight_of(trader)}\n{example(today)}",
            values={LINE: show_line(known, today)},
        )
        self._known, self._today, self._plan, self._about = known, today, plan, about
        self._days = Static(id="days")
        self._lines: list[Text] = []

    def below(self) -> Iterable[Widget]:
        """The days."""
        return (self._days,)

    def on_mount(self) -> None:
        """Mark the day that it is about; all of the line if it is about none."""
        super().on_mount()
        if self._about is not None:
            span = span_of(self._known, self._today, self._about)
            self.call_after_refresh(self._mark, *span)

    def _mark(self, begins: int, ends: int) -> None:
        self.query_one(LineInput).selection = Selection(begins, ends)

    def worked_out(self, form: Form) -> None:
        """Show the days as the line now has them, up to what cannot be read."""
        read = look_at_line(LINE, form.values[LINE], self._today)
        told = {forecast.day: forecast for forecast in read.forecasts if forecast is not None}
        views = self._plan({**self._known, **told}, max(_FEWEST, len(read.forecasts)))
        p = PALETTES[self.app.theme]
        lines = [self._line(view, told, p) for view in views]
        if read.refused is not None:
            at = len(read.forecasts)
            lines[at : at + 1] = [self._slip(read, p)]
        self._lines = lines
        self._days.update(Text("\n").join(lines))
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        """The last days are those that are being typed: they stand where not all have room."""
        rest = [w for w in self.query_one(Vertical).children if w.display and w is not self._days]
        taken = sum(w.outer_size.height + w.styles.margin.height for w in rest)
        room = max(1, self.size.height - taken - 2)
        self._days.update(Text("\n").join(self._lines[-room:]))
        super()._fit()

    def _line(self, view: DayView, told: Mapping[date, Forecast], p: Palette) -> Text:
        """One day: what is typed for it, its window, and what is booked."""
        forecast = told.get(view.day) or self._known.get(view.day)
        line = Text(f"{show_weekday(view.day):<8}", style=p.ink, end="")
        typed = show_token(forecast) if forecast else "-"
        narrow = self.size.width < _NARROW  # two lines a day would push the keys off the screen
        for_typed, for_words = (10, 20) if narrow else (20, 23)
        line.append(fitted(typed, for_typed), style=p.ink if view.day in told else p.quiet)
        tones = {Verdict.GOOD: p.moss, Verdict.POOR: p.caution, Verdict.UNKNOWN: p.quiet}
        words = view.weather_words or str(view.verdict)
        line.append(
            f" {fitted(words, for_words)}", style=p.caution if view.against else tones[view.verdict]
        )
        booked = show_hours(view.hours_booked)
        line.append(f" {booked} h booked" if view.hours_booked else "", style=p.ink)
        return line

    def _slip(self, read: LineRead, p: Palette) -> Text:
        """The day whose token cannot be read."""
        day = self._today + timedelta(days=len(read.forecasts))
        value = read.refused.value if read.refused else ""
        return Text(
            f"{show_weekday(day):<8}{Sign.STOP} {value} cannot be read", style=p.stop, end=""
        )


def example(today: date) -> str:
    """Two days in words, and how they are typed."""
    first, second = (show_weekday(today + timedelta(days=n))[:3] for n in range(2))
    return f"For example, {first} dry, {second} rain: dry rain, or dr."


def type_forecast(screen: BaseScreen, data: WeekData, about: date | None = None) -> None:
    """Ask for the forecast of the coming days; those days are saved that say something else.

    The cursor stands on the day ``about``.
    """
    known, today = {each.day: each for each in data.forecasts}, screen.open_book.today

    def plan(forecasts: Mapping[date, Forecast], count: int) -> Sequence[DayView]:
        told = replace(data, forecasts=tuple(forecasts.values()))
        return plan_days(told, today, count, today)

    async def save(forecasts: Sequence[Forecast]) -> None:
        changed = tuple(_changed(forecasts, known))
        if changed:
            await screen.open_book.ask(lambda book: book.save_forecasts(changed))
            screen.undo_of = ListName.FORECASTS
            await screen.say_saved("Saved: the forecast.")
        else:
            screen.say(NOTHING_CHANGED, Tone.QUIET)

    screen.app.push_screen(ForecastDialog(known, today, plan, data.trader, save, about))


def _changed(forecasts: Iterable[Forecast], known: Mapping[date, Forecast]) -> Iterator[Forecast]:
    """Those that say something else than what is recorded, to be saved in its place."""
    for forecast in forecasts:
        before = known.get(forecast.day)
        now = replace(forecast, version=before.version if before else 0)
        if now != before:
            yield now


def _daylight_of(trader: Trader) -> str:
    """Say whose daylight the windows lie in."""
    town = place_of(trader.address, trader.nation).town
    if town:
        return f"Inside your working day and the daylight of {town}."
    return f"Daylight of the middle of {trader.nation}: your postcode is not in your details."
