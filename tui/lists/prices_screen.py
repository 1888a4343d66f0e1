"""What the merchants ask: the prices in force, those to come and those before."""

from collections.abc import Mapping
from typing import ClassVar

from rich.text import Text
from textual.app import RenderResult
from textual.reactive import reactive
from textual.widget import Widget

from domain.coverings.materials import MATERIALS
from domain.days.calendar import show_date
from domain.estimate.price_list import Force, PriceLine, price_lines
from domain.estimate.prices_in import PriceIn
from domain.estimate.starting_prices import STARTING_WORDS, confirmed
from domain.estimate.stock import Price
from domain.money import Pence, show_money
from domain.quantity import show_amount, show_quantity
from domain.scope import ListName
from domain.signs import Sign
from domain.tone import Tone
from tui.frame.safe_text import fitted
from tui.frame.screen import BaseScreen
from tui.frame.theme import PALETTES, Palette
from tui.lists.fill_dialog import fill_dialog, prices_saved
from tui.lists.price_dialog import another_price_dialog, price_dialog
from tui.widgets.line_list import LineList

_PACK, _MONEY, _SINCE = 12, 10, 12
_NARROW = 66
"""Cells under which there is no room for the day since which a price is."""
_LONGEST = max(len(material.words) for material in MATERIALS)
_SIGNS = {
    Force.QUOTED: Sign.HERE,
    Force.IN_FORCE: Sign.IN_FORCE,
    Force.COMING: Sign.COMING,
    Force.BEFORE: Sign.BEFORE,
}


