"""Stock of leftovers: what it holds, counted, put in and taken out."""

from typing import ClassVar

from rich.text import Text
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.estimate.reserved import Reservation
from domain.estimate.stock import StockLine, StockMove, named_material
from domain.quantity import plural
from domain.scope import ListName
from tui.frame.commands import key_of
from tui.frame.safe_text import fitted, shortened
from tui.frame.screen import BaseScreen
from tui.lists.stock_dialogs import count_dialog, put_in_dialog, take_out_dialog
from tui.lists.stock_reserved import reserved_words
from tui.widgets.field_values import number_typed
from tui.widgets.line_list import LineList
from tui.widgets.notice import Notice

_NONE = f"No leftovers yet. Press {key_of('stock', 'put_in')} to add some."


class StockScreen(BaseScreen):
    """One row a material and colour; what a quote counts on is taken out when it is recorded."""

    place: ClassVar[str] = "stock"
    title_words: ClassVar[str] = "stock"
    undo_of = ListName.STOCK
    CSS = """
    StockScreen LineList { margin: 0 2; }
    StockScreen #none { margin: 0 2; color: $quiet; display: none; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._lines: tuple[StockLine, ...] = ()
        self._reservations: tuple[Reservation, ...] = ()

    def body(self) -> list[Widget]:
        """Return the list."""
        return [Static(Content(_NONE), id="none"), LineList()]

    async def reload(self) -> None:
        """Read the stock from the book and list it."""
        self._lines, self._reservations = await self.open_book.ask(
            lambda book: (book.stock(), book.reservations())
        )
        self.query_one("#none").display = not self._lines
        self.query_one(LineList).show(len(self._lines), self._draw)

    def action_open(self) -> None:
        """Set what there is to what was counted."""
        line = self._under_cursor()
        if line is not None:
            self.app.push_screen(count_dialog(line, self.open_book.today, self._save))

    def action_put_in(self) -> None:
        """Put something in."""
        self.app.push_screen(put_in_dialog(self._under_cursor(), self.open_book.today, self._save))

    def action_take_out(self) -> None:
        """Take something out."""
        line = self._under_cursor()
        if line is None:
            self.app.push_screen(Notice("Nothing to take out", _NONE))
        else:
            self.app.push_screen(take_out_dialog(line, self.open_book.today, self._save))

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Count the row that was clicked, as Enter does."""
        event.stop()
        self.action_open()

    async def _save(self, move: StockMove) -> None:
        await self.open_book.ask(lambda book: book.move_stock(move))
        await self.say_saved("Saved: what is in stock.")

    def _under_cursor(self) -> StockLine | None:
        row = self.query_one(LineList).cursor
        return self._lines[row] if row < len(self._lines) else None

    def _draw(self, row: int, width: int) -> Text:
        stock, p = self._lines[row], self.palette
        words = named_material(stock.material, stock.colour)
        line = Text(end="")
        line.append(fitted(words, min(34, max(24, width - 42))), style=f"bold {p.ink}")
        line.append(f"{number_typed(stock.quantity):>8}", style=f"bold {p.ink}")
        unit = stock.material.unit
        line.append(fitted(f" {unit if stock.quantity == 1 else plural(unit)}", 8), style=p.quiet)
        reserved = reserved_words(stock, self._reservations)
        line.append(shortened(reserved, width - line.cell_len), style=p.slate)
        return line
