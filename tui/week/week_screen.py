"""The week: the landing screen. Seven days, what needs doing tonight, and the week's money."""

from datetime import date
from typing import ClassVar

from textual import events
from textual.containers import Container, Vertical
from textual.content import Content
from textual.style import Style
from textual.widget import Widget

from domain.days.calendar import show_date, show_week, show_weekday
from domain.errors import HeadlapError
from domain.page_names import PageName
from domain.scope import ListName, Scope
from domain.tone import Tone
from domain.week import (
    TaskKind,
    Week,
    WeekData,
    first_shown,
    plan_week,
    with_holidays,
)
from domain.week.evening import Fold
from domain.week.tomorrow import tomorrow
from storage.errors import NotCurrent
from storage.week_and_jobs import read_week
from tui.frame.commands import key_of
from tui.frame.message_line import MessageLine
from tui.week.day_strip import ENTRY_LINES, OTHER_LINES, DayStrip
from tui.week.line_keys import of_other_lines
from tui.week.sending_keys import SendingKeys
from tui.week.task_strip import TaskStrip
from tui.week.tonight_list import TonightList
from tui.week.week_figures import WeekFigures
from tui.widgets.line_list import LineList

_WIDE = 110
"""Cells from which the strip and the figures stand beside the list."""
_NARROW = 72
"""Cells below which the heading is said in fewer words."""
_LOOK_S = 60
"""How often it is looked whether midnight is past."""
_BEGINS = frozenset({"new_enquiry"})


