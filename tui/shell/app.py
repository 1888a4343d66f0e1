"""The app: screens, colours, and what can be asked for from anywhere."""

from collections.abc import Callable, Mapping
from contextlib import suppress
from datetime import datetime
from functools import cached_property
from importlib import import_module
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual import events
from textual.app import App, SystemCommand
from textual.binding import BindingType
from textual.dom import DOMNode
from textual.driver import Driver
from textual.screen import Screen

from domain.page_names import PageName
from storage.chosen_colours import keep_colours, kept_colours
from storage.fault_log import fault_log, log_fault
from tui.frame.commands import bindings, commands, key_words
from tui.frame.garbage import look_for_it
from tui.frame.held_keys import KEYS_WAIT, HeldKeys
from tui.frame.open_book import OpenBook
from tui.frame.screen import BaseScreen
from tui.frame.theme import PALETTES, textual_theme
from tui.frame.wall_clock import wall_clock
from tui.shell.leaving import leave_when_told
from tui.week.week_screen import WeekScreen

if TYPE_CHECKING:
    from storage.kept_typing import KeptTyping
    from tui.shell.typing_kept import TypingKept
    from tui.shell.undoing import Undoing

SCREENS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "prices": ("lists.prices_screen", "PricesScreen"),
        "backups": ("lists.backups_screen", "BackupsScreen"),
        "stock": ("lists.stock_screen", "StockScreen"),
        "owed": ("owed.owed_screen", "OwedScreen"),
        "books": ("books.books_screen", "BooksScreen"),
        "orders": ("lists.orders_screen", "OrdersScreen"),
        "trader": ("your_details.details_screen", "DetailsScreen"),
        "setup": ("your_details.setting_up_screen", "SettingUpScreen"),
    }
)
"""Module and class of each main screen that is made anew whenever it is gone to."""

_LIST = "jobs"
_KEEP_TYPING_S = 5.0
"""Seconds between two looks at what is typed and not saved: so much is lost at most."""
_FOLD_IN_S = 2.0
"""How often saves are written into the one file, if there are any."""