class PricesScreen(BaseScreen):
    """Enter gives the material under the cursor a new price; the old one stays."""

    place: ClassVar[str] = "prices"
    title_words: ClassVar[str] = "prices"
    undo_of = ListName.PRICES
    CSS = "PricesScreen LineList, PricesScreen _PriceTitles { margin: 0 2; }"

    def __init__(self) -> None:
        super().__init__()
        self._lines: tuple[PriceLine, ...] = ()
        self._prices: tuple[Price, ...] = ()
        self._reclaims_vat = False
        self._read: tuple[PriceIn, ...] = ()

    def body(self) -> list[Widget]:
        """Return the titles and the list of prices."""
        return [_PriceTitles(), LineList()]

    async def reload(self) -> None:
        """Read the prices from the book and list them."""
        prices, trader = await self.open_book.ask(lambda book: (book.prices(), book.trader()))
        self._prices = prices
        self._lines = price_lines(prices, self.open_book.today)
        self._reclaims_vat = trader.vat_registered
        self.query_one(_PriceTitles).reclaims_vat = trader.vat_registered
        self.query_one(LineList).show(len(self._lines), self._draw)
        self.refresh_heading()

    def heading_words(self) -> str:
        """Return what the signs of the list mean, and what a starting figure wants."""
        current = [line.price for line in self._lines if line.force is not Force.BEFORE]
        if any(price is not None and price.starting for price in current):
            return f"{Sign.CAUTION} {STARTING_WORDS}"
        return f"{Sign.HERE} next quote  · now  + future  – old"

    def action_open(self) -> None:
        """A new price for the material under the cursor."""
        self.query_one(LineList).action_choose()

    def action_add(self) -> None:
        """Ask for a price of any material."""
        self.app.push_screen(
            another_price_dialog(
                self._prices, self.open_book.today, self._save, registered=self._reclaims_vat
            )
        )

    def action_fill(self) -> None:
        """Fill what has no price, from one merchant and one price."""
        if all(line.price is not None for line in self._lines):
            self.say("Every material has a price already.", Tone.QUIET)
            return
        today, registered = self.open_book.today, self._reclaims_vat
        self.app.push_screen(
            fill_dialog(self._prices, today, self._save_all, registered=registered)
        )

    def action_take_in(self) -> None:
        """Ask for a CSV file, and show what would become of each of its lines."""
        from tui.lists.prices_in_screen import PricesInScreen, file_dialog

        async def show(lines: tuple[PriceIn, ...]) -> None:
            self._read = lines

        def shown(saved: bool | None) -> None:
            if saved:
                self.app.push_screen(PricesInScreen(self._read, self._prices))

        self.app.push_screen(file_dialog(self._prices, self.open_book.today, show), shown)

    def action_confirm(self) -> None:
        """Take the starting figures as the trader's own."""
        mine = confirmed(self._prices, self.open_book.today)
        if mine:
            self.in_worker(self._confirm(mine))
        else:
            self.say("There is no starting figure left.", Tone.QUIET)

    async def _confirm(self, prices: tuple[Price, ...]) -> None:
        await self.open_book.ask(lambda book: book.set_prices(prices, "starting prices confirmed"))
        await self.reload()
        await self.say_saved("Saved: the starting figures are now your prices.")

    async def _save_all(self, prices: tuple[Price, ...]) -> None:
        await self.open_book.ask(lambda book: book.set_prices(prices, "list of prices filled"))
        await self.say_saved(prices_saved(prices))

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Ask for a new price of the material in the row."""
        event.stop()
        line = self._lines[event.row]
        today, registered = self.open_book.today, self._reclaims_vat
        dialog = price_dialog(
            line.price, line.material, self._prices, today, self._save, registered=registered
        )
        self.app.push_screen(dialog)

    async def _save(self, price: Price) -> None:
        await self.open_book.ask(lambda book: book.set_price(price))
        await self.say_saved(f"Saved: {price.material.words} from {show_date(price.since)}.")

    def _draw(self, row: int, width: int) -> Text:
        line, p = self._lines[row], self.palette
        words, merchant = _words_and_merchant(width, _sums(self._reclaims_vat))
        quiet = line.force in (Force.BEFORE, Force.COMING)
        text = Text(f"{_SIGNS.get(line.force, ' ')} ", style=p.verdigris, end="")
        text.append(fitted(line.words, words), style=p.quiet if quiet else f"bold {p.ink}")
        if line.price is None:
            return text.append(f" {Sign.CAUTION} no price yet: Enter gives one", style=p.caution)
        text.append(f" {fitted(line.price.merchant, merchant)}", style=p.quiet if quiet else p.ink)
        asked = _asked(line.price, reclaims_vat=self._reclaims_vat)
        text.append_text(_figures(line.price, asked, p, quiet=quiet))
        return text.append_text(_since(line.price, width, p, quiet=quiet))


class _PriceTitles(Widget):
    """What the columns are."""

    DEFAULT_CSS = "_PriceTitles { height: 1; }"

    reclaims_vat = reactive(False)

    def render(self) -> RenderResult:
        """Draw the titles quietly, each over its column."""
        sums = _sums(self.reclaims_vat)
        words, merchant = _words_and_merchant(self.size.width, sums)
        line = f"  {'material':<{words}} {'merchant':<{merchant}}{'pack size':>{_PACK}}"
        line += "".join(f"{title:>{_wide(title)}}" for title in sums)
        line += f"{'since':>{_SINCE}}" if self.size.width >= _NARROW else ""
        return Text(line, style=PALETTES[self.app.theme].quiet)


def _sums(reclaims_vat: bool) -> tuple[str, ...]:
    """The titles of the sums: without VAT only for a trader who reclaims it."""
    return ("before VAT", "with VAT") if reclaims_vat else ("with VAT",)


def _wide(title: str) -> int:
    """How wide the column of a title is, a cell between it and the one before."""
    return max(_MONEY, len(title) + 1)


def _asked(price: Price, *, reclaims_vat: bool) -> dict[str, Pence]:
    """What a pack costs, a sum under each title: first what it comes to for the trader."""
    sums = (price.net, price.gross) if reclaims_vat else (price.gross,)
    return dict(zip(_sums(reclaims_vat), sums, strict=True))


def _figures(price: Price, asked: Mapping[str, Pence], p: Palette, *, quiet: bool) -> Text:
    text = Text(f"{_pack_size(price):>{_PACK}}", style=p.quiet, end="")
    for at, (title, pence) in enumerate(asked.items()):
        style = p.quiet if quiet else f"bold {p.ink}" if at == 0 else p.ink
        text.append(f"{show_money(pence):>{_wide(title)}}", style=style)
    return text


def _since(price: Price, width: int, p: Palette, *, quiet: bool) -> Text:
    """From which day it is, or that it is a starting figure: the sign alone where it is narrow."""
    wide = width >= _NARROW
    if price.starting and not quiet:
        words = f"{f'{Sign.CAUTION} starting':>{_SINCE}}" if wide else f" {Sign.CAUTION}"
        return Text(words, style=p.caution, end="")
    since = show_date(price.since).split(" ", 1)[1]
    return Text(f"{since:>{_SINCE}}" if wide else "", style=p.quiet, end="")


def _pack_size(price: Price) -> str:
    """``21 strips``, ``10 m``; a cartridge is a cartridge."""
    if price.material.unit == price.material.pack_word:
        return show_quantity(price.per_pack)
    return show_amount(price.per_pack, price.material.unit)


def _words_and_merchant(width: int, sums: tuple[str, ...]) -> tuple[int, int]:
    room = width - 3 - _PACK - sum(map(_wide, sums)) - (_SINCE if width >= _NARROW else 3)
    words = max(_LONGEST, room // 2)
    return words, max(5, room - words)
