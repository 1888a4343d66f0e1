"""The miles of the evening, accepted from the week with one key."""

from collections.abc import Awaitable, Callable
from decimal import Decimal
from typing import Any

from domain.books.miles import Miles, of_the_evening
from domain.days.calendar import show_date
from domain.quantity import show_quantity
from domain.scope import ListName
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.frame.screen import BaseScreen
from tui.widgets.question import Question


async def accept_evening(screen: BaseScreen) -> None:
    """Save the miles that today's jobs propose, and say which they are; else where others are."""
    today = screen.open_book.today
    years = await screen.open_book.ask(lambda book: book.years_books(today))
    found = of_the_evening(years.proposed, today)
    if not found:
        books = key_of("anywhere", "go('books')")
        also = f" {len(years.proposed)} of earlier days are in the books: {books}."
        said = "No miles of today to accept."
        screen.say(said + (also if years.proposed else ""), Tone.QUIET)
        return
    await screen.open_book.ask(lambda book: book.save_miles(found, today))
    screen.undo_of = ListName.BOOKS
    await screen.say_saved(f"Saved: {told(found)}.")


class AcceptDialog(Question):
    """Asks before the miles of several days are saved at once."""

    place = "accept_miles"

    def __init__(self, found: tuple[Miles, ...], save: Callable[[], Awaitable[Any]]) -> None:
        """``found`` are the miles proposed, the earliest first."""
        whole = show_quantity(sum((each.miles for each in found), Decimal(0)))
        days = f"{show_date(found[0].on)} to {show_date(found[-1].on)}"
        super().__init__(
            f"Accept {len(found)} journeys, {whole} miles?",
            save,
            f"Those proposed from {days}. Each can be put right afterwards.",
        )


def told(found: tuple[Miles, ...]) -> str:
    """How many miles, and where to."""
    whole = sum(each.miles for each in found)
    return f"{show_quantity(whole or found[0].miles)} miles: {'; '.join(e.words for e in found)}"