class HeadlapApp(App[None]):
    """The job book on a terminal."""

    TITLE = "Headlap"
    CSS_PATH = "styles/headlap.tcss"
    BINDINGS: ClassVar[list[BindingType]] = cast("list[BindingType]", bindings("anywhere"))
    HORIZONTAL_BREAKPOINTS = [(0, "-under-70"), (70, "-from-70")]  # noqa: RUF012  Textual's own type

    def __init__(self, open_book: OpenBook) -> None:
        """``open_book`` is the book to work on; closed when the app ends."""
        super().__init__()
        self.open_book = open_book
        self.leads_to_example = False
        self.held_keys = HeldKeys(self)
        for name in PALETTES:
            self.register_theme(textual_theme(name))
        kept = kept_colours(open_book.path)
        self._begin_with(kept if kept in PALETTES else "evening")

    def _begin_with(self, theme: str) -> None:
        """Take on colours before anything is drawn: changing them later reads all styles again."""
        self.set_reactive(App.theme, theme)
        dark = self.current_theme.dark
        self.set_class(dark, "-dark-mode")
        self.set_class(not dark, "-light-mode")
        self.add_class(f"-theme-{theme}")
        self.stylesheet.set_variables(self.get_css_variables())

    def get_css_variables(self) -> dict[str, str]:
        """Of our own colours; before they are taken on, Textual asks for those of its own."""
        return super().get_css_variables() if self.theme in PALETTES else {}

    @cached_property
    def _typing(self) -> "TypingKept":
        """What is typed and not saved, kept in case the window goes."""
        from tui.shell.typing_kept import TypingKept  # not needed at the first paint

        return TypingKept(self, self.open_book)

    def get_driver_class(self) -> type[Driver]:
        """What reads the terminal: ours where Textual would take its own for a Unix terminal."""
        driver = super().get_driver_class()
        if driver.__name__ == "LinuxDriver":
            from tui.shell.prompt_driver import PromptDriver  # what it needs Windows does not have

            return PromptDriver
        return driver

    def get_default_screen(self) -> Screen[Any]:
        """The week is what the day begins and ends with."""
        return WeekScreen()

    def on_mount(self) -> None:
        """Leave in order when told to, and keep the one file whole while nothing is done."""
        self.call_after_refresh(look_for_it)
        leave_when_told(self._leave_when_told)
        self.set_interval(_KEEP_TYPING_S, lambda: self._typing.keep())  # noqa: PLW0108  made when first needed
        self.call_after_refresh(self._offer_typing)
        self.set_interval(_FOLD_IN_S, self.open_book.fold_in)

    async def on_event(self, event: events.Event) -> None:
        """Let a key or a paste through only when it is known where it belongs."""
        if not self.held_keys.holds(event):
            await super().on_event(event)

    def on_unmount(self) -> None:
        """Close the book, so that everything in it is in its one file."""
        self.open_book.close()

    def open_job(
        self,
        job_id: int,
        page: PageName | None = None,
        field: str = "",
        settled: Callable[[], bool] | None = None,
    ) -> None:
        """Open a job, at the page of its stage or at the one named, there at a field.

        It closes by itself once something was saved and what it was opened for is ``settled``.
        Where it is open below with something typed that is not saved, that is shown instead.
        """
        from tui.job.job_screen import JobScreen  # not needed at the first paint

        open_below = (each for each in self.screen_stack if isinstance(each, JobScreen))
        for below in open_below:
            if below.job_id == job_id and below.unsaved:
                below.may_leave()
                while self.screen is not below:
                    self.pop_screen()
                return
        self.push_screen(JobScreen(job_id, page, field=field, settled=settled))

    def list_jobs(self, *, finding: bool = False) -> None:
        """List all jobs. The screen is kept: most of what it took to show it was to make it."""
        from tui.lists.jobs_screen import JobsScreen

        if not self.is_screen_installed(_LIST):
            self.install_screen(JobsScreen(), _LIST)
        screen = cast("JobsScreen", self.get_screen(_LIST))
        if screen in self.screen_stack:  # below a job that was opened from it
            screen = JobsScreen()
        screen.begin_again(finding=finding)
        self.push_screen(screen)

    def close_deleted(self, job_id: int, words: str) -> None:
        """Close the pages of a job that was just deleted, and say so with the key to undo it."""
        self._undoing.deleted(job_id, words)

    def go_on_with(self, typing: "KeptTyping") -> None:
        """Open the form that was typed into, with what was typed in it.

        A question cannot be asked by itself: the page it was asked from opens, and says it.
        """
        if typing.job_id is not None:
            from tui.job.job_screen import JobScreen

            page, told = PageName(typing.page), f"You had typed {typing.told}"
            self.push_screen(
                JobScreen(typing.job_id, page, told=told)
                if typing.is_dialog
                else JobScreen(typing.job_id, page, typing.values)
            )
        elif typing.page == PageName.ENQUIRY:
            self._new_enquiry(typing.values)
        else:
            from tui.your_details.details_screen import DetailsScreen

            self.push_screen(DetailsScreen(typing.values))

    def note_unforeseen(self, error: Exception) -> str:
        """Keep the details of a fault beside the book, and give the sentence to say about it."""
        log_fault(self.open_book.path, error, self.open_book.now())
        details = fault_log(self.open_book.path).name
        return f"Something went wrong. Nothing was saved; details in {details}."

    def action_go(self, where: str) -> None:
        """Go to one of the main screens."""
        if where == "week":
            if self.may_leave_all():
                self._pop_to_the_week()
                self._week.show_this_week()
            return
        if where == "jobs":
            self.list_jobs()
        else:
            self.push_screen(_screen(where))

    def may_leave_all(self) -> bool:
        """Bring the topmost screen that may not be left to the front, where it says why."""
        from tui.widgets.form_dialog import FormDialog  # not needed at the first paint

        for screen in reversed(self.screen_stack):
            if isinstance(screen, BaseScreen | FormDialog) and not screen.may_leave():
                while self.screen is not screen:
                    self.pop_screen()
                return False
        return True

    def begin_restored(self, told: str) -> None:
        """Close every screen of the book before, and show the week of the one that was restored."""
        self.__dict__.pop("_undoing", None)  # what it remembers is of the book before
        self._pop_to_the_week()
        self._week.begin_restored(told)

    @property
    def _week(self) -> WeekScreen:
        """The screen that lies below all others."""
        return cast("WeekScreen", self.screen_stack[0])

    def _pop_to_the_week(self) -> None:
        while len(self.screen_stack) > 1:
            self.pop_screen()

    async def action_quit(self) -> None:
        """Leave, unless something typed would be lost unasked."""
        if self.may_leave_all():
            self._typing.forget()
            self.exit()

    def look_round_example(self) -> None:
        """Leave for the example, unless something typed would be lost; the book opens after it."""
        if self.may_leave_all():
            self._typing.forget()
            self.leads_to_example = True
            self.exit()

    def action_help(self) -> None:
        """Show the keys of the screen in front."""
        from tui.shell.help_screen import HelpScreen

        self.push_screen(HelpScreen(tuple(place for place, _ in _namespaces(self.screen))))

    def action_new_enquiry(self) -> None:
        """Write down an enquiry; the new job opens when it is saved."""
        screen = self.screen
        if isinstance(screen, BaseScreen):
            self._new_enquiry(screen.new_enquiry, screen.enquiry_of)
        else:
            self._new_enquiry({})

    def _new_enquiry(self, put_back: Mapping[str, str], customer_id: int | None = None) -> None:
        """Record an enquiry; the new job opens when it is saved."""
        from tui.job.enquiry.enquiry_dialog import enquiry_dialog

        week = self.screen if isinstance(self.screen, WeekScreen) else None

        def opened(job_id: int) -> None:
            if week is not None:
                week.undo_of = job_id
            self.open_job(job_id)

        dialog = enquiry_dialog(self.open_book, opened, customer_id)
        dialog.put_back = put_back
        self.push_screen(dialog)

    @cached_property
    def _undoing(self) -> "Undoing":
        from tui.shell.undoing import Undoing  # dialogs, stock: not needed at the first paint

        return Undoing(self)

    def action_undo(self) -> None:
        """Undo what was saved last of the job or the list in front."""
        screen = self.screen
        if isinstance(screen, BaseScreen):
            screen.save_in_worker(self._undoing.undo(screen))

    def action_redo(self) -> None:
        """Do again what was undone last of the job or the list in front."""
        screen = self.screen
        if isinstance(screen, BaseScreen):
            screen.save_in_worker(self._undoing.redo(screen))

    def action_switch_colours(self) -> None:
        """Day or evening colours, also at the next start."""
        self.theme = "day" if self.theme == "evening" else "evening"
        with suppress(OSError):  # they have changed; that they are not kept is soon seen
            keep_colours(self.open_book.path, self.theme)

    def action_command_palette(self) -> None:
        """Find a command by its name."""
        from tui.shell.palette import CommandFinder  # not needed at the first paint

        if not isinstance(self.screen, CommandFinder):
            self.push_screen(CommandFinder())

    def get_system_commands(self, screen: Screen[Any]) -> Any:
        """The palette: the commands of the screen in front, then those of anywhere."""
        for place, namespace in (*_namespaces(screen), ("anywhere", self)):
            for command in commands(place):
                yield SystemCommand(
                    f"{command.words[:1].upper()}{command.words[1:]}  {key_words(command.keys[0])}",
                    command.help,
                    self._runner(command.id, namespace),
                )

    def _runner(self, action: str, namespace: Any) -> Callable[[], Any]:
        return lambda: self.run_worker(self.run_action(action, namespace), group=KEYS_WAIT)

    def _leave_when_told(self, status: int) -> None:
        """Keep what is typed, and leave in order; ``status`` is what the shell is told."""
        self._typing.keep()
        self.exit(return_code=status)

    def _offer_typing(self) -> None:
        """Show what a window that went left unsaved, if there is any."""
        from storage.kept_typing import take_over_typing

        self._typing.left = take_over_typing(self.open_book.path)
        if self._typing.left:
            from tui.shell.unsaved_screen import UnsavedScreen

            self.push_screen(UnsavedScreen(self._typing))


def _namespaces(screen: Screen[Any]) -> list[tuple[str, DOMNode]]:
    """The places whose commands work on a screen or in a dialog, each with what runs them."""
    if isinstance(screen, BaseScreen):
        return screen.namespaces()
    return [(place, screen) for place in getattr(screen, "places", ("dialog",))]


def _screen(where: str) -> BaseScreen:
    """A main screen by name, loaded when it is first asked for.

    Raises ``KeyError`` for a name that :data:`SCREENS` does not have.
    """
    module, kind = SCREENS[where]
    screen: BaseScreen = getattr(import_module(f"tui.{module}"), kind)()
    return screen


def make_app(
    path: Path, now: Callable[[], datetime] = wall_clock, *, begin_again: bool = False
) -> HeadlapApp:
    """The app on a book: the one factory, used by the command line and by every test."""
    return HeadlapApp(OpenBook(path, now, begin_again=begin_again))
