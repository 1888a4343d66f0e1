"""What every page of a job has in common."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any, ClassVar, TypeVar, cast

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.widget import Widget

from domain.checks.check import Part, Situation
from domain.errors import Refused
from domain.job import Job, Stage
from domain.page_names import PageName
from domain.tone import Tone
from tui.frame.commands import bindings
from tui.frame.screen import NOTHING_CHANGED
from tui.frame.theme import PALETTES, Palette
from tui.job.reminders_shown import Reminders
from tui.widgets.form import Form

if TYPE_CHECKING:
    from domain.drawing.drawing_parts import Drawing
    from storage.book import Book
    from tui.frame.open_book import OpenBook
    from tui.job.page_host import PageHost

T = TypeVar("T")

_WIDE = 100
"""Columns of the window from which parts of a page stand side by side."""
_HIGH = 32
"""Lines of the window from which some are left empty."""


class JobPage(Vertical):
    """One page of a job. Subclasses give ``page``, :meth:`body`, :meth:`fill`, :meth:`save`.

    A page is mounted when it is first looked at. It keeps what was typed while other pages are
    looked at and when the record is read again; ``place`` names its own commands.
    """

    page: ClassVar[PageName]
    """Which page it is; also its widget id."""
    place: ClassVar[str] = ""
    """The place of its own commands in :mod:`tui.frame.command_table`, if it has any."""
    reminds_of: ClassVar[Stage | None] = None
    """The stage whose reminders stand on it: the work of that stage is done from this page."""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "screen.move_cursor(-1)", "up", show=False),
        Binding("down", "screen.move_cursor(1)", "down", show=False),
    ]
    DEFAULT_CSS = "JobPage { height: 1fr; padding: 0 2; }"

    def __init_subclass__(cls, **kwargs: Any) -> None:
        """Bind the commands declared for the page's place."""
        if "BINDINGS" not in cls.__dict__ and cls.__dict__.get("place"):
            cls.BINDINGS = cast("list[BindingType]", bindings(cls.place))
        super().__init_subclass__(**kwargs)

    def __init__(self) -> None:
        super().__init__(id=self.page.value)
        self._situation: Situation | None = None
        self._base: Job | None = None

    def compose(self) -> ComposeResult:
        """Yield the widgets of the page, and the reminders of its stage."""
        if self.reminds_of is not None:
            yield Reminders(self.reminds_of)
        yield from self.body()

    def body(self) -> Iterable[Widget]:
        """Yield the widgets of the page."""
        raise NotImplementedError

    def fill(self, situation: Situation) -> None:
        """Put what is recorded into the widgets."""
        raise NotImplementedError

    def follow(self, situation: Situation) -> None:
        """Show what goes with the record but is not typed: asked even while typing is kept."""

    def part(self, job: Job) -> object:
        """Return the part of the record that this page writes; by it a change is noticed."""
        return job

    def as_typed(self) -> Job:
        """Return the job with what stands in the page as if it were saved.

        Raises :class:`domain.errors.HeadlapError` while that cannot be read.
        """
        return self.job

    async def save(self) -> None:
        """Write what was typed. Raises :class:`domain.errors.HeadlapError`; then typing stays."""

    @property
    def undo_waits(self) -> str:
        """What is said instead of an undo, while it would not be of what the eye is on."""
        return ""

    def asks_first(self) -> str:
        """Return what is to be asked before it is saved, each thing once; nothing if it can be."""
        today = self.open_book.today
        asked = [form.asks_about(form.far_dates(today)) for form in self.forms]
        return " ".join(filter(None, asked))

    def action_reminders(self) -> None:
        """Unfold the reminders of the work, or fold them."""
        for reminders in self.query(Reminders):
            reminders.fold()

    def action_papers(self) -> None:
        """Show every paper of the job."""
        from tui.job.papers_screen import PapersScreen

        self.app.push_screen(PapersScreen(self.situation, self.page))

    @property
    def forms(self) -> list[Form]:
        """What is typed into. Asked at every key: a query would look at every row of them."""
        return list(_forms_in(self))

    @property
    def dirty(self) -> bool:
        """Whether anything was typed that is not recorded."""
        return any(form.dirty for form in self.forms)

    @property
    def typed(self) -> dict[str, str]:
        """What was typed and is not recorded, raw, by field: kept in case the window goes."""
        return {key: text for form in self.forms for key, text in form.typed.items()}

    @property
    def labels(self) -> dict[str, str]:
        """What each part of :attr:`typed` is called."""
        return {key: label for form in self.forms for key, label in form.labels.items()}

    def put_back(self, typed: Mapping[str, str]) -> None:
        """Type again what :attr:`typed` gave."""
        for form in self.forms:
            form.put_back(typed)

    @property
    def typed_roof(self) -> "Drawing | None":
        """The roof as typed on this page and not recorded; None if it is not, or not yet."""
        return None

    def on_mount(self) -> None:
        """Stand as the window asks from the first."""
        self.fit()

    def fit(self) -> None:
        """Follow the window.

        The job's screen asks for it: a page hears of a new size itself only while it is in front.
        """
        self.take_classes()

    def take_classes(self, *, update: bool = True) -> None:
        """``-narrow`` and ``-low`` where the window has few columns or lines.

        ``update`` is whether what stands on the page is styled again.
        """
        self.set_class(self.app.size.width < _WIDE, "-narrow", update=update)
        self.set_class(self.app.size.height < _HIGH, "-low", update=update)

    def keys_left_out(self) -> frozenset[str]:
        """Commands of the page that do nothing now, and have no place in the line of keys."""
        return frozenset()

    def begin(self) -> None:
        """Put the cursor where work begins: asked when the page is turned to.

        What to mind stands above that, and is not scrolled out by it.
        """
        for scrolled in self.query(VerticalScroll):
            scrolled.scroll_home(animate=False)
        for widget in self.query("*"):
            if widget.focusable and _is_shown(widget):
                widget.focus(scroll_visible=False)
                return

    def begin_at(self, part: Part) -> None:
        """Put the cursor where a part of what is missing is settled, if it has its own place."""

    def refuse(self, error: Refused) -> str:
        """Go to the field that is refused, and return the sentence that calls it by its label."""
        for form in self.forms:
            if form.holds(error):
                return form.refuse(error)
        return str(error)

    def show(self, situation: Situation, *, anew: bool = False) -> None:
        """Show the record as it is now; what was typed stays unless it is shown ``anew``.

        While typing is kept, saving goes on from the record as it was when typing began, unless
        nothing that this page writes has changed since: so nothing is overwritten unseen.
        """
        keep = self._base is not None and self.dirty and not anew
        self._situation = situation
        if not keep:
            self._base = situation.job
            self.fill(situation)
        elif self._base is not None and self.part(self._base) == self.part(situation.job):
            self._base = situation.job
        self.follow(situation)

    @property
    def situation(self) -> Situation:
        """The record as it was last read, with what stands round it."""
        assert self._situation is not None  # noqa: S101  shown before it is used
        return self._situation

    @property
    def job(self) -> Job:
        """The job to save from: as it was read when what stands in the page was filled in."""
        assert self._base is not None  # noqa: S101  shown before it is used
        return self._base

    @property
    def open_book(self) -> "OpenBook":
        """The open book."""
        return self.job_screen.open_book

    @property
    def palette(self) -> Palette:
        """The colours in force."""
        return PALETTES[self.app.theme]

    @property
    def job_screen(self) -> "PageHost":
        """The screen it stands on: to say something, to ask the book, to turn to a page."""
        return cast("PageHost", self.screen)

    async def act(self, question: Callable[["Book"], T], words: str, *, lasting: bool = False) -> T:
        """Ask the book to do something, read the job again, and say ``words``, perhaps lasting.

        What else was typed in the page stays; to save the page itself use :meth:`record`.
        """
        return await self._done(question, words, None, lasting=lasting)

    async def record(self, question: Callable[["Book"], T], words: str) -> T:
        """As :meth:`act`, but it was this page that was saved: show it as it is recorded now."""
        return await self._done(question, words, self)

    async def _done(
        self,
        question: Callable[["Book"], T],
        words: str,
        saved: Widget | None,
        *,
        lasting: bool = False,
    ) -> T:
        """Ask, read again and say so; where the job was left as it is, nothing was saved."""
        before = self.situation.job.version
        answer = await self.open_book.ask(question)
        await self.job_screen.reload_job(saved=saved)
        if self.situation.job.version == before:
            self.job_screen.say(NOTHING_CHANGED, Tone.QUIET)
        else:
            await self.job_screen.say_saved(words, lasting=lasting)
        return answer


def _forms_in(widget: Widget) -> Iterator[Form]:
    for child in widget.children:
        if isinstance(child, Form):
            yield child
        else:
            yield from _forms_in(child)


def _is_shown(widget: Widget) -> bool:
    """Tell whether neither it nor what holds it is hidden; the framework asks of it alone."""
    return all(node.display for node in widget.ancestors_with_self if isinstance(node, Widget))