class WeekScreen(SendingKeys):
    """Read with the standard library alone, so that it stands before anything heavy is loaded."""

    place: ClassVar[str] = "week"
    title_words: ClassVar[str] = "the week"
    AUTO_FOCUS: ClassVar[str] = "LineList"
    DEFAULT_CSS = """
    WeekScreen { layers: rest said; }
    WeekScreen MessageLine { layer: said; background: $background; }
    WeekScreen #below { margin: 1 2 0 2; height: 1fr; layout: vertical; }
    WeekScreen #tonight { height: 1fr; }
    WeekScreen #beside { height: auto; }
    WeekScreen.-wide #below { layout: horizontal; margin: 1 2; }
    WeekScreen.-wide #tonight { width: 1fr; }
    WeekScreen.-wide #tonight > Static { margin-bottom: 1; }
    WeekScreen.-wide #beside { width: 34; height: 1fr; padding-left: 4; }
    """

    def __init__(self) -> None:
        super().__init__()
        self.keys_left_out = of_other_lines(None)
        """Commands that work on any line, and do not settle the one in front."""
        self._week: Week | None = None
        self._data: WeekData | None = None
        self._weeks_on = 0
        self._just_read = False
        self.worked_on: list[Scope] = [ListName.FORECASTS]

    @property
    def undo_of(self) -> Scope | None:
        """What was worked on last from here: a job that was opened or put off, or the forecasts."""
        return self.worked_on[-1]

    @undo_of.setter
    def undo_of(self, of: Scope | None) -> None:
        if of is not None:
            self.worked_on = [*(each for each in self.worked_on if each != of), of]

    @property
    def keys_brought_in(self) -> frozenset[str]:
        """The key of a new enquiry, while no job has anything to do: that is how one begins."""
        if self._week is None or any(task.job_id for task in self._week.tonight):
            return frozenset()
        return _BEGINS

    def body(self) -> list[Widget]:
        """Days above; tonight and the figures below."""
        beside = Vertical(TaskStrip(), WeekFigures(), id="beside")
        return [DayStrip(), Container(TonightList(), beside, id="below")]

    def on_mount(self) -> None:
        """Show the week at once if the book can be read; open it first if it is new or old."""
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
            self._say_how_to_begin()
            self.call_after_refresh(lambda: self.in_background(self._make_ready()))

    def begin_restored(self, told: str) -> None:
        """Show the book that was put in the place of the one shown so far, and say ``told``."""
        self._weeks_on = 0
        self.worked_on = [ListName.FORECASTS]
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
            self._say_how_to_begin()

    def heading_words(self) -> str:
        """The date, or the week that is shown when it is another."""
        today = self.open_book.today
        if self._weeks_on:
            also = f" · today {show_weekday(today)}" if self._has_room else ""
            return f"{show_week(self._first())}{also}"
        return show_date(today)

    def heading(self) -> Content:
        """The heading, with a place to click for the week before and for the next."""
        week = " week" if self._has_room else ""
        before = _clicked(f"‹ last{week}", "screen.page_week(-1)")
        after = _clicked(f"next{week} ›", "screen.page_week(1)")
        return Content("  ").join((super().heading(), before, after))

    @property
    def _has_room(self) -> bool:
        """Whether all that the heading says fits into its line."""
        return self.app.size.width >= _NARROW

    def on_resize(self, event: events.Resize) -> None:
        """Show two jobs a day where the window is tall enough; figures beside where it is wide."""
        wide = event.size.width >= _WIDE
        self.set_class(wide, "-wide")
        self.query_one(TaskStrip).set_class(wide, "-beside")
        self.query_one(WeekFigures).in_a_line = not wide
        self.refresh_heading()
        entries = 2 if event.size.height >= 32 else 1
        self.query_one(DayStrip).styles.height = OTHER_LINES + ENTRY_LINES * entries

    def action_open(self) -> None:
        """Go to the thing itself: a line of Tonight, or a job of the day that is chosen."""
        strip = self.query_one(DayStrip)
        if strip.has_focus:
            strip.open()
        else:
            self.query_one(TonightList).choose()

    def action_used(self) -> None:
        """Record what was used."""
        self._go(PageName.MATERIALS)

    def action_invoice(self) -> None:
        """Go to the invoices and payments."""
        self._go(PageName.MONEY)

    def action_put_off(self) -> None:
        """Put the line in front off until a day."""
        from tui.week.put_off_dialog import put_task_off

        task = self.one_in_front()
        if task is not None:
            self.attempt(lambda: put_task_off(self, task))

    def action_job(self) -> None:
        """Open the job of the line in front."""
        task = self.query_one(TonightList).task_in_front
        self._go(task.page if task is not None and task.page is not PageName.TRADER else None)

    def action_orders(self) -> None:
        """Go to what is to be ordered."""
        self.undo_of = ListName.STOCK
        self.program.action_go("orders")

    def action_miles(self) -> None:
        """Accept the miles of today's jobs."""
        from tui.books.evening_miles import accept_evening

        self.save_in_worker(accept_evening(self))

    def action_setup(self) -> None:
        """Go to the steps of the first evening."""
        self.program.action_go("setup")

    def action_find(self) -> None:
        """Go to the list of all jobs, with the cursor in the search field."""
        self.program.list_jobs(finding=True)

    def action_page_week(self, by: int) -> None:
        """Show the week before or after."""
        self._show_week(self._weeks_on + by)

    def show_this_week(self) -> None:
        """Come back to the week that today is in, from whichever is shown."""
        if self._weeks_on:
            self._show_week(0)

    def _show_week(self, weeks_on: int) -> None:
        """Show another week; what was said was said of the one before."""
        self._weeks_on = weeks_on
        self.query_one(MessageLine).hush()
        self.attempt(self._read)

    def action_forecast(self) -> None:
        """Type the forecast of the coming days, from the day that the line in front is about."""
        from tui.week.forecast_dialog import type_forecast

        if self._data is not None:
            task = self.query_one(TonightList).task_in_front
            about = task.since if task is not None and task.kind is TaskKind.RING else None
            type_forecast(self, self._data, about)

    def action_print_week(self) -> None:
        """Show the week sheet."""
        from domain.papers.week_paper import week_paper
        from tui.papers.paper_screen import PaperScreen

        if self._week is not None:
            self.app.push_screen(PaperScreen(week_paper(self._week)))

    def on_message_line_grown(self, event: MessageLine.Grown) -> None:
        """Move what is told of the line in front up, so that both can be read."""
        event.stop()
        self.query_one(TaskStrip).set_class(event.lines > 1, "-raised")

    def on_tonight_list_chosen(self, event: TonightList.Chosen) -> None:
        """A line of Tonight is settled from where it stands, or leads to the thing itself."""
        from tui.week.settling import settle

        event.stop()
        data = self._data
        if data is not None:
            self.attempt(lambda: settle(self, event.task, data))

    def on_tonight_list_moved(self, event: TonightList.Moved) -> None:
        """Tell the line that is in front whole."""
        event.stop()
        tonight, strip = self.query_one(TonightList), self.query_one(TaskStrip)
        task, row = tonight.task_in_front, tonight.row_in_front
        strip.of_task, strip.of_fold = task, row if isinstance(row, Fold) else None
        job_id = task.job_id if task is not None else None
        lines = self._data.lines if self._data is not None else ()
        self.keys_left_out = of_other_lines(task)
        self.refresh_bindings()
        strip.of_job = next((line for line in lines if line.job_id == job_id), None)

    def on_day_strip_chosen(self, event: DayStrip.Chosen) -> None:
        """Open the job that was chosen in the days."""
        event.stop()
        self.undo_of = event.job_id
        self.program.open_job(event.job_id)

    def _go(self, page: PageName | None) -> None:
        """Open the job the cursor stands on at a page; back to its line once that is settled."""
        from tui.week.job_of_line import open_job_of

        task = self.query_one(TonightList).task_in_front
        if task is None or task.job_id is None:
            self.say("Pick a job in the Tonight list first.", Tone.QUIET)
            return
        open_job_of(self, task, task.job_id, page)

    def _first(self) -> date:
        """The first of the seven days that are shown."""
        return first_shown(self.open_book.today, self._weeks_on)

    def _read(self) -> None:
        today = self.open_book.today
        data = read_week(self.open_book.path, today, self._first())
        if self.open_book.knows_holidays:
            data = with_holidays(data, self._first())
        self._data = data
        self._week = plan_week(data, today, self._weeks_on)
        self.query_one(DayStrip).days = self._week.days
        figures = self.query_one(WeekFigures)
        figures.figures = self._week.figures
        figures.title = show_week(self._first())
        self.query_one(TonightList).show(
            self._week.tonight, tomorrow(data, today, key_of("week", "tomorrow"))
        )
        self.refresh_heading()

    async def _make_ready(self) -> None:
        """Load the rest of the program and back up the book, while the week is being read."""
        await self.open_book.warm_up()
        self._show_holidays()
        await self.open_book.back_up()
        if self.open_book.is_open and not self.query_one(MessageLine).display:
            from tui.books.said_early import say_early

            await say_early(self)

    def _show_holidays(self) -> None:
        """Draw the days again if there is a bank holiday among them, now that they are known."""
        if self._data is not None and self._week is not None and self.open_book.knows_holidays:
            known = with_holidays(self._data, self._first()).holidays
            if any(day.day in known for day in self._week.days):
                self._read()

    async def _open_book(self) -> None:
        self.say("Opening your book…", Tone.QUIET)
        await self.open_book.warm_up()
        self._read()
        if self._is_new:
            self.action_setup()
        else:
            self.query_one(MessageLine).hush()
            self.query_one(LineList).focus()  # it was empty, and could not have the cursor

    def _say_how_to_begin(self) -> None:
        """Say in a book that nobody has begun yet what to do, unless something else is said."""
        if self._is_new and not self.query_one(MessageLine).display:
            setup, enquiry = key_of("week", "setup"), key_of("anywhere", "new_enquiry")
            self.say(f"New book: {setup} sets it up, {enquiry} adds an enquiry.", Tone.QUIET)

    @property
    def _is_new(self) -> bool:
        """Whether nothing is in the book yet that would stand here."""
        data = self._data
        return data is not None and not data.lines and not data.trader.heading


def _clicked(words: str, action: str) -> Content:
    """Words that do something when they are clicked."""
    return Content.styled(words, Style.from_meta({"@click": action}))
