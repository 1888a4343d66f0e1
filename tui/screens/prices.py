"""What the merchants ask: the prices in force and those before them."""

from collections.abc import Awaitable, Callable
from typing import Any, ClassVar

from rich.text import Text
from textual.widget import Widget

from domain.calendar import show_date
from domain.money import show_money
from domain.stock import Price
from tui.dialogs.price import another_price_dialog, price_dialog
from tui.reading.plain import shown
from tui.safe_text import fitted
from tui.screens.base import BaseScreen
from tui.widgets.line_list import LineList


class PricesScreen(BaseScreen):
    """The newest first; Enter gives the material under the cursor a new price."""

    place: ClassVar[str] = "prices"
    title_words: ClassVar[str] = "prices"
    CSS = "PricesScreen LineList { margin: 0 2; }"

    def __init__(self) -> None:
        super().__init__()
        self._prices: tuple[Price, ...] = ()

    def body(self) -> list[Widget]:
        """The list."""
        return [LineList()]

    async def look_again(self) -> None:
        """Read the prices."""
        self._prices = await self.desk.ask(lambda book: book.prices())
        self.query_one(LineList).show(len(self._prices), self._draw)

    def heading_words(self) -> str:
        """What the figures are."""
        return "a pack, net of VAT"

    def action_open(self) -> None:
        """A new price for the material under the cursor."""
        lines = self.query_one(LineList)
        if lines.cursor < len(self._prices):
            price = self._prices[lines.cursor]
            self.app.push_screen(
                price_dialog(price, price.material, self.desk.today, self._saver())
            )
        else:
            self.action_add()

    def action_add(self) -> None:
        """A price of any material."""
        self.app.push_screen(another_price_dialog(self.desk.today, self._saver()))

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """As Enter."""
        event.stop()
        self.action_open()

    def _saver(self) -> Callable[[Price], Awaitable[Any]]:
        async def save(price: Price) -> None:
            await self.desk.ask(lambda book: book.set_price(price))

        return save

    def _draw(self, row: int, width: int) -> Text:
        price, p = self._prices[row], self.palette
        words = price.material.words + (f", {price.colour}" if price.colour else "")
        each = f"{shown(price.per_pack)} a {price.material.pack_word}"
        room = max(12, width - 67)
        line = Text(end="")
        line.append(fitted(words, 26), style=f"bold {p.ink}")
        line.append(f" {fitted(price.merchant, room)}", style=p.ink)
        line.append(f" {each:>14}", style=p.quiet)
        line.append(f"{show_money(price.net):>11}", style=f"bold {p.ink}")
        line.append(f"  {show_date(price.since).split(' ', 1)[1]:>11}", style=p.quiet)
        return line
