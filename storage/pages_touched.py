"""Which page or list shows the rows of a table: what an undo says it will change."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from domain.page_names import PageName
from domain.scope import ListName, Touched

PAGES: Mapping[str, Touched] = MappingProxyType(
    {
        "customer": PageName.ENQUIRY,
        "site": PageName.ENQUIRY,
        "survey": PageName.SURVEY,
        "quote": PageName.QUOTE,
        "option": PageName.QUOTE,
        "line": PageName.QUOTE,
        "acceptance": PageName.QUOTE,
        "booking": PageName.BOOKING,
        "rung": PageName.BOOKING,
        "strip": PageName.STRIP,
        "extra": PageName.STRIP,
        "lay": PageName.LAYING,
        "usage": PageName.MATERIALS,
        "signoff": PageName.SIGN_OFF,
        "snag": PageName.SIGN_OFF,
        "document": PageName.MONEY,
        "payment": PageName.MONEY,
        "allocation": PageName.MONEY,
        "freed": PageName.MONEY,
        "counter_entry": PageName.MONEY,
        "statement": PageName.MONEY,
        "write_off": PageName.MONEY,
        "chase": PageName.MONEY,
        "price": ListName.PRICES,
        "stock_move": ListName.STOCK,
        "ordered": ListName.STOCK,
        "ordered_for": ListName.STOCK,
        "merchant": ListName.STOCK,
        "trader": ListName.DETAILS,
        "outlook": ListName.FORECASTS,
        "purchase": ListName.BOOKS,
        "money_back": ListName.BOOKS,
        "miles": ListName.BOOKS,
    }
)

IN_THE_HEADING = frozenset({"job", "caution_note", "put_off", "note", "to_send"})
"""Every action on a job writes its row, and a stage with its notes stands above all pages."""


def pages_touched(tables: Iterable[str]) -> tuple[Touched, ...]:
    """The pages and lists of the rows of these tables, each once, in the order of the work."""
    touched = {PAGES[table] for table in tables if table not in IN_THE_HEADING}
    return tuple(dict.fromkeys(page for page in PAGES.values() if page in touched))
