"""The story's books of the year: what was bought, and the miles of the weeks before this one."""

from datetime import date, timedelta

from demo_data.evenings import Evenings
from demo_data.story import Story
from domain.books.headings import Heading
from domain.books.purchase import Purchase
from storage.book import Book

_LEFT_OPEN = timedelta(days=7)
"""The miles of the last days are for an evening of whoever looks round."""


def tell_year(book: Book, story: Story, evenings: Evenings, today: date) -> None:
    """Tell a book the slips of the story and accept its older miles; its jobs are told already."""
    for told in story.purchases:
        paid = today - timedelta(days=told["ago"])
        evenings.turn_to(paid)
        heading = Heading(told.get("heading", Heading.GOODS))
        slip = Purchase(
            on=paid,
            merchant=told["merchant"],
            what=told["what"],
            pence=told["pence"],
            heading=heading,
            for_stock=told.get("stock", False),
        )
        book.save_purchase(slip, "", today)
    evenings.turn_to(today - _LEFT_OPEN)
    older = [each for each in book.years_books(today).proposed if each.on <= today - _LEFT_OPEN]
    if older:  # none in the first week of a tax year
        book.save_miles(older, today)
