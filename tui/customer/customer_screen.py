"""A customer shown whole: who, how to reach them, every job, every paper, the money."""

from typing import ClassVar, cast

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.customer_record import CustomerRecord
from domain.errors import Refused
from domain.page_names import PageName
from domain.papers.held_paper import held_paper
from domain.tone import Tone
from tui.customer.customer_rows import (
    JobTitles,
    PaperTitles,
    happened_line,
    job_line,
    paper_line,
)
from tui.customer.who import Who
from tui.frame.commands import bindings
from tui.frame.safe_text import one_line
from tui.frame.screen import BaseScreen
from tui.papers.as_issued import paper_as_issued
from tui.papers.paper_screen import PaperScreen
from tui.papers.statement import statement_for
from tui.widgets.line_list import LineList

_TITLES = 5
"""Lines over the jobs and the papers."""
_HIGH, _LEAST = 32, 8
"""Lines of the window from which there is room for what happened, and so many for that."""


class CustomerScreen(BaseScreen):
    """Enter opens a job, or shows a paper as it was issued."""

    place: ClassVar[str] = "customer"
    title_words: ClassVar[str] = "customer"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "screen.move_cursor(-1)", "up", show=False),
        Binding("down", "screen.move_cursor(1)", "down", show=False),
        *cast("list[BindingType]", bindings("customer")),
    ]
    CSS = """
    CustomerScreen Who { margin: 0 2 1 2; }
    CustomerScreen .title { text-style: bold; height: 1; }
    CustomerScreen _Lists { height: 1fr; margin: 0 2; }
    CustomerScreen LineList { scrollbar-gutter: stable; }
    CustomerScreen #papers-title, CustomerScreen #happened-title { margin-top: 1; }
    CustomerScreen .nothing { color: $quiet; height: 1; display: none; }
    """

    def __init__(self, customer_id: int) -> None:
        super().__init__()
        self.customer_id = customer_id
        self._record: CustomerRecord | None = None

    @property
    def enquiry_of(self) -> int | None:
        """A new enquiry is theirs."""
        return self.customer_id

    def heading_words(self) -> str:
        """Return who it is."""
        return "" if self._record is None else one_line(self._record.customer.called)

    def body(self) -> list[Widget]:
        """Return who, then jobs and papers."""
        return [Who(), _Lists()]

    def on_mount(self) -> None:
        """The cursor is in the jobs."""
        self.query_one("#jobs", LineList).focus()

    async def reload(self) -> None:
        """Read the customer; one that was deleted with the last job is left."""
        try:
            record = await self.open_book.ask(lambda book: book.customer(self.customer_id))
        except Refused:
            self.leave()
            return
        self._record = record
        self.query_one(Who).record = record
        self.query_one("#jobs", LineList).show(len(record.jobs), self._draw_job)
        self.query_one("#papers", LineList).show(len(record.papers), self._draw_paper)
        for papers in self.query("#papers, PaperTitles"):
            papers.display = bool(record.papers)
        self.query_one(".nothing").display = not record.papers
        self.query_one("#happened", LineList).show(len(record.happened), self._draw_happened)
        self.query_one(_Lists).fit()
        self.refresh_heading()

    def action_open(self) -> None:
        """Open the job, or show the paper, under the cursor."""
        focused = self.focused
        if isinstance(focused, LineList):
            focused.action_choose()

    def action_edit(self) -> None:
        """Go to where their name is typed: the enquiry of the job below, else of their last."""
        if self._record is None:
            return
        stack = self.app.screen_stack
        below = stack[stack.index(self) - 1]
        theirs = [job.id for job in self._record.jobs]
        if isinstance(below, BaseScreen) and below.place == "job" and below.undo_of in theirs:
            self.dismiss()
            below.go_to(PageName.ENQUIRY, "name")
        else:
            self.program.open_job(theirs[0] or 0, PageName.ENQUIRY, "name")

    def action_held(self) -> None:
        """Show all that is held on them as a paper."""
        self.in_worker(self._held())

    def action_statement(self) -> None:
        """Show what they owe as a statement of account."""
        self.in_worker(self._statement())

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Open a job, or show a paper as it was issued."""
        event.stop()
        if self._record is None:
            return
        if event.line_list.id == "papers":
            job, document = self._record.papers[event.row]
            self.app.push_screen(PaperScreen(paper_as_issued(document, job.customer)))
        elif event.line_list.id == "happened":
            self._open_job(self._record.happened[event.row].job.id or 0)
        else:
            self._open_job(self._record.jobs[event.row].id or 0)

    def _open_job(self, job_id: int) -> None:
        """Open a job; the page it was come from is gone back to."""
        stack = self.app.screen_stack
        below = stack[stack.index(self) - 1]
        if isinstance(below, BaseScreen) and below.undo_of == job_id and below.place == "job":
            self.dismiss()
        else:
            self.program.open_job(job_id)

    async def _held(self) -> None:
        trader = await self.open_book.ask(lambda book: book.trader())
        if self._record is None:
            self.say("They are not read yet: try again.", Tone.QUIET)
            return
        self.app.push_screen(PaperScreen(held_paper(self._record, trader, self.open_book.today)))

    async def _statement(self) -> None:
        today = self.open_book.today
        paper = await self.open_book.ask(lambda book: statement_for(book, self.customer_id, today))
        self.app.push_screen(PaperScreen(paper))

    def _draw_job(self, row: int, width: int) -> Text:
        assert self._record is not None  # noqa: S101  drawn once it is read
        return job_line(self._record.jobs[row], width, self.palette)

    def _draw_paper(self, row: int, width: int) -> Text:
        assert self._record is not None  # noqa: S101  drawn once it is read
        return paper_line(*self._record.papers[row], width, self.open_book.today, self.palette)

    def _draw_happened(self, row: int, width: int) -> Text:
        assert self._record is not None  # noqa: S101  drawn once it is read
        return happened_line(self._record.happened[row], width, self.palette)


class _Lists(Vertical):
    def compose(self) -> ComposeResult:
        yield Static(Content("Jobs"), classes="title")
        yield JobTitles()
        yield LineList(id="jobs")
        yield Static(Content("Papers"), classes="title", id="papers-title")
        yield PaperTitles()
        yield LineList(id="papers")
        yield Static(Content("Nothing is invoiced yet."), classes="nothing")
        yield Static(Content("What happened"), classes="title", id="happened-title")
        yield LineList(id="happened")

    def on_resize(self) -> None:
        """Share the lines there are anew."""
        self.fit()

    def fit(self) -> None:
        """Jobs and papers take the lines they need, half each where that is too many.

        What happened takes the rest of a high window.
        """
        jobs, papers, happened = self.query(LineList)
        is_high = self.app.size.height >= _HIGH
        room = max(2, self.size.height - _TITLES - (_LEAST if is_high else 0))
        of_jobs = max(1, min(jobs.count, max(room - papers.count, room // 2)))
        of_papers = max(1, min(papers.count, room - of_jobs))
        jobs.styles.height = of_jobs
        papers.styles.height = of_papers if is_high else "1fr"
        for part in (happened, self.query_one("#happened-title")):
            part.display = is_high
