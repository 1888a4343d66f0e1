"""A threshold that comes near, said in the week once an evening has begun."""

from domain.books.watched import watched
from domain.tone import Tone
from tui.frame.screen import BaseScreen


async def say_early(screen: BaseScreen) -> None:
    """Say what is near, of VAT before of updates; nothing as a rule."""
    today = screen.open_book.today
    years, trader = await screen.open_book.ask(
        lambda book: (book.years_books(today), book.trader())
    )
    said = watched(years.books, years.supplied, today, registered=trader.vat_registered)
    if said:
        screen.say(said[-1].words, Tone.CAUTION)
