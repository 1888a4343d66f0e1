"""One job: its heading, its trail, the page in front, and what the next stage still wants."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import ClassVar, cast

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingsMap
from textual.dom import DOMNode
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import ContentSwitcher

from domain.checks.check import Part, Situation
from domain.errors import HeadlapError, Refused
from domain.page_names import PageName
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.frame.key_line import KeyLine
from tui.frame.message_line import MessageLine
from tui.job import stage_moves
from tui.job.job_heading import JobHeading
from tui.job.opened_for_one import OpenedForOne
from tui.job.page import JobPage
from tui.job.page_tabs import TABS, PageTabs
from tui.job.pages import make_page
from tui.job.still_needed import Missing, StillNeeded
from tui.widgets.form import Form
from tui.widgets.slip_words import not_saved_yet

_LOOK_S = 60  # between two looks at the calendar on the wall
_PAUSE_S = 0.2
"""Seconds without a key before what is missing is reckoned with what is typed."""


class JobScreen(OpenedForOne):
    """The job ``job_id``, opened at ``page`` or at what is to be done next."""

    place: ClassVar[str] = "job"
    title_words: ClassVar[str] = "a job"
    CSS = """
    JobScreen ContentSwitcher { height: 1fr; margin-top: 1; }
    JobScreen PageTabs { margin-top: 1; }
    JobScreen.-under-70 JobHeading > RoofPicture { display: none; }
    """

    def __init__(
        self,
        job_id: int,
        page: PageName | None = None,
        put_back: Mapping[str, str] | None = None,
        told: str = "",
        field: str = "",
        settled: Callable[[], bool] | None = None,
    ) -> None:
        """``put_back`` is what was typed into ``page`` once before and kept: it is typed again.

        ``told`` is said once the page stands; the cursor goes to ``field``, if it has such a one.
        Where it was opened for one thing it closes once that is ``settled``, and says so below.
        """
        super().__init__(settled)
        self._put_back, self._first_words, self._first_field = put_back, told, field
        self.undo_of = self.job_id = job_id
        self.situation: Situation | None = None
        self.opened_at, self._asked_to_leave = page, False
        self._asked: set[PageName] = set()
        self._refused = ""
        self._pause: Timer | None = None

    def compose(self) -> ComposeResult:
        """Heading, trail, page, what is missing, voice, keys; nothing is shown until it is read."""
        for part in (JobHeading(), PageTabs(), ContentSwitcher(id="pages"), StillNeeded()):
            part.display = False  # not laid out either: half of what opening took was that
            yield part.add_class("-unread", update=False)
        yield MessageLine()
        yield KeyLine()

    def on_mount(self) -> None:
        """Notice midnight where the screen is left open: no page goes on with yesterday's date."""
        self.set_interval(_LOOK_S, lambda: self.in_worker(self._keep_to_the_day()))

    async def reload(self) -> None:
        """Read the job; what was typed stays. One that was deleted since is left."""
        try:
            await self.reload_job()
        except Refused:
            if self.situation is None or self.unsaved:
                raise
            self.leave()

    async def reload_job(self, saved: Widget | None = None) -> None:
        """Read the job and show it everywhere; the page ``saved`` lets go of what was typed."""
        today = self.open_book.today
        situation = await self.open_book.ask(lambda book: book.situation(self.job_id, today))
        first, self.situation, self._refused = self.situation is None, situation, ""
        self.query_one(JobHeading).show(situation)
        self.query_one(PageTabs).stage = situation.job.stage
        self.query_one(StillNeeded).show(stage_moves.what_is_missing(situation))
        self._fold_what_is_missing()
        for page in self.query(JobPage):
            if page.is_mounted:  # one just turned to is shown the record once its parts are there
                page.show(situation, anew=page is saved)
        if first:
            await self._show_first(self.opened_at or stage_moves.where_to_begin(situation))

    async def turn_to(self, name: PageName, *, enter: bool = True, at: Part | None = None) -> None:
        """Bring a page to the front; ``enter`` puts the cursor into it, ``at`` a part of it."""
        if name is PageName.TRADER:
            self.program.action_go("trader")
            return
        await self._keep_to_the_day()
        switcher = self.query_one(ContentSwitcher)
        if not switcher.query(f"#{name.value}"):
            await self._mount_page(name)
        if switcher.current != name.value:
            self.query_one(MessageLine).hush_unless_lasting()
        switcher.current = name.value
        if self._refused:
            self._say_what_is_missing()
        self.query_one(PageTabs).shown = name
        self._fold_what_is_missing()
        if enter:
            self.front.begin()
        if at is not None:
            self.front.begin_at(at)

    @property
    def front(self) -> JobPage:
        """The page in front."""
        switcher = self.query_one(ContentSwitcher)
        return switcher.query_one(f"#{switcher.current}", JobPage)

    @property
    def called(self) -> str:
        """The reference and place of the job; empty until it is read."""
        job = self.situation.job if self.situation is not None else None
        return f"{job.ref} {job.site.place}".rstrip() if job is not None else ""

    @property
    def keys_left_out(self) -> frozenset[str]:
        """Commands that have nothing to show yet, and no place in the line of keys."""
        surveyed = self.situation is not None and self.situation.job.survey is not None
        of_page = self.front.keys_left_out() if self._is_ready() else frozenset[str]()
        typing_it = self._is_ready() and self.front.page is PageName.SURVEY
        return of_page if surveyed or typing_it else of_page | {"drawing", "site_sheet"}

    @property
    def typed_on(self) -> list[tuple[JobPage, str]]:
        """The pages with something typed that is not recorded, each with its name."""
        return [(page, TABS[page.page][0]) for page in self.query(JobPage) if page.dirty]

    @property
    def unsaved(self) -> list[str]:
        """The names of the pages with something typed that is not recorded."""
        return [name for _, name in self.typed_on]

    def namespaces(self) -> list[tuple[str, DOMNode]]:
        """The commands of the page in front, then those of the job."""
        own = [(self.front.place, cast("DOMNode", self.front))] if self._is_ready() else []
        return [*own, *super().namespaces()]

    @property
    def undo_waits(self) -> str:
        """What the page in front says instead of an undo."""
        return self.front.undo_waits if self._is_ready() else ""

    def may_leave(self) -> bool:
        """Whether nothing would be lost; with something typed, only when asked twice."""
        if not self.unsaved or self._asked_to_leave:
            return True
        self._asked_to_leave = True
        self.in_worker(self._show_unsaved())
        return False

    async def _show_unsaved(self) -> None:
        """Say what is unsaved, on the page that the key to save it saves."""
        pages = [page.page for page, _ in self.typed_on]
        if pages and self.front.page not in pages:
            await self.turn_to(pages[0])
        words = " and ".join(self.unsaved)
        self.say(
            f"Unsaved changes in {words}. Leave again to lose them, or "
            f"{key_of('job', 'save')} to save this page.",
            Tone.CAUTION,
        )

    def action_back(self) -> None:
        """Go back to the screen below."""
        if self.may_leave():
            self.dismiss()

    def action_page(self, by: int) -> None:
        """Turn to the next page or the one before."""
        self.in_worker(self.turn_to(self.query_one(PageTabs).neighbour(by)))

    def action_save(self) -> None:
        """Save the page in front."""
        if self._is_ready():
            self.save_in_worker(self._save())

    def save_first(self) -> None:
        """Save it by a key that is no answer to what was asked before: it is asked again."""
        if self._is_ready():
            self._asked.discard(self.front.page)
        self.action_save()

    def action_notes(self) -> None:
        """Ask for a note, above those there are."""
        from tui.job.notes_dialog import NotesDialog

        if self.situation is not None:
            self.app.push_screen(NotesDialog(self, self.situation, self.called))

    def action_next_stage(self) -> None:
        """Mark the job as its next stage."""
        if self.situation is not None and self._all_saved():
            self.save_in_worker(self._call_next())

    def action_stage_back(self) -> None:
        """A stage back, with a reason; an ended job is taken up again."""
        if self.situation is not None:
            stage_moves.go_back_a_stage(self, self.situation.job)

    def action_end(self) -> None:
        """Record that the job was declined or called off."""
        if self.situation is not None:
            stage_moves.end_job(self, self.situation)

    def on_key(self, event: events.Key) -> None:
        """Let no letter lead away from a page that is typed into, wherever on it the cursor stands.

        On a heading, or beside the fields, what was meant for a field would be a command.
        """
        if (event.character or "").isalnum() and self._is_ready() and self.front.forms:
            event.stop()
            event.prevent_default()

    def on_page_tabs_turned(self, event: PageTabs.Turned) -> None:
        """Turn to the page that was chosen in the tabs."""
        event.stop()
        self.in_worker(self.turn_to(event.page, enter=event.enter))

    def on_still_needed_asked(self, event: StillNeeded.Asked) -> None:
        """Turn to the page that settles what is still needed, at its part of it."""
        event.stop()
        self.in_worker(self.turn_to(event.page, at=event.part))

    def on_form_changed(self, event: Form.Changed) -> None:
        """Forget that Escape was pressed once: something was typed again."""
        event.stop()
        self.query_one(MessageLine).hush()
        self.typed_again()

    def typed_again(self) -> None:
        """Say what is missing with what is typed, once typing pauses; leaving is asked anew."""
        self._asked_to_leave = False
        if self._pause is not None:
            self._pause.stop()
        self._pause = self.set_timer(_PAUSE_S, self._say_what_is_missing)

    def _say_what_is_missing(self) -> None:
        """As far as what is typed can be read; else what was said stands."""
        if self.situation is None or not self._is_ready():
            return
        needed = self.query_one(StillNeeded)
        try:
            job = self.front.as_typed() if self.front.dirty else self.situation.job
        except Refused as error:
            if not (needed.lists or self._refused):  # that nothing is missing is not so
                words = f"{_called(self.front, error)} cannot be read yet."
                needed.show(Missing(words, Tone.QUIET))
            return
        except HeadlapError:
            return
        self._refused = ""
        as_typed = replace(self.situation, job=job)
        needed.show(stage_moves.what_is_missing(as_typed, typing=self.front.dirty))

    @property
    def _binding_chain(self) -> list[tuple[DOMNode, BindingsMap]]:
        """The keys of the page in front also where the cursor is beside it, in what is missing."""
        chain = super()._binding_chain
        if self._is_ready() and all(node is not self.front for node, _ in chain):
            at = next((at for at, (node, _) in enumerate(chain) if node is self), len(chain))
            chain.insert(at, (self.front, self.front._bindings.copy()))
        return chain

    def on_resize(self, _event: events.Resize) -> None:
        """What is missing takes the lines there are, and every page stands as they ask."""
        self.query_one(StillNeeded).fit()
        for page in self.query(JobPage):
            page.fit()

    async def _show_first(self, name: PageName) -> None:
        """Bring on the page that the job opens at, whole at once: no other is seen before it."""
        with self.app.batch_update():
            await self.turn_to(name, enter=False)
            for part in self.query(".-unread"):
                part.display = True
            if self._put_back is not None:
                self.front.put_back(self._put_back)
        self.front.begin()
        self._enter(self._first_field)
        if self._first_words:
            self.say(self._first_words, Tone.QUIET, lasting=True)

    def go_to(self, page: PageName, field: str) -> None:
        """Show a page, the cursor in a field of it."""
        self.in_worker(self._go_to(page, field))

    async def _go_to(self, page: PageName, field: str) -> None:
        await self.turn_to(page)
        self._enter(field)

    def _enter(self, field: str) -> None:
        """Put the cursor into a field of the page in front, if it has it."""
        for form in self.front.forms:
            if field in form.labels:
                form.focus_first(field)

    async def _mount_page(self, name: PageName) -> None:
        """Make a page and fill it before it is first painted."""
        page = make_page(name)
        page.take_classes(update=False)  # styled once, as it is mounted
        with self.app.batch_update():
            await self.query_one(ContentSwitcher).mount(page)
            if self.situation is not None:
                page.show(self.situation)

    async def _call_next(self) -> None:
        await self._keep_to_the_day()
        if self.situation is not None:
            await stage_moves.move_to_next_stage(self, self.situation)

    async def _keep_to_the_day(self) -> None:
        """Read the job again once midnight has passed: pages fill in the day, checks go by it."""
        if self.situation is not None and self.situation.today != self.open_book.today:
            await self.reload_job()

    def _fold_what_is_missing(self) -> None:
        """Show all that is missing on the pages it is settled on, elsewhere a line that opens."""
        if self.situation is not None and self._is_ready():
            in_full = stage_moves.has_the_list(self.situation, self.front.page)
            self.query_one(StillNeeded).unfold(in_full)

    def _is_ready(self) -> bool:
        return self.query_one(ContentSwitcher).current is not None

    def _all_saved(self) -> bool:
        """Tell whether nothing is only typed; a stage is decided by what is recorded."""
        if self._refused and self.front.dirty:
            self.say(self._refused, Tone.STOP)
        elif self.unsaved:
            self.say(f"Save what you typed under {' and '.join(self.unsaved)} first.", Tone.CAUTION)
        return not self.unsaved

    async def _save(self) -> None:
        self._asked_to_leave = False
        page = self.front
        over = stage_moves.is_over(page.job, page.page) if page.dirty else ""
        if over and page.page not in self._asked:
            self._asked.add(page.page)
            self.say(over, Tone.CAUTION)
            return
        if question := page.asks_first():
            self.say(not_saved_yet(question), Tone.CAUTION)
            return
        try:
            await page.save()
        except Refused as error:
            self._refused = page.refuse(error)
            self.say(self._refused, Tone.STOP)
            words = f"Not saved: {_called(page, error)} first."
            self.query_one(StillNeeded).show(Missing(words, Tone.STOP))


def _called(page: JobPage, error: Refused) -> str:
    """What the field that is refused is called on its page."""
    return page.labels.get(error.field, error.words)
