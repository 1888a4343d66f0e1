"""The miles of the evening, accepted from the week with one key."""

from collections.abc import Awaitable, Callable
from decimal import Decimal
from functools import partial
from typing import Any

from domain.books.miles import Miles, acceptable
from domain.days.calendar import show_date
from domain.quantity import show_quantity
from domain.scope import ListName
from domain.tone import Tone
from tui.books.miles_dialog import miles_dialog
from tui.frame.commands import key_of
from tui.frame.screen import BaseScreen
from tui.widgets.question import Question


async def accept_evening(screen: BaseScreen) -> None:
    """Save the miles that today's jobs propose, and say which they are; else where others are.

    Of a place to which the way is not known the miles are asked for.
    """
    today = screen.open_book.today
    years = await screen.open_book.ask(lambda book: book.years_books(today))
    of_today = tuple(each for each in years.proposed if each.on == today)
    found = acceptable(of_today)
    if found:
        await _save(screen, found)
    if len(found) < len(of_today):
        to_ask = next(each for each in of_today if not each.miles)
        known = (*years.books.miles, *found)
        save = partial(_save_one, screen)
        screen.app.push_screen(miles_dialog(to_ask, known, today, save))
    elif not found:
        books = key_of("anywhere", "go('books')")
        also = f" {len(years.proposed)} of earlier days are in the books: {books}."
        said = "No miles of today to accept."
        screen.say(said + (also if years.proposed else ""), Tone.QUIET)


async def _save_one(screen: BaseScreen, trip: Miles) -> None:
    await _save(screen, (trip,))


async def _save(screen: BaseScreen, trips: tuple[Miles, ...]) -> None:
    today = screen.open_book.today
    await screen.open_book.ask(lambda book: book.save_miles(trips, today))
    screen.undo_of = ListName.BOOKS
    await screen.say_saved(f"Saved: {told(trips)}.")


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
