"""The list Tonight: a line a task, several of a kind behind one, what can wait behind the last."""

from collections.abc import Iterable, Sequence

from rich.cells import cell_len
from rich.text import Text
from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.geometry import Size
from textual.message import Message
from textual.widgets import Static

from domain.money import Pence, show_money
from domain.week import Task, TaskKind, TaskSign
from domain.week.evening import Fold, Inside, Row, evening_rows
from tui.frame.safe_text import fitted, one_line, plain
from tui.frame.theme import PALETTES, Palette
from tui.widgets.line_list import LineList

_WORDS = 27
"""Cells of the verb and what it is about, with the space after it."""
_LEAST_WHO = 12
_TITLE = 1
"""Lines above the list, beside what sets them apart."""


class TonightList(Vertical):
    """Up and down walk it; Enter or a click goes to the thing itself, or opens what is folded."""

    DEFAULT_CSS = """
    TonightList > Static { height: 1; text-style: bold; }
    TonightList > #nothing { text-style: none; color: $quiet; display: none; height: auto; }
    TonightList > #last { text-style: none; color: $quiet; height: auto; padding-top: 1; }
    """

    class Chosen(Message):
        """A task is to be done where it is done."""

        def __init__(self, task: Task) -> None:
            self.task = task
            super().__init__()

    class Moved(Message):
        """Another line is in front."""

    def __init__(self) -> None:
        super().__init__(id="tonight")
        self._tasks: tuple[Task, ...] = ()
        self._rows: list[Row] = []
        self._last: tuple[str, ...] = ()
        self._opened: set[TaskKind | None] = set()
        self._room: dict[Size, int] = {}
        """Lines for the list by the size of the window, while nothing is said below it."""

    def compose(self) -> ComposeResult:
        """Yield the title, what is said when nothing is left, and the lines."""
        yield Static(Content("Tonight"), id="title")
        yield Static("", id="nothing")
        yield LineList()
        yield Static("", id="last")

    def show(self, tasks: Iterable[Task], last: Iterable[str]) -> None:
        """Show these tasks; the cursor stays on its line, or goes to the next if that is done.

        What is said ``last`` stands under them where there is room, and once nothing is left.
        """
        self._last = tuple(map(one_line, last))
        words = plain("\n".join(("Nothing left tonight.", *self._last)))
        self._say("#nothing", words)
        self._say("#last", plain("\n".join(self._last)))
        self._show_again(tuple(tasks))

    def _show_again(self, tasks: tuple[Task, ...]) -> None:
        before, at = self._rows, self.query_one(LineList).cursor
        self._tasks = tasks
        self._lay_out()
        self.query_one(LineList).cursor = self._row_of(before[at:])

    @property
    def row_in_front(self) -> Row | None:
        """What stands under the cursor."""
        cursor = self.query_one(LineList).cursor
        return self._rows[cursor] if cursor < len(self._rows) else None

    @property
    def task_in_front(self) -> Task | None:
        """The one task under the cursor; None on a line that stands for several."""
        return _task_of(self.row_in_front)

    def choose(self) -> None:
        """Go to the thing under the cursor, as Enter does."""
        self.query_one(LineList).action_choose()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """A task is done elsewhere; what is folded opens here, and closes again."""
        event.stop()
        row = self._rows[event.row]
        task = _task_of(row)
        if task is not None:
            self.post_message(self.Chosen(task))
        elif isinstance(row, Fold):
            self._open_or_shut(row)

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Tell that another line is in front."""
        event.stop()
        self._count_below()
        self.post_message(self.Moved())

    def on_resize(self, event: events.Resize) -> None:
        """There may be room for more of the lines, or for fewer."""
        title = _TITLE + self.query_one("#title").styles.margin.height
        room = max(self._room.get(self.app.size, 0), event.size.height - title)
        if room != self._room.get(self.app.size):
            self._room[self.app.size] = room
            self._show_again(self._tasks)
        self.call_after_refresh(self._count_below)

    def _row_of(self, before: Sequence[Row]) -> int:
        """The row of the first of these lines that is still to be done.

        The first of all if there were none before; the last if all of them are done.
        """
        if not before:
            return 0
        rows = {_same(row): number for number, row in reversed(list(enumerate(self._rows)))}
        last = max(0, len(self._rows) - 1)
        return next((rows[_same(row)] for row in before if _same(row) in rows), last)

    def _open_or_shut(self, fold: Fold) -> None:
        """Show all that is folded, the first of it in front, or hide it again.

        Where there is room it stays in sight.
        """
        lines = self.query_one(LineList)
        if fold.here < len(fold.tasks):
            self._opened ^= {fold.kind}
            self._lay_out()
        if fold.here == len(fold.tasks) or fold.kind in self._opened:
            lines.cursor += 1

    def _lay_out(self) -> None:
        self._rows = evening_rows(self._tasks, self._opened, self._room.get(self.app.size, 0))
        shown = self.query_one(LineList)
        shown.show(len(self._rows), self._draw)
        shown.display = bool(self._rows)
        self.query_one("#nothing").display = not self._rows
        self._show_last()
        self.call_after_refresh(self._count_below)
        self.post_message(self.Moved())

    def _show_last(self) -> None:
        """Show what is said last right under the last line, if all of it has room there."""
        width = max(1, self.size.width)
        takes = 1 + sum(-(-cell_len(line) // width) for line in self._last)
        spare = self._room.get(self.app.size, 0) - len(self._rows)
        fits = bool(self._rows) and spare >= takes
        self.query_one("#last").display = fits
        self.query_one(LineList).styles.height = len(self._rows) if fits else "1fr"

    def _count_below(self) -> None:
        """Say beside the title how many lines lie below those in sight."""
        lines = self.query_one(LineList)
        below = len(self._rows) - lines.scroll_offset.y - lines.size.height
        words = f"Tonight  ({below} more below)" if lines.display and below > 0 else "Tonight"
        self._say("#title", Content(words))

    def _say(self, where: str, words: Content) -> None:
        """Say something above or below the lines; said anew, it would have all laid out anew."""
        said = self.query_one(where, Static)
        if said.content != words:
            said.update(words)

    def _draw(self, number: int, width: int) -> Text:
        """The sign, the verb, who, and the amount on its point at the right."""
        row, p = self._rows[number], PALETTES[self.app.theme]
        task = _task_of(row)
        if task is None:
            if isinstance(row, Fold):
                return _fold_line(row, row.kind in self._opened, width, p)
            return Text("", end="")
        amount = _amount(task.amount)
        inside = "  " if isinstance(row, Inside) else ""
        colours = {TaskSign.STOP: p.stop, TaskSign.MONEY: p.moss}
        line = Text(f"{inside}{task.sign}  ", style=colours.get(task.sign, p.slate), end="")
        words = min(_WORDS, width - line.cell_len - cell_len(amount) - _LEAST_WHO)
        first = number == 0  # the one thing to begin with
        line.append(f"{fitted(task.words, words - 1)} ", style=f"bold {p.ink}" if first else p.ink)
        who = width - line.cell_len - cell_len(amount)
        line.append(fitted(_whom(task.who, who), who), style=p.ink if first else p.quiet)
        return line.append(amount, style=p.ink)


def _fold_line(fold: Fold, is_open: bool, width: int, p: Palette) -> Text:
    """What is folded and how many; of an open one that the key hides them again."""
    amount = _amount(fold.amount)
    line = Text("−  " if is_open else "+  ", style=p.slate, end="")
    words = f"{fold.words}: hide them" if is_open else fold.words
    line.append(fitted(words, width - line.cell_len - cell_len(amount)), style=p.ink)
    return line.append(amount, style=p.ink)


def _task_of(row: Row | None) -> Task | None:
    return row.task if isinstance(row, Inside) else row if isinstance(row, Task) else None


def _same(row: Row) -> tuple[object, ...]:
    """What a line is known by when the list is made again."""
    task = _task_of(row)
    if task is None:
        return (row.kind,) if isinstance(row, Fold) else ()
    about = task.about if task.to_send is None else ""  # it goes on from there
    return task.kind, task.job_id, task.since, about


def _amount(pence: Pence | None) -> str:
    return "" if pence is None else f"{show_money(pence):>10}"


def _whom(who: str, cells: int) -> str:
    """Customer and place; where both have no room the customer alone: it is they who are rung."""
    return who if cell_len(who) < cells else who.split(", ", maxsplit=1)[0]
