"""What every screen has: a heading, the line in which the program speaks, and the line of keys."""

from collections.abc import Callable, Coroutine, Mapping, Sequence
from contextlib import suppress
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.css.query import NoMatches
from textual.dom import DOMNode, NoScreen
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from domain.errors import HeadlapError
from domain.tone import Tone
from tui.frame.commands import bindings, key_of
from tui.frame.held_keys import KEYS_WAIT
from tui.frame.key_line import KeyLine
from tui.frame.message_line import MessageLine, Says
from tui.frame.safe_text import one_line
from tui.frame.theme import PALETTES, Palette

if TYPE_CHECKING:
    from domain.page_names import PageName
    from domain.scope import Scope
    from tui.frame.open_book import OpenBook
    from tui.frame.program import Program


def move_cursor(screen: Screen[Any], by: int) -> None:
    """Put the cursor into what stands after it, or before; from the last or first nowhere.

    Round from the end to the beginning, what is typed next would go where nobody looks.
    """
    chain = screen.focus_chain
    if chain and screen.focused is not chain[-1 if by > 0 else 0]:
        (screen.focus_next if by > 0 else screen.focus_previous)()


NOTHING_CHANGED = "Nothing changed: there was nothing to save."
"""Said of a save that would write what stands there already."""


class BaseScreen(Screen[None]):
    """A full screen. Subclasses give ``place`` (of commands), ``title_words`` and :meth:`body`."""

    place: ClassVar[str]
    title_words: ClassVar[str]
    undo_of: "Scope | None" = None
    """What undo and redo are of while it is in front; None where nothing is saved."""
    worked_on: "Sequence[Scope]" = ()
    """Where a screen leads to many jobs: all that was worked on from it, the last at the end."""

    def __init__(self) -> None:
        super().__init__()
        self._at_work = False

    def __init_subclass__(cls, **kwargs: Any) -> None:
        """Bind the commands declared for the screen's place."""
        if "BINDINGS" not in cls.__dict__ and "place" in cls.__dict__:
            cls.BINDINGS = cast("list[BindingType]", bindings(cls.place))
        super().__init_subclass__(**kwargs)

    @property
    def program(self) -> "Program":
        """The app, as what screens may ask of it."""
        return cast("Program", self.app)

    @property
    def open_book(self) -> "OpenBook":
        """The open book."""
        return self.program.open_book

    @property
    def palette(self) -> Palette:
        """The colours in force."""
        return PALETTES[self.app.theme]

    def compose(self) -> ComposeResult:
        """Yield the parts of the screen from the top: heading, body, message line, line of keys."""
        yield Static(self.heading(), id="heading")
        yield from self.body()
        yield MessageLine()
        yield KeyLine()

    def heading(self) -> Content:
        """The top line: the program, the screen, and what :meth:`heading_words` adds."""
        return Content.assemble(
            ("Headlap", "$verdigris bold"),
            "  ",
            (self.title_words, "$ink"),
            "  ",
            Content(one_line(self.heading_words())).stylize("$quiet"),
        )

    def heading_words(self) -> str:
        """What the heading adds to the title: the date, a name."""
        return ""

    def refresh_heading(self) -> None:
        """Draw the heading again."""
        self.query_one("#heading", Static).update(self.heading(), layout=False)  # a line stays one

    def body(self) -> list[Widget]:
        """Yield what stands between the heading and the line of messages."""
        raise NotImplementedError

    async def reload(self) -> None:
        """Read again what the screen shows: when it comes back to the front, after an undo."""

    def action_move_cursor(self, by: int) -> None:
        """Go on to the next part, or back to the one before."""
        move_cursor(self, by)

    def on_screen_suspend(self) -> None:
        """What was said belongs to what was done before; how to undo it stays."""
        for voice in self.query(MessageLine):
            voice.hush_unless_lasting()

    def on_screen_resume(self) -> None:
        """What was done on the screen that lay above may have changed what this one shows."""
        self.in_worker(self.reload())

    def namespaces(self) -> list[tuple[str, DOMNode]]:
        """The places whose commands the palette offers, each with what runs them."""
        return [(self.place, self)]

    @property
    def new_enquiry(self) -> Mapping[str, str]:
        """What a new enquiry begins with that is asked for here, by field."""
        return {}

    @property
    def enquiry_of(self) -> int | None:
        """The customer whom a new enquiry that is asked for here is of."""
        return None

    def go_to(self, page: "PageName", field: str) -> None:
        """Show a page, the cursor in a field of it, where the screen has pages."""

    def may_leave(self) -> bool:
        """Whether the screen can be closed now; where typing would be lost, it says so first."""
        return True

    def action_back(self) -> None:
        """Go back to the screen below."""
        self.dismiss()

    @property
    def was_left(self) -> bool:
        """Whether it was left, perhaps while something was still being asked of the book."""
        return self not in self.app.screen_stack

    def leave(self) -> None:
        """Close it, unless it was left already: what it showed is no longer in the book."""
        if not self.was_left:
            self.dismiss()

    def say(self, sentence: str, tone: Tone = Tone.GOOD, *, lasting: bool = False) -> None:
        """Say one sentence at the foot; at that of the screen in front if this one was left.

        What is ``lasting``, as how to undo it, stays when another screen or page is opened.
        """
        screen = self.app.screen if self.was_left else self
        for voice in screen.query(MessageLine):
            voice.say(sentence, tone, lasting=lasting)

    def on_says(self, event: Says) -> None:
        """Say what a part of it has to say."""
        event.stop()
        self.say(event.sentence, event.tone)

    async def say_saved(
        self, sentence: str, tone: Tone = Tone.GOOD, *, lasting: bool = False
    ) -> None:
        """Say what was saved, and with which key it is undone if it can be."""
        of = self.undo_of
        with suppress(HeadlapError):  # no undo to speak of
            if of is not None:
                await self.open_book.ask(lambda book: book.undoable(of))
                sentence = f"{sentence} {key_of('anywhere', 'undo')} to undo."
        self.say(sentence, tone, lasting=lasting)

    @property
    def undo_waits(self) -> str:
        """What is said instead of an undo, if that has to wait."""
        return ""

    def attempt(self, look: Callable[[], None]) -> None:
        """Look something up at once; what is refused is said."""
        try:
            look()
        except HeadlapError as error:
            self.say(str(error), Tone.STOP)

    def in_worker(self, work: Coroutine[Any, Any, Any]) -> None:
        """Do something that asks the book, in a worker; what it refuses is said. Keys wait."""
        self.run_worker(self._told(work), group=KEYS_WAIT, exit_on_error=False)

    def in_background(self, work: Coroutine[Any, Any, Any]) -> None:
        """As :meth:`in_worker`, for what only shows more beside what is typed: keys go on."""
        self.run_worker(self._told(work), exit_on_error=False)

    def save_in_worker(self, work: Coroutine[Any, Any, Any]) -> None:
        """As :meth:`in_worker`, for what saves: one at a time, so a key held down saves once."""
        if self._at_work:
            work.close()
            return
        self._at_work = True
        self.in_worker(self._done(work))

    async def _done(self, work: Coroutine[Any, Any, Any]) -> None:
        try:
            await work
        finally:
            self._at_work = False

    async def _told(self, work: Coroutine[Any, Any, Any]) -> None:
        try:
            await work
        except HeadlapError as error:
            self.say(str(error), Tone.STOP)
        except Exception as error:  # the one place where the unforeseen is caught
            if self.was_left and isinstance(error, NoMatches | NoScreen):
                return  # what it was to draw on went with the screen
            self.say(self.program.note_unforeseen(error), Tone.STOP)
