"""What a size typed under Find comes to, while the customer is on the telephone."""

import asyncio
from decimal import Decimal
from typing import TYPE_CHECKING, cast

from textual.content import Content
from textual.widgets import Static

from domain.errors import NotNow, Refused
from domain.setting_out.kinds import RoofForm
from domain.signs import Sign
from tui.frame.commands import key_of
from tui.frame.safe_text import one_line

if TYPE_CHECKING:
    from domain.estimate.rough_price import RoughRoof
    from storage.book import Book
    from tui.frame.screen import BaseScreen

_FIELD = "find"
_PAUSE_S = 0.15
"""Seconds without a key before anything is worked out."""


class RoughLine(Static):
    """One line below the words; away while they are no size."""

    DEFAULT_CSS = """
    RoughLine { height: auto; margin: 0 2 1 2; color: $ink; display: none; }
    """

    size_typed = ""
    """The words, while they are a size: what a new enquiry begins with."""

    def look_at(self, words: str) -> None:
        """Show what the words come to if they are a size, once typing pauses."""
        from domain.estimate.rough_price import read_rough_roof  # not needed to list jobs

        self.size_typed = ""
        try:
            told = read_rough_roof(_FIELD, words)
        except Refused:
            if self.display:  # to set it anew would have all laid out anew
                self.display = False
            return
        self.size_typed = words.strip()
        cast("BaseScreen", self.screen).in_background(self._priced(words.strip(), told))

    async def _priced(self, words: str, told: "RoughRoof") -> None:
        await asyncio.sleep(_PAUSE_S)
        if self.size_typed != words:
            return
        screen = cast("BaseScreen", self.screen)
        today = screen.open_book.today

        def price(book: "Book") -> str:
            from domain.estimate.rough_price import rough_price
            from domain.quantity import show_amount

            sources = book.sources(None, today)
            rough = rough_price(told, book.trader(), sources)
            packs = show_amount(Decimal(rough.packs), "pack")
            of = rough.covering.words
            unsure = f" ({Sign.CAUTION} from starting figures)" if rough.starting else ""
            return f"{packs} of {of}, about £{rough.gross // 100:,} and travel{unsure}"

        try:
            said = await screen.open_book.ask(price)
        except Refused:
            said = "no roof has that size"
        except NotNow as error:
            said = str(error)
        if self.size_typed == words and self.is_attached:
            apex = told.form is RoofForm.APEX and "apex" not in words.casefold()
            named = f"{words}, as an apex" if apex else words
            enquiry = key_of("anywhere", "new_enquiry")
            self.update(Content(one_line(f"{named}: {said}. {enquiry}: new enquiry.")))
            self.display = True
