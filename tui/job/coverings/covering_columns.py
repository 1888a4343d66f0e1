"""Coverings side by side: a column each, a row for each thing told of them."""

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from domain.signs import Sign
from tui.frame.job_commands import OFFER_KEYS
from tui.frame.safe_text import fitted, shortened
from tui.frame.theme import PALETTES, Palette
from tui.job.coverings.coverings_compared import ComparedRow

_LABEL = 16
_WIDEST = 30
_NARROWEST = 15
"""Cells of a column: what does not fit beside the others stands below them."""


class CoveringColumns(Widget):
    """Coverings under their names, and a last row of what is offered.

    Where there is not room for all, those that follow stand below, in a band of their own. A click
    on a column chooses it, one on its place in the last row offers it or not.
    """

    ALLOW_SELECT = False
    DEFAULT_CSS = "CoveringColumns { height: auto; }"

    names: reactive[tuple[str, ...]] = reactive((), layout=True)
    """What stands above each column."""
    groups: reactive[tuple[tuple[ComparedRow, ...], ...]] = reactive((), layout=True)
    """What is told of each, in groups with an empty line between."""
    chosen: reactive[int | None] = reactive(None)
    """The column that is taken now."""

    offered: reactive[tuple[bool | None, ...]] = reactive((), layout=True)
    """Whether each is to be offered; None for one that cannot be."""

    class Picked(Message):
        """A column was clicked."""

        def __init__(self, column: int) -> None:
            self.column = column
            super().__init__()

    class Offered(Message):
        """The last row was clicked in a column."""

        def __init__(self, column: int) -> None:
            self.column = column
            super().__init__()

    def render(self) -> RenderResult:
        """Names, then the rows: what is the same in all is quiet."""
        p = PALETTES[self.app.theme]
        return Text("\n\n").join(Text("\n").join(self._band(band, p)) for band in self._bands)

    def on_resize(self, _event: events.Resize) -> None:
        """How many fit beside each other, and so how high it is, hangs on the width."""
        self.refresh(layout=True)

    def on_click(self, event: events.Click) -> None:
        """Choose the column under the mouse, or offer it."""
        height = 1 + sum(1 + len(group) for group in self.groups) + 2 * bool(self.offered)
        at, line = divmod(event.y, height + 1)
        place = (event.x - _LABEL) // self._width
        if at < len(self._bands) and 0 <= place < len(self._bands[at]):
            is_offer = bool(self.offered) and line == height - 1
            self.post_message((self.Offered if is_offer else self.Picked)(self._bands[at][place]))

    @property
    def _bands(self) -> list[range]:
        """The columns that stand beside each other, from the top."""
        count = len(self.names)
        if not self.size.width:  # it has no place on the screen yet
            return [range(count)]
        fit = max(1, (self.size.width - _LABEL) // _NARROWEST)
        return [range(start, min(start + fit, count)) for start in range(0, count, fit)]

    @property
    def _width(self) -> int:
        """Cells of a column."""
        beside = max((len(band) for band in self._bands), default=1)
        return min(_WIDEST, (self.size.width - _LABEL) // beside)

    def _band(self, band: range, p: Palette) -> list[Text]:
        """The lines of the columns that stand beside each other."""
        lines = [self._heading(band, p)]
        for group in self.groups:
            lines += [Text(""), *(self._line(row, band, p) for row in group)]
        return [*lines, Text(""), self._offers(band, p)] if self.offered else lines

    def _heading(self, band: range, p: Palette) -> Text:
        line = Text(" " * _LABEL, end="")
        for column in band:
            name = self.names[column]
            here = column == self.chosen
            sign = (Sign.CHOSEN if here else Sign.NOT_CHOSEN) + " " * (self._width > _NARROWEST)
            words = shortened(name, self._width - 3 - len(sign))
            line.append(f"{column + 1} ", style=f"bold {p.verdigris}")
            line.append(
                fitted(f"{sign}{words}", self._width - 2), style=p.verdigris if here else p.ink
            )
        return line

    def _offers(self, band: range, p: Palette) -> Text:
        """What the quote is to offer, each with the letter that puts it in or leaves it out."""
        line = Text(fitted("Offer in quote", _LABEL), style=p.quiet, end="")
        for column in band:
            is_in = self.offered[column]
            line.append(f"{OFFER_KEYS[column]} ", style=f"bold {p.verdigris}")
            sign = (
                "– not possible"
                if is_in is None
                else f"{Sign.GOOD} yes"
                if is_in
                else f"{Sign.NOT_CHOSEN} no"
            )
            line.append(fitted(sign, self._width - 2), style=p.moss if is_in else p.quiet)
        return line

    def _line(self, row: ComparedRow, band: range, p: Palette) -> Text:
        line = Text(fitted(row.label, _LABEL), style=p.quiet, end="")
        for cell in (row.cells[column] for column in band):
            style = f"bold {p.verdigris if row.counts else p.ink}" if row.differs else p.quiet
            line.append(fitted(cell or "–", self._width), style=style)
        return line
