"""Prices from a CSV file: what would become of each line, then all of them or none."""

import os
from collections.abc import Awaitable, Callable, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any, ClassVar

from rich.text import Text
from textual.widget import Widget

from domain.estimate.prices_in import MOST_BYTES, PriceIn, Verdict, read_price_file, to_save
from domain.estimate.stock import Price
from domain.money import show_money
from domain.scope import ListName
from domain.signs import Sign
from domain.tone import Tone
from domain.typing_slips import far_price
from storage.users_file import read_users_file
from tui.frame.commands import key_of
from tui.frame.safe_text import fitted, shortened
from tui.frame.screen import BaseScreen
from tui.lists.fill_dialog import prices_saved
from tui.widgets.field_row import Field
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_list import LineList
from tui.widgets.slip_words import is_that_right, not_saved_yet

_FILE = "file"
_FIELDS = (Field(_FILE, "File", example="~/Downloads/prices.csv", needed=True),)
_WORDS = (
    "A CSV file whose first line names the columns: material, merchant, pack size, price; if you "
    "like also colour, VAT, with VAT (yes or no), since. Nothing is saved until you have seen it."
)
_LINE, _VERDICT, _MONEY = 5, 12, 10
_LEAST = 8
"""Cells that the words of a line have, whatever is said of it."""
_SIGNS = {Verdict.NEW: Sign.COMING, Verdict.CHANGED: Sign.HERE, Verdict.REFUSED: Sign.STOP}


def file_dialog(
    known: Sequence[Price], today: date, show: Callable[[tuple[PriceIn, ...]], Awaitable[Any]]
) -> FormDialog[tuple[PriceIn, ...]]:
    """Ask for the file; what it holds is looked at, and nothing saved."""
    return FormDialog(
        "Prices from a file",
        _FIELDS,
        lambda values: _look_at(values, known, today),
        show,
        words=_WORDS,
    )


def _look_at(values: Mapping[str, str], known: Sequence[Price], today: date) -> tuple[PriceIn, ...]:
    """Read the file. Raises :class:`Refused` for one that cannot be read."""
    typed = values[_FILE].strip()
    path = Path(os.path.expanduser(typed))  # leaves alone what is nobody's home
    content = read_users_file(_FILE, path, MOST_BYTES, "prices", typed)
    return read_price_file(_FILE, typed, content, known, today)


class PricesInScreen(BaseScreen):
    """A line a price; ctrl+s takes them all, while none is refused.

    What may be slips of ten is said in their rows, and stops the first save.
    """

    place: ClassVar[str] = "prices_in"
    title_words: ClassVar[str] = "prices from a file"
    undo_of = ListName.PRICES
    CSS = "PricesInScreen LineList { margin: 0 2; }"

    def __init__(self, lines: tuple[PriceIn, ...], known: Sequence[Price]) -> None:
        """``known`` are the prices of the book."""
        super().__init__()
        self._lines = lines
        self._slips = {line.number: _slip(line, known) for line in lines}
        self._doubts = [
            f"line {line.number}, {show_money(line.price.net)}: {self._slips[line.number]}"
            for line in lines
            if line.price and self._slips[line.number]
        ]

    def heading_words(self) -> str:
        """How many of each there are."""
        counts = {each: sum(line.verdict is each for line in self._lines) for each in Verdict}
        return " · ".join(f"{count} {verdict}" for verdict, count in counts.items() if count)

    def body(self) -> list[Widget]:
        """Return the list."""
        return [LineList()]

    @property
    def keys_left_out(self) -> frozenset[str]:
        """Nothing is saved while a line is refused."""
        return frozenset({"save"}) if self._is_refused else frozenset()

    @property
    def _is_refused(self) -> bool:
        return any(line.verdict is Verdict.REFUSED for line in self._lines)

    def on_mount(self) -> None:
        """Show the lines, those refused first and then slips: they are what stands in the way."""
        order = (Verdict.REFUSED, Verdict.CHANGED, Verdict.NEW, Verdict.SAME)
        self._lines = tuple(
            sorted(
                self._lines,
                key=lambda line: (
                    line.verdict is not Verdict.REFUSED,
                    not self._slips[line.number],
                    order.index(line.verdict),
                ),
            )
        )
        rows = self.query_one(LineList)
        rows.show(len(self._lines), self._draw)
        rows.focus()
        self._tell(0)

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Say in full why the line in front is refused, or what is unlikely about it."""
        event.stop()
        self._tell(event.row)

    def _tell(self, row: int) -> None:
        line = self._lines[row]
        if line.verdict is Verdict.REFUSED:
            self.say(line.why, Tone.STOP)
        elif slip := self._slips[line.number]:
            self.say(f"{line.words}: {slip}", Tone.CAUTION)

    def action_save(self) -> None:
        """Save all that is new or changed; nothing while a line is refused."""
        if self._is_refused:
            again = key_of("prices", "take_in")
            self.say(
                f"Nothing saved: put the refused lines right in the file, then {again} again.",
                Tone.STOP,
            )
        elif not to_save(self._lines):
            self.say("Nothing to save: every price is as before.", Tone.QUIET)
        elif self._doubts:
            self.say(not_saved_yet(is_that_right(self._doubts)), Tone.CAUTION)
            self._doubts = []
        else:
            self.save_in_worker(self._save())

    async def _save(self) -> None:
        prices = to_save(self._lines)
        await self.open_book.ask(lambda book: book.set_prices(prices, "prices from a file saved"))
        below = self.app.screen_stack[-2]
        self.leave()
        if isinstance(below, BaseScreen):
            below.in_worker(below.say_saved(prices_saved(prices)))

    def _draw(self, row: int, width: int) -> Text:
        line, p = self._lines[row], self.palette
        slip = self._slips[line.number]
        style = p.stop if line.verdict is Verdict.REFUSED else p.caution if slip else p.ink
        sign = Sign.CAUTION if slip else _SIGNS.get(line.verdict, " ")
        text = Text(f"{sign} ", style=style, end="")
        text.append(f"{line.number:>{_LINE - 1}} ", style=p.quiet)
        text.append(fitted(line.verdict, _VERDICT), style=style)
        if line.price is None:
            rest = f"{line.words}: {line.why}"
            return text.append(shortened(rest, width - text.cell_len), style=p.quiet)
        room = width - text.cell_len - 2 * _MONEY
        words = f"{line.words}  {line.why}" if line.why else line.words
        if slip:  # what is unlikely is whole before what it is of
            words = f"{shortened(line.words, max(_LEAST, room - len(slip) - 2))}  {slip}"
        text.append(fitted(words, room), style=style)
        text.append(f"{show_money(line.price.net):>{_MONEY}}", style=f"bold {p.ink}")
        return text.append(f"{show_money(line.price.gross):>{_MONEY}}", style=p.quiet)


def _slip(line: PriceIn, known: Sequence[Price]) -> str:
    """What is unlikely about a price to be saved: that it has lost or won a digit."""
    wanted = line.price if to_save([line]) else None
    slip = far_price(_FILE, wanted, known) if wanted else None
    return slip.words if slip else ""
