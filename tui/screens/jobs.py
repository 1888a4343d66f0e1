"""All jobs, by stage with counts, found by typing a part of customer, place or reference."""

from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from domain.days.calendar import show_day
from domain.job.job import Ending, Stage
from domain.money import show_money
from storage import glance
from tui.roof_cells import stage_cells
from tui.safe_text import fitted
from tui.screens.base import BaseScreen
from tui.widgets.groups import Groups
from tui.widgets.line_list import LineList

if TYPE_CHECKING:
    from storage.glance import JobLine

Group = Stage | Ending | None

GROUPS: tuple[Group, ...] = (None, *Stage, *Ending)


class JobsScreen(BaseScreen):
    """The list; it draws only the rows on screen, so a long history costs nothing."""

    place: ClassVar[str] = "jobs"
    title_words: ClassVar[str] = "jobs"
    CSS = """
    JobsScreen #find-row { height: 1; margin: 0 2 1 2; }
    JobsScreen #find-row Static { width: 8; color: $quiet; }
    JobsScreen #find { height: 1; border: none; padding: 0 1; background: $panel; width: 1fr; }
    JobsScreen #find:focus { background: $line; }
    JobsScreen Groups { margin: 0 2 1 2; }
    JobsScreen LineList { margin: 0 2; }
    JobsScreen #none { margin: 0 2; color: $quiet; display: none; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._lines: list[JobLine] = []

    def body(self) -> list[Widget]:
        """Find, groups, the list."""
        return [
            _FindRow(id="find-row"),
            Groups(tuple(_name(g) for g in GROUPS)),
            LineList(id="lines"),
            Static("", id="none"),
        ]

    def on_mount(self) -> None:
        """The cursor is in the list; a slash goes to the words."""
        self.attempt(self._look)
        self.query_one(LineList).focus()

    async def look_again(self) -> None:
        """What was done to a job may have moved it."""
        self._look()

    def action_find(self) -> None:
        """Type to find."""
        self.query_one("#find", Input).focus()

    def action_back(self) -> None:
        """From the words to the list; with words, without them; then back to the week."""
        find = self.query_one("#find", Input)
        if find.has_focus or find.value:
            find.value = ""
            self.query_one(LineList).focus()
        else:
            super().action_back()

    def action_next_group(self) -> None:
        """The next stage."""
        self.query_one(Groups).step(1)

    def action_previous_group(self) -> None:
        """The stage before."""
        self.query_one(Groups).step(-1)

    def action_open(self) -> None:
        """Open the job under the cursor."""
        self.query_one(LineList).action_choose()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Search as it is typed."""
        event.stop()
        self.attempt(self._look)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Enter goes from the words to what was found; the only one found opens."""
        event.stop()
        self.query_one(LineList).focus()
        if len(self._lines) == 1:
            self.action_open()

    def on_groups_changed(self, event: Groups.Changed) -> None:
        """Another stage."""
        event.stop()
        self.attempt(self._look)

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Open it."""
        event.stop()
        self.head.open_job(self._lines[event.row].id)

    def _look(self) -> None:
        groups, words = self.query_one(Groups), self.query_one("#find", Input).value
        counts = glance.count_jobs(self.desk.path, words)
        groups.counts = (sum(counts.values()), *(counts.get(_name(g), 0) for g in GROUPS[1:]))
        self._lines = glance.find_jobs(self.desk.path, words, GROUPS[groups.chosen])
        self.query_one(LineList).show(len(self._lines), self._draw)
        none = self.query_one("#none", Static)
        none.display = not self._lines
        none.update(
            Content("No job with these words." if words else "No job here yet: n begins one.")
        )

    def _draw(self, row: int, width: int) -> Text:
        job, p = self._lines[row], self.palette
        name = max(10, (width - 48) // 2)
        line = Text(f"{job.ref}  ", style=p.quiet, end="")
        line.append_text(stage_cells(job.stage, p))
        line.append(f" {fitted(job.ended or job.stage, 11)}", style=p.quiet)
        line.append(fitted(job.place, name), style=f"bold {p.ink}")
        line.append(" " + fitted(job.customer, name), style=p.ink)
        line.append(f" {show_day(job.day) if job.day else '':>7}", style=p.quiet)
        money, style = (job.gross, p.ink) if not job.owed else (job.owed, p.caution)
        line.append(f"{'' if money is None else show_money(money):>11}", style=style)
        line.append(" owed" if job.owed else "     ", style=p.caution)
        return line


class _FindRow(Horizontal):
    def compose(self) -> ComposeResult:
        yield Static(Content("Find"))
        yield Input(placeholder="customer, place or reference", id="find", select_on_focus=False)


def _name(group: Group) -> str:
    return "all" if group is None else group.value
