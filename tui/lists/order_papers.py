"""What leaves the house of an order: as paper, as text, as rows for a spreadsheet."""

from domain.estimate.ordering import MerchantList
from domain.papers.blocks import Paper
from domain.papers.order_paper import (
    CSV_TITLES,
    order_paper,
    order_rows,
    order_text,
    ordered_paper,
    ordered_text,
)
from domain.trader import Trader
from storage.export import rows_as_csv
from tui.lists.order_pages import Page


def papers_of(page: Page, trader: Trader, place: str) -> tuple[Paper, Paper | None]:
    """The merchant's paper; beneath a list that goes to ``place`` the trader's own with prices."""
    if not isinstance(page, MerchantList):
        return ordered_paper(page.lines, trader), None
    theirs, own = (order_paper(page, trader, place, priced=priced) for priced in (False, True))
    return theirs, own


def text_of(page: Page, trader: Trader, place: str) -> str:
    """What is sent to the merchant; no price is in it."""
    if not isinstance(page, MerchantList):
        return ordered_text(page.lines, trader)
    return order_text(page, trader, place)


def csv_of(page: MerchantList) -> bytes:
    """The list with its prices, for a spreadsheet."""
    return rows_as_csv(CSV_TITLES, order_rows(page))
