"""A price typed with VAT in the book: there again as typed, and so in the export."""

import csv
from dataclasses import replace
from decimal import Decimal
from io import StringIO
from pathlib import Path

from domain.coverings.materials import Material
from domain.scope import ListName
from storage.export import ENCODING, export_tables
from tests import priced
from tests.storage.books import opened, redo, undo

TYPED = replace(
    priced.price(Material.MASTIC, 8_32, "1", merchant="Quay"), vat_rate=Decimal(20), with_vat=9_99
)


def test_a_price_typed_with_vat_comes_back_from_the_book_its_history_and_its_export(
    path: Path,
) -> None:
    with opened(path) as book:
        book.set_prices([TYPED, replace(TYPED, merchant="Northfield", with_vat=None)], "filled")
        saved = book.prices()
        undo(book, ListName.PRICES)
        assert book.prices() == ()
        redo(book, ListName.PRICES)
        assert book.prices() == saved
        assert {each.merchant: each.with_vat for each in saved} == {
            "Quay": 9_99,
            "Northfield": None,
        }
    tables = dict(export_tables(path))
    assert tables == dict(export_tables(path))
    rows = csv.DictReader(StringIO(tables["price"].decode(ENCODING)))
    told = {row["merchant"]: (row["net_pounds"], row["with_vat_pounds"]) for row in rows}
    assert told == {"Quay": ("8.32", "9.99"), "Northfield": ("8.32", "")}
