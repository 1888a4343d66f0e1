"""The trail of a job: its pages in the order of the work, and how far it has come."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import ClassVar

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from domain.job import Stage
from domain.page_names import PageName
from domain.signs import Sign
from tui.frame.theme import PALETTES

TABS: Mapping[PageName, tuple[str, Stage | None]] = MappingProxyType(
    {
        PageName.ENQUIRY: ("enquiry", Stage.ENQUIRY),
        PageName.SURVEY: ("survey", Stage.SURVEY),
        PageName.QUOTE: ("quoted", Stage.QUOTED),
        PageName.BOOKING: ("booked", Stage.BOOKED),
        PageName.STRIP: ("stripped", Stage.STRIPPED),
        PageName.LAYING: ("laid", Stage.LAID),
        PageName.MATERIALS: ("materials", None),
        PageName.SIGN_OFF: ("signed off", Stage.SIGNED_OFF),
        PageName.MONEY: ("money", None),
    }
)
"""What stands on the trail for each page, and the stage it is named after, in order."""


class PageTabs(Widget, can_focus=True):
    """``enquiry  survey  ▸quoted …`` over a line that runs as far as the job has come."""

    ALLOW_SELECT = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1)", "page before", show=False),
        Binding("right", "step(1)", "next page", show=False),
        Binding("enter,down", "enter", "into the page", show=False),
    ]
    DEFAULT_CSS = "PageTabs { height: 2; padding: 0 0 0 1; }"

    shown = reactive(PageName.ENQUIRY)
    """The page in front."""
    stage = reactive(Stage.ENQUIRY)
    """The job's stage."""

    class Turned(Message):
        """Another page was asked for; ``enter`` if the cursor shall go into it."""

        def __init__(self, page: PageName, *, enter: bool) -> None:
            self.page = page
            self.enter = enter
            super().__init__()

    def render(self) -> RenderResult:
        """Names above; below them the line that runs as far as the job has come.

        Where they do not fit on one line they take both, and what is reached is underlined.
        """
        rows = self._rows()
        if len(rows) == 1:
            return self._names(rows[0]).append("\n").append_text(self._line())
        return Text("\n", end="").join(self._names(row, under=" underline") for row in rows)

    def _names(self, row: Sequence[PageName], under: str = "") -> Text:
        p, names = PALETTES[self.app.theme], Text(end="")
        for page in row:
            words, stage = TABS[page]
            front = page is self.shown
            ground = f" on {p.line}" if front and self.has_focus else ""
            names.append(Sign.HERE if front else " ", style=p.verdigris)
            style = f"bold {p.verdigris if self.has_focus else p.ink}" if front else p.quiet
            names.append(words, style=style + ground + under * self._is_reached(stage)).append(" ")
        return names

    def _line(self) -> Text:
        p, line = PALETTES[self.app.theme], Text(end="")
        for words, stage in TABS.values():
            style = p.verdigris if stage is self.stage else p.quiet
            mark = "▔" if self._is_reached(stage) else " "
            line.append(" ").append(mark * len(words), style=style).append(" ")
        return line

    def _is_reached(self, stage: Stage | None) -> bool:
        return stage is not None and stage.rank <= self.stage.rank

    def _rows(self) -> list[list[PageName]]:
        """The pages as they stand in one line, or in two."""
        rows: list[list[PageName]] = [[]]
        room = self.content_size.width
        for page, (words, _) in TABS.items():
            taken = sum(len(TABS[each][0]) + 2 for each in rows[-1])
            if rows[-1] and taken + len(words) + 1 > room:
                rows.append([])
            rows[-1].append(page)
        return rows

    def neighbour(self, by: int) -> PageName:
        """The page so many places on, round and round."""
        order = list(TABS)
        return order[(order.index(self.shown) + by) % len(order)]

    def action_step(self, by: int) -> None:
        """Turn to the next page or the one before; the focus stays on the trail."""
        self.post_message(self.Turned(self.neighbour(by), enter=False))

    def action_enter(self) -> None:
        """Put the cursor into the page in front."""
        self.post_message(self.Turned(self.shown, enter=True))

    def on_click(self, event: events.Click) -> None:
        """Turn to the page under the mouse."""
        rows = self._rows()
        start = self.styles.padding.left
        for page in rows[min(event.y, len(rows) - 1)]:
            end = start + len(TABS[page][0]) + 2
            if start <= event.x < end:
                self.post_message(self.Turned(page, enter=True))
            start = end

    def on_focus(self) -> None:
        """Draw it again: it shows that it has the focus."""
        self.refresh()

    def on_blur(self) -> None:
        """Draw it again without its cursor: the focus has gone elsewhere."""
        self.refresh()
