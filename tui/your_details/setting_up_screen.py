"""The first evening: three steps before a quote can be priced, and the example."""

from typing import ClassVar

from rich.text import Text
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.estimate.stock import Price
from domain.first_steps import FirstStep, StepTaken, first_steps
from domain.scope import ListName, Scope
from domain.signs import Sign
from domain.trader import Trader
from tui.frame.commands import key_of
from tui.frame.safe_text import fitted
from tui.frame.screen import BaseScreen
from tui.lists.fill_dialog import fill_dialog, prices_saved, without_price
from tui.widgets.line_list import LineList
from tui.your_details.setting_up_dialogs import charges_dialog, who_dialog

_EXAMPLE = ("Look round the example", "an invented trader's book; yours stays")
_READY = f"{Sign.GOOD} Ready: {key_of('anywhere', 'new_enquiry')} adds an enquiry."
_UNSURE = (
    f"{Sign.CAUTION} Ready, with starting figures among your prices: change them to yours before "
    f"a quote goes out. {key_of('anywhere', 'new_enquiry')} adds an enquiry."
)
_WAITS = "A quote needs these three. All of it can be changed again later."
_WORDS = 25
"""Cells of what a step is called."""


class SettingUpScreen(BaseScreen):
    """A line a step, each with how far it is; the cursor stands on the first that is open."""

    place: ClassVar[str] = "setup"
    title_words: ClassVar[str] = "setting up"
    CSS = """
    SettingUpScreen LineList { margin: 0 2; height: 5; }
    SettingUpScreen #standing { margin: 0 2 1 2; color: $quiet; height: auto; }
    SettingUpScreen #standing.-good { color: $moss; }
    SettingUpScreen #standing.-unsure { color: $caution; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._trader: Trader | None = None
        self._prices: tuple[Price, ...] = ()
        self._steps: tuple[StepTaken, ...] = ()
        self.worked_on: list[Scope] = []

    @property
    def undo_of(self) -> Scope | None:  # type: ignore[override]
        """What was saved here last."""
        return self.worked_on[-1] if self.worked_on else None

    def body(self) -> list[Widget]:
        """Return what the steps are for, and the steps."""
        return [Static("", id="standing"), LineList()]

    async def reload(self) -> None:
        """Read how far each step is; the cursor goes to the first that is open or unsure."""
        trader, prices = await self.open_book.ask(lambda book: (book.trader(), book.prices()))
        self._trader, self._prices = trader, prices
        self._steps = first_steps(trader, prices)
        rows = self.query_one(LineList)
        rows.show(len(self._steps) + 1, self._draw)
        left = [at for at, step in enumerate(self._steps) if not step.done]
        left += [at for at, step in enumerate(self._steps) if step.unsure]
        rows.cursor = left[0] if left else rows.cursor
        ready = all(step.done for step in self._steps)
        unsure = any(step.unsure for step in self._steps)
        standing = self.query_one("#standing", Static)
        standing.update(Content((_UNSURE if unsure else _READY) if ready else _WAITS))
        standing.set_class(ready and not unsure, "-good")
        standing.set_class(ready and unsure, "-unsure")

    def action_open(self) -> None:
        """Take the step under the cursor."""
        self.query_one(LineList).action_choose()

    def action_example(self) -> None:
        """Leave this book for the example, and come back to it."""
        self.program.look_round_example()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Ask for what the step takes; the last line leads to the example."""
        event.stop()
        if event.row >= len(self._steps):
            self.action_example()
        elif self._trader is not None:
            self._take(self._steps[event.row].step, self._trader)

    def _take(self, step: FirstStep, trader: Trader) -> None:
        if step is FirstStep.WHO:
            self.app.push_screen(who_dialog(trader, self._save_trader))
        elif step is FirstStep.CHARGES:
            self.app.push_screen(charges_dialog(trader, self._save_trader))
        elif without_price(self._prices):
            today = self.open_book.today
            registered = trader.vat_registered
            self.app.push_screen(
                fill_dialog(self._prices, today, self._save_prices, registered=registered)
            )
        else:
            self.program.action_go("prices")

    async def _save_trader(self, trader: Trader) -> None:
        await self.open_book.ask(lambda book: book.save_trader(trader))
        self.worked_on = [ListName.DETAILS]
        await self.say_saved("Saved.")

    async def _save_prices(self, prices: tuple[Price, ...]) -> None:
        await self.open_book.ask(lambda book: book.set_prices(prices, "list of prices filled"))
        self.worked_on = [ListName.PRICES]
        await self.say_saved(prices_saved(prices))

    def _draw(self, row: int, width: int) -> Text:
        p = self.palette
        if row >= len(self._steps):
            words, told = _EXAMPLE
            line = Text("     ", end="").append(fitted(words, _WORDS), style=p.ink)
            return line.append(fitted(told, width - line.cell_len), style=p.quiet)
        step = self._steps[row]
        tone = p.moss if step.done else p.slate
        line = Text(f"{Sign.GOOD if step.done else Sign.NOT_CHOSEN} ", style=tone, end="")
        first = not step.done and all(before.done for before in self._steps[:row])
        line.append(f"{row + 1}. ", style=p.quiet)
        line.append(fitted(step.step, _WORDS), style=f"bold {p.ink}" if first else p.ink)
        told = p.caution if step.unsure else p.quiet
        sign = f"{Sign.CAUTION} " if step.unsure else ""
        return line.append(fitted(f"{sign}{step.words}", width - line.cell_len), style=told)
