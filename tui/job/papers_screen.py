"""The papers of a job in one list: what was agreed, for the work, what was issued, one's own."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from rich.text import Text
from textual.widget import Widget

from domain.checks.check import Situation
from domain.days.calendar import show_day
from domain.errors import HeadlapError
from domain.estimate.supplies import PricesAndStock
from domain.job import Document
from domain.money import show_money
from domain.page_names import PageName
from domain.papers.blocks import Paper
from domain.papers.shared_parts import sentence
from domain.tone import Tone
from tui.frame.safe_text import fitted, one_line
from tui.frame.screen import BaseScreen
from tui.papers.as_issued import paper_as_issued
from tui.papers.job_papers import paper_of
from tui.papers.paper_screen import PaperScreen
from tui.widgets.line_list import LineList

_CUSTOMERS = {
    "quote": "Quote",
    "confirmation": "What we agreed",
    "extra": "Extra work, to sign",
    "waste-note": "Waste transfer note",
    "guarantee": "Guarantee",
}
"""Those made from the record, by their names; asked at once whether there is one yet."""
_OWN = {
    "takeoff": "Take-off",
    "site-sheet": "Site sheet",
    "load-list": "Load list",
    "materials": "Materials and hours",
}
"""The trader's own, by their names; counted out when they are chosen."""
_BEGINS = {PageName.STRIP: "extra", PageName.LAYING: "waste-note", PageName.SIGN_OFF: "guarantee"}
"""The paper that the cursor begins at, by the page that was come from."""
_NAME = 24  # cells


@dataclass(frozen=True, slots=True)
class _Row:
    """A paper that there is or that can be asked for, or why there is none yet."""

    name: str
    kind: str = ""
    """A key of :data:`tui.papers.job_papers.MAKERS`; empty for what was issued."""
    told: str = ""
    paper: Paper | None = None

    @property
    def is_there(self) -> bool:
        """Whether it can be shown."""
        return self.paper is not None or self.kind in _OWN


class PapersScreen(BaseScreen):
    """A line a paper; one that is not there yet says why. Enter or a click shows one."""

    place: ClassVar[str] = "papers"
    title_words: ClassVar[str] = "papers"
    CSS = "PapersScreen LineList { margin: 0 2; }"

    def __init__(self, situation: Situation, page: PageName) -> None:
        """``page`` is the one that was come from."""
        super().__init__()
        self._situation, self._page = situation, page
        self._rows = (*_of_the_customer(situation), *_issued(situation), *_own())

    def heading_words(self) -> str:
        """Return which job it is of."""
        job = self._situation.job
        return one_line(f"{job.ref} {job.site.place}")

    def body(self) -> list[Widget]:
        """Return the list."""
        return [LineList()]

    def on_mount(self) -> None:
        """Put the cursor on the paper that goes with the page."""
        lines, begins = self.query_one(LineList), _BEGINS.get(self._page)
        lines.show(len(self._rows), self._draw)
        lines.cursor = next((at for at, row in enumerate(self._rows) if row.kind == begins), 0)
        lines.focus()

    def action_open(self) -> None:
        """Show the paper under the cursor."""
        self.query_one(LineList).action_choose()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Show the paper, or say why there is none yet."""
        event.stop()
        row = self._rows[event.row]
        if row.paper is not None:
            self.app.push_screen(PaperScreen(row.paper))
        elif row.kind in _OWN:
            self.in_worker(self._counted_out(row.kind))
        else:
            self.say(row.told, Tone.QUIET)

    async def _counted_out(self, kind: str) -> None:
        job, trader = self._situation.job, self._situation.trader
        today = self.open_book.today
        paper = await self.open_book.ask(
            lambda book: paper_of(kind, job, trader, book.sources(job.id, today))
        )
        self.app.push_screen(PaperScreen(paper))

    def _draw(self, row: int, width: int) -> Text:
        shown, p, room = self._rows[row], self.palette, max(0, width - _NAME)
        style = f"bold {p.ink}" if shown.is_there else p.quiet
        line = Text(end="").append(f"{shown.name:<{_NAME}}", style=style)
        if not shown.is_there:
            why = shown.told.removeprefix(f"Job {self._situation.job.ref} ").removeprefix("has ")
            return line.append(fitted(why.rstrip("."), room), style=p.quiet)
        return line.append(fitted(shown.told or "ready", room), style=p.quiet)


def _of_the_customer(situation: Situation) -> Iterator[_Row]:
    nothing = PricesAndStock((), (), situation.today)  # none of them asks for a price
    for kind, name in _CUSTOMERS.items():
        try:
            paper = paper_of(kind, situation.job, situation.trader, nothing)
        except HeadlapError as error:
            yield _Row(name, kind, str(error))
        else:
            yield _Row(name, kind, paper.not_yet, paper)


def _issued(situation: Situation) -> Iterator[_Row]:
    job = situation.job
    for document in job.documents:
        yield _Row(
            _name_of(document), "", _about(document), paper_as_issued(document, job.customer)
        )


def _name_of(document: Document) -> str:
    return f"{sentence(document.kind)} {document.label}"


def _about(document: Document) -> str:
    return f"{show_day(document.issued_on)} {document.issued_on.year}, {show_money(document.gross)}"


def _own() -> Iterator[_Row]:
    for kind, name in _OWN.items():
        yield _Row(name, kind, "your own")
