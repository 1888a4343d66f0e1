"""What is still missing before a job can be marked as its next stage."""

from collections import Counter
from dataclasses import dataclass
from typing import ClassVar

from rich.text import Text
from textual.app import ComposeResult, RenderResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Static

from domain.checks.check import Check, Part, Severity
from domain.checks.questions import Question, questions_of
from domain.page_names import PageName
from domain.signs import BEFORE_WORDS, Sign
from domain.tone import Tone
from tui.frame.safe_text import fitted, shortened
from tui.frame.theme import PALETTES
from tui.widgets.line_list import LineList

_SIGNS = {Severity.STOP: f"{Sign.STOP} stop    ", Severity.CAUTION: f"{Sign.CAUTION} caution "}
_OPENS = "  Enter: all"
_LOW, _TALL = 3, 8
"""Rows in a window of 24 lines, and in a tall one."""
_NO_REMEDY = 22
"""Lines of a window under which what would settle a check has none: the form needs them."""


@dataclass(frozen=True, slots=True)
class Missing:
    """What is missing before a job's next stage."""

    words: str
    """What stands over the list, or instead of one."""
    tone: Tone
    checks: tuple[Check, ...] = ()
    before: str = ""
    """The next stage; empty where nothing is missing."""


class StillNeededTitle(Widget):
    """The title, run out into a rule, and at its end how many there are."""

    DEFAULT_CSS = "StillNeededTitle { height: 1; }"

    words = reactive("")
    tone = reactive(Tone.QUIET)
    count = reactive(0)

    def render(self) -> RenderResult:
        """One line as wide as the page."""
        p = PALETTES[self.app.theme]
        count = f" {self.count}" if self.count else ""
        words = BEFORE_WORDS.get(self.tone, "") + self.words
        words = shortened(words, self.size.width - len(count) - 2)
        line = Text(end="").append(f"{words} ", style=p.tone(self.tone))
        line.append("─" * max(0, self.size.width - line.cell_len - len(count)), style=p.line)
        return line.append(count, style=f"bold {p.ink}")


class StillNeeded(Vertical):
    """The open stops and cautions, stops first; below them what settles the one at the cursor.

    On a page that is not theirs they are one line, with how many there are and the first of them;
    Enter or a click opens it.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "screen.move_cursor(-1)", "up", show=False),
    ]
    DEFAULT_CSS = """
    StillNeeded { height: auto; padding: 0 2; }
    StillNeeded > LineList { height: 3; }
    StillNeeded > #remedy { height: auto; max-height: 4; padding: 0 0 0 2; color: $quiet; }
    """

    class Asked(Message):
        """The page that settles a question was asked for, and of which part it is."""

        def __init__(self, page: PageName, part: Part | None) -> None:
            self.page, self.part = page, part
            super().__init__()

    def __init__(self) -> None:
        super().__init__()
        self._checks: tuple[Check, ...] = ()
        self._questions: tuple[Question, ...] = ()
        self._is_open = True
        self._before = ""

    def compose(self) -> ComposeResult:
        """Yield the title, the list of checks, and the remedy of one."""
        yield StillNeededTitle()
        yield LineList(id="missing-list")
        yield Static("", id="remedy")

    def show(self, missing: Missing) -> None:
        """Show the checks under a title."""
        self._checks, self._before = missing.checks, missing.before
        self._questions = questions_of(self._checks)
        title = self.query_one(StillNeededTitle)
        title.words, title.tone, title.count = missing.words, missing.tone, len(self._questions)
        self._list()

    @property
    def lists(self) -> bool:
        """Whether it shows anything that is missing."""
        return bool(self._checks)

    def unfold(self, is_open: bool) -> None:
        """Show all of them, or one line that opens."""
        if is_open != self._is_open:
            self._is_open = is_open
            self._list()

    def fit(self) -> None:
        """Take as many lines as the window can spare."""
        most = _TALL if self.app.size.height >= 32 else _LOW
        shown = len(self._questions) if self._is_open else 1
        for lines in self.query(LineList):  # none yet while the screen is being put together
            lines.styles.height = min(most, max(1, shown))

    def _list(self) -> None:
        lines, remedy = self.query_one(LineList), self.query_one("#remedy")
        lines.display = bool(self._checks)
        low = self.app.size.height < _NO_REMEDY
        remedy.display = bool(self._checks) and self._is_open and not low
        self.query_one(StillNeededTitle).display = self._is_open or not self._checks
        if self._is_open:
            lines.show(len(self._questions), self._draw)
        else:
            lines.show(min(1, len(self._checks)), self._draw_all)
        self.fit()
        self._say_remedy()

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Show the remedy of the check the cursor moved to."""
        event.stop()
        self._say_remedy()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Open the one line, or go to where a check is settled."""
        event.stop()
        if not self._is_open:
            self.unfold(True)
            return
        first = self._questions[event.row].checks[0]
        self.post_message(self.Asked(first.page, first.part))

    def _say_remedy(self) -> None:
        row = self.query_one(LineList).cursor
        words = self._questions[row].checks[0].remedy if row < len(self._questions) else ""
        self.query_one("#remedy", Static).update(Content(f"→ {words}" if words else ""))

    def _draw_all(self, _row: int, width: int) -> Text:
        """All in one line: how many of each, and the first."""
        p, first = PALETTES[self.app.theme], self._checks[0]
        counts = Counter(check.severity for check in self._checks)
        told = ", ".join(
            f"{count} {kind.value}{'s' if count > 1 else ''}"
            for kind in Severity
            if (count := counts[kind])
        )
        tone = p.stop if first.severity is Severity.STOP else p.caution
        line = Text(f"{_SIGNS[first.severity][:2]}{told}", style=tone, end="")
        line.append(f" before “{self._before}”: ", style=p.quiet)
        room = width - line.cell_len - len(_OPENS)
        line.append(shortened(first.words, room), style=p.ink)
        line.append(" " * (width - line.cell_len - len(_OPENS)))
        return line.append(_OPENS, style=p.quiet)

    def _draw(self, row: int, width: int) -> Text:
        question, p = self._questions[row], PALETTES[self.app.theme]
        tone = p.stop if question.severity is Severity.STOP else p.caution
        line = Text(f"  {_SIGNS[question.severity]}", style=tone, end="")
        line.append(fitted(question.words, max(10, width - 12)), style=p.ink)
        return line
