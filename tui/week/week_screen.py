"""The week: the landing screen. Seven days, what needs doing tonight, and the week's money."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import ClassVar

from rich.cells import cell_len
from rich.text import Text
from textual import events
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.days.calendar import show_date
from domain.errors import HeadlapError
from domain.history import ListName
from domain.money import show_money
from domain.page_names import PageName
from domain.tone import Tone
from domain.week import (
    DayView,
    Forecast,
    Task,
    TaskSign,
    Week,
    WeekData,
    plan_days,
    plan_week,
)
from storage.errors import NotCurrent
from storage.week_and_jobs import read_week
from tui.frame.commands import key_of
from tui.frame.safe_text import fitted
from tui.frame.screen import BaseScreen
from tui.week.day_strip import ENTRY_LINES, OTHER_LINES, DayStrip
from tui.week.week_figures import WeekFigures
from tui.widgets.line_list import LineList

_LOOK_S = 60
"""How often it is looked whether midnight is past."""


class WeekScreen(BaseScreen):
    """Read with the standard library alone, so that it stands before anything heavy is loaded."""

    place: ClassVar[str] = "week"
    title_words: ClassVar[str] = "the week"
    undo_of = ListName.FORECASTS
    DEFAULT_CSS = """
    WeekScreen #below { margin: 1 2 0 2; height: 1fr; }
    WeekScreen #tonight { width: 1fr; }
    WeekScreen #tonight > Static { height: 1; text-style: bold; margin-bottom: 1; }
    WeekScreen #tonight > #nothing { text-style: none; color: $quiet; display: none; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._week: Week | None = None
        self._data: WeekData | None = None
        self._forecasts: dict[date, Forecast] = {}
        self._weeks_on = 0
        self._just_read = False

    def body(self) -> list[Widget]:
        """Days above; tonight and the figures below."""
        return [DayStrip(), _Below(id="below")]

    def on_mount(self) -> None:
        """Show the week at once if the book can be read; open it first if it is new or old."""
        self.query_one(LineList).focus()
        new_day = self.open_book.back_up_of_a_new_day
        self.set_interval(_LOOK_S, lambda: self.in_background(new_day()))
        try:
            self._read()
        except NotCurrent:
            self.in_worker(self._open_book())
        except HeadlapError as error:
            self.say(str(error), Tone.STOP)
        else:
            self._just_read = True
            self.call_after_refresh(lambda: self.in_background(self._make_ready()))

    def begin_restored(self, told: str) -> None:
        """Show the book that was put in the place of the one shown so far, and say ``told``."""
        self._weeks_on = 0
        self._just_read = True  # here, once it is brought up to date
        self.in_worker(self._open_restored(told))

    async def _open_restored(self, told: str) -> None:
        """Bring it up to date if it is older, read it, and say so if that cannot be done."""
        try:
            await self.open_book.warm_up()
        except HeadlapError as error:
            self.say(f"{told} It cannot be opened yet. {error}", Tone.STOP)
        else:
            self._read()
            self.say(told, lasting=True)

    async def reload(self) -> None:
        """Read the week again: what was done on another screen may have changed it."""
        if self._just_read:  # it comes to the front for the first time
            self._just_read = False
        elif self._week is not None:
            self._read()

    def heading_words(self) -> str:
        """The date, or the week that is shown when it is another."""
        today = self.open_book.today
        if self._weeks_on:
            return f"of {show_date(self._monday())} · today is {show_date(today)}"
        return show_date(today)

    def on_resize(self, event: events.Resize) -> None:
        """Show two jobs a day where the window is tall enough."""
        entries = 2 if event.size.height >= 32 else 1
        self.query_one(DayStrip).styles.height = OTHER_LINES + ENTRY_LINES * entries

    def action_open(self) -> None:
        """Go to the thing itself: a line of Tonight, or a job of the day that is chosen."""
        strip = self.query_one(DayStrip)
        if strip.has_focus:
            strip.open()
        else:
            self.query_one(LineList).action_choose()

    def action_used(self) -> None:
        """Record what was used."""
        self._go(PageName.MATERIALS)

    def action_invoice(self) -> None:
        """Send the invoice."""
        self._go(PageName.MONEY)

    def action_find(self) -> None:
        """Go to the list of all jobs, with the cursor in the search field."""
        self.program.list_jobs(finding=True)

    def action_page_week(self, by: int) -> None:
        """Show the week before or after."""
        self._weeks_on += by
        self.attempt(self._read)

    def action_forecast(self) -> None:
        """Type the forecast of the coming days."""
        from tui.week.forecast_dialog import ForecastDialog

        data, today = self._data, self.open_book.today
        if data is None:
            return

        def plan(known: Mapping[date, Forecast], count: int) -> Sequence[DayView]:
            told = replace(data, forecasts=tuple(known.values()))
            return plan_days(told, today, count, today)

        async def save(forecasts: Sequence[Forecast]) -> None:
            changed = tuple(self._changed(forecasts))
            if changed:
                await self.open_book.ask(lambda book: book.save_forecasts(changed))

        self.app.push_screen(ForecastDialog(self._forecasts, today, plan, data.trader, save))

    def _changed(self, forecasts: Sequence[Forecast]) -> Iterator[Forecast]:
        """Those that say something else than what is recorded, to be saved in its place."""
        for forecast in forecasts:
            before = self._forecasts.get(forecast.day)
            now = replace(forecast, version=before.version if before else 0)
            if now != before:
                yield now

    def action_print_week(self) -> None:
        """Show the week sheet."""
        from domain.papers.week_paper import week_paper
        from tui.papers.paper_screen import PaperScreen

        if self._week is not None:
            self.app.push_screen(PaperScreen(week_paper(self._week)))

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """A line of Tonight leads to the thing itself."""
        event.stop()
        self._open_task(self._tasks()[event.row])

    def on_day_strip_chosen(self, event: DayStrip.Chosen) -> None:
        """Open the job that was chosen in the days."""
        event.stop()
        self.program.open_job(event.job_id)

    def _go(self, page: PageName) -> None:
        """Open the job the cursor stands on at a page."""
        task = self._under_cursor()
        if task is None or task.job_id is None:
            self.say("Pick a job in the Tonight list first.", Tone.QUIET)
            return
        self.program.open_job(task.job_id, page)

    def _open_task(self, task: Task) -> None:
        if task.job_id is None:
            self.app.call_later(self.program.run_action, f"go('{task.page.value}')")
        elif task.asks:
            from tui.week.went_ahead_dialog import ask_whether_it_went_ahead

            ask_whether_it_went_ahead(self, task, task.job_id)
        else:
            self.program.open_job(task.job_id, task.page)

    def _under_cursor(self) -> Task | None:
        tasks, lines = self._tasks(), self.query_one(LineList)
        return tasks[lines.cursor] if lines.cursor < len(tasks) else None

    def _tasks(self) -> tuple[Task, ...]:
        return self._week.tonight if self._week else ()

    def _monday(self) -> date:
        today = self.open_book.today
        return today - timedelta(days=today.weekday()) + timedelta(weeks=self._weeks_on)

    def _read(self) -> None:
        today = self.open_book.today
        data = read_week(self.open_book.path, today, self._monday())
        self._data = data
        self._forecasts = {f.day: f for f in data.forecasts}
        self._week = plan_week(data, today, self._monday())
        self.query_one(DayStrip).days = self._week.days
        self.query_one(WeekFigures).figures = self._week.figures
        self.query_one(LineList).show(len(self._week.tonight), self._draw)
        self.query_one("#nothing").display = not self._week.tonight
        self.refresh_heading()

    async def _make_ready(self) -> None:
        """Load the rest of the program and back up the book, while the week is being read."""
        await self.open_book.warm_up()
        await self.open_book.back_up()

    async def _open_book(self) -> None:
        self.say("Opening your book…", Tone.QUIET)
        await self.open_book.warm_up()
        self._read()
        details, enquiry = key_of("anywhere", "go('trader')"), key_of("anywhere", "new_enquiry")
        self.say(
            f"New book. Press {details} to fill in your details, {enquiry} to add your first "
            "enquiry.",
            Tone.QUIET,
        )

    def _draw(self, row: int, width: int) -> Text:
        task, p = self._tasks()[row], self.palette
        colours = {TaskSign.STOP: p.stop, TaskSign.MONEY: p.moss}
        amount = "" if task.amount is None else f" {show_money(task.amount)}"
        words = 25
        who = width - words - 3 - len(amount)
        line = Text(f"{task.sign}  ", style=colours.get(task.sign, p.slate), end="")
        line.append(f"{fitted(task.words, words - 1)} ", style=f"bold {p.ink}")
        line.append(fitted(_whom(task.who, who), who), style=p.ink)
        line.append(amount, style=p.ink)
        return line


def _whom(who: str, cells: int) -> str:
    """Customer and place; where both have no room the customer alone: it is they who are rung."""
    return who if cell_len(who) <= cells else who.split(", ", maxsplit=1)[0]


class _Below(Horizontal):
    def compose(self) -> ComposeResult:
        with Vertical(id="tonight"):
            yield Static(Content("Tonight"))
            yield Static(Content("Nothing to do tonight."), id="nothing")
            yield LineList()
        yield WeekFigures()
