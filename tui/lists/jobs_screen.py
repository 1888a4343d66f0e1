"""All jobs, by stage with counts, found by typing a part of customer, place or reference."""

import asyncio
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from domain.errors import HeadlapError, Refused
from domain.job.stage import Ending, Stage
from domain.tone import Tone
from storage import week_and_jobs
from tui.frame.screen import BaseScreen
from tui.lists.job_line import JobHeadings, job_line
from tui.lists.nothing_found import NothingFound
from tui.lists.rough_line import RoughLine
from tui.lists.stage_filter import StageFilter
from tui.widgets.line_list import LineList
from tui.widgets.safe_input import SafeInput

if TYPE_CHECKING:
    from storage.week_and_jobs import FoundJobs

Group = Stage | Ending | None

GROUPS: tuple[Group, ...] = (None, *Stage, *Ending)

_AT_ONCE_S = 0.03
"""Seconds that a letter may wait to be painted: shorter than anybody sees."""

_ASKED = "customer, place or reference, or a size: 8x6 pent"


class JobsScreen(BaseScreen):
    """The list; it draws only the rows on screen, so a long history costs nothing."""

    place: ClassVar[str] = "jobs"
    title_words: ClassVar[str] = "jobs"
    CSS = """
    JobsScreen #find-row { height: 1; margin: 0 2 1 2; }
    JobsScreen #find-row Static { width: 8; color: $quiet; }
    JobsScreen #find { height: 1; border: none; padding: 0 1; background: $panel; width: 1fr; }
    JobsScreen #find:focus { background: $line; }
    JobsScreen StageFilter { margin: 0 2 1 2; }
    JobsScreen LineList { margin: 0 2; scrollbar-gutter: stable; }
    """

    def __init__(self, *, finding: bool = False) -> None:
        super().__init__()
        self._finding = finding
        self._found: FoundJobs | tuple[()] = ()
        self._behind = self._seeking = self._just_read = self._begins = False
        self._then: Callable[[], None] | None = None

    def body(self) -> list[Widget]:
        """Return the search field, the stages, and the list of jobs."""
        return [
            _FindRow(id="find-row"),
            RoughLine(),
            StageFilter(tuple(_name(g) for g in GROUPS)),
            JobHeadings(),
            LineList(id="lines"),
            NothingFound(),
        ]

    def on_mount(self) -> None:
        """Begin as it was asked for."""
        self._begin()
        self.watch(self.query_one("#find", Input), "value", self._typed, init=False)

    def begin_again(self, *, finding: bool) -> None:
        """List all jobs from the newest on, as if it was never left."""
        self._finding = finding
        if self.is_mounted:
            self._begin()

    def _begin(self) -> None:
        """Put the cursor into the list, or where words are typed if that was asked for.

        The newest jobs are read before anything is painted: that takes less than to paint it twice.
        """
        lines = self.query_one(LineList)
        self._begins = True
        with self.prevent(StageFilter.Changed):
            self.query_one("#find", Input).value = ""
            self.query_one(StageFilter).chosen = 0
        self._begins = False
        self.query_one(RoughLine).look_at("")
        lines.cursor = 0
        lines.scroll_home(animate=False, immediate=True)
        self.set_focus(self.query_one(Input if self._finding else LineList))
        self.attempt(lambda: self._show("", _found(self.open_book.path, "", None, 0)))
        self._just_read = True

    async def reload(self) -> None:
        """Read the list again: what was done to a job may have moved it."""
        if self._just_read:  # it comes to the front for the first time
            self._just_read = False
        else:
            self._seek()

    def action_find(self) -> None:
        """Put the cursor into the search field; the next letter begins another search."""
        find = self.query_one("#find", Input)
        find.focus()
        find.action_select_all()

    def action_back(self) -> None:
        """First the words go, and the cursor stays; then to the list, then back to the week."""
        find = self.query_one("#find", Input)
        if find.value:
            find.value = ""
        elif find.has_focus:
            self.query_one(LineList).focus()
        else:
            super().action_back()

    @property
    def new_enquiry(self) -> Mapping[str, str]:
        """A new enquiry begins with the size that was typed, if one was."""
        size = self.query_one(RoughLine).size_typed
        return {"nominal": size} if size else {}

    def action_next_group(self) -> None:
        """Show the jobs of the next stage."""
        self.query_one(StageFilter).step(1)

    def action_previous_group(self) -> None:
        """Show the jobs of the stage before."""
        self.query_one(StageFilter).step(-1)

    def action_open(self) -> None:
        """Open the job under the cursor."""
        self.query_one(LineList).action_choose()

    def action_customer(self) -> None:
        """Show the customer of the job under the cursor, once what is typed is found."""
        self._once_found(lambda: self.in_worker(self._show_customer()))

    def _typed(self, words: str) -> None:
        """Search as it is typed, before the letter itself is painted; what is a size is priced."""
        if not self._begins:
            self.query_one(RoughLine).look_at(words)
            self._seek()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Enter goes from the words to what was found; the only one found opens.

        Where none is, it goes on to those of other stages, or to the nearest words that find one.
        """
        event.stop()
        self.query_one(LineList).focus()
        self._once_found(self._go_to_found)

    def on_stage_filter_changed(self, event: StageFilter.Changed) -> None:
        """Show the jobs of the stage that was chosen."""
        event.stop()
        self._seek()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Open it; what is typed just now is looked for first."""
        event.stop()
        if self._seeking:
            self._once_found(self.action_open)
        else:
            found = self._found
            self.attempt(lambda: self.program.open_job(found[event.row].id))

    async def _show_customer(self) -> None:
        from tui.customer.customer_screen import CustomerScreen

        row, found = self.query_one(LineList).cursor, self._found
        if row < len(found):
            job = await self.open_book.ask(lambda book: book.job(found[row].id))
            if job.customer.id is not None:
                self.app.push_screen(CustomerScreen(job.customer.id))

    def _go_to_found(self) -> None:
        find, stages = self.query_one("#find", Input), self.query_one(StageFilter)
        if self._found:
            if len(self._found) == 1:
                self.action_open()
            return
        nearest = self.query_one(NothingFound).nearest
        if any(stages.counts):
            self._then = self._go_to_found  # called once they are shown
            stages.chosen = 0
        else:
            find.focus()
            find.value = nearest or find.value
            find.cursor_position = len(find.value)

    def _once_found(self, then: Callable[[], None]) -> None:
        """Do something with the list, once it shows what the words find."""
        if self._seeking:
            self._then = then
        else:
            then()

    def _seek(self) -> None:
        """Have the jobs looked for, away from the keys and one search at a time."""
        self._behind = True
        if not self._seeking:
            self._seeking = True
            self.in_background(self._sought())

    async def _sought(self) -> None:
        """Search until the newest words are found; what older ones found is not shown."""
        try:
            while self._behind and not self.was_left:
                self._behind = False
                words, group = self._wanted()
                top = self.query_one(LineList).scroll_offset.y
                searched = asyncio.to_thread(_found, self.open_book.path, words, group, top)
                found = await self._painted_with(asyncio.create_task(searched))
                if not (self._behind or self.was_left):
                    self._show(words, found)
        finally:
            self._seeking = False
        then, self._then = self._then, None
        if then is not None and not self.was_left:
            then()

    async def _painted_with(self, search: "asyncio.Task[FoundJobs]") -> "FoundJobs":
        """Wait for a search; what is typed is painted with what it finds, unless that takes long.

        Painted beforehand, it would hold up the search and be laid out twice.
        """
        with self.app.batch_update():
            await asyncio.wait({search}, timeout=_AT_ONCE_S)
        self.check_idle()
        return await search

    def _wanted(self) -> tuple[str, Group]:
        return self.query_one("#find", Input).value, GROUPS[self.query_one(StageFilter).chosen]

    def _show(self, words: str, found: "FoundJobs") -> None:
        whole, counts = sum(found.counts.values()), found.counts
        self.query_one(StageFilter).counts = (whole, *(counts.get(_name(g), 0) for g in GROUPS[1:]))
        self._found = found
        self.query_one(LineList).show(len(found), lambda row, width: self._draw(found, row, width))
        is_size = bool(self.query_one(RoughLine).size_typed)
        self.query_one(NothingFound).show(words, len(found), whole - len(found), is_size=is_size)

    def _draw(self, found: "FoundJobs", row: int, width: int) -> Text:
        """A job's line, read when it is first on screen; blank if that is refused."""
        try:
            job = found[row]
        except Refused:  # it was deleted since: the list no longer is as it stands
            self._seek()
            return Text("", end="")
        except HeadlapError as error:
            self.say(str(error), Tone.STOP)
            return Text("", end="")
        return job_line(job, width, self.open_book.today, self.palette)


class _FindRow(Horizontal):
    def compose(self) -> ComposeResult:
        yield Static(Content("Find"))
        yield SafeInput(placeholder=_ASKED, id="find", select_on_focus=False)


def _found(path: Path, words: str, group: Group, top: int) -> "FoundJobs":
    """The jobs that the words find, with the line at the top of the screen and others read."""
    found = week_and_jobs.find_jobs(path, words, group)
    if found:
        found[min(top, len(found) - 1)]
    return found


def _name(group: Group) -> str:
    return "all" if group is None else group.value
