"""Nails of a book in which there was one kind of them."""

from decimal import Decimal
from pathlib import Path

from domain.coverings.materials import Material
from domain.estimate.basis import PricingBasis, read_basis
from domain.estimate.stock import StockMove
from domain.snapshot import from_json, to_json
from domain.trader import Nailing
from tests import priced
from tests.storage.books import opened, query
from tests.storage.test_older_books import book_of_version

WITH_ONE_KIND = 21
"""The last version in which nails of one kind held everything."""
COLUMNS = "id, material, merchant, per_pack, net, vat_rate, since, colour"
PRICES = (
    "(1, 'nails', 'Quayside', '650', 895, '20', '2026-01-05', '')",
    "(2, 'nails', 'Osmerton Roofing', '900', 645, '20', '2026-02-05', '')",
    "(3, 'mastic', 'Quayside', '1', 333, '20', '2026-01-05', '')",
)


def older(path: Path) -> Path:
    book_of_version(path, WITH_ONE_KIND)
    for each in PRICES:
        query(path, f"INSERT INTO price ({COLUMNS}) VALUES {each}")  # noqa: S608 -- no one's words
    query(
        path,
        'INSERT INTO stock_move (id, material, colour, quantity, "on", words)'
        " VALUES (1, 'nails', '', '420', '2026-03-01', 'left over')",
    )
    return path


def test_each_price_serves_both_kinds_and_the_stock_is_of_shingle_nails(path: Path) -> None:
    with opened(older(path)) as book:
        found = [(p.material, p.merchant, p.per_pack, p.net, p.since) for p in book.prices()]
        (held,) = book.stock()
        assert book.trader().nailing == Nailing(20, 13, 50)
    shingle = [each[1:] for each in found if each[0] == Material.SHINGLE_NAILS]
    felt = [each[1:] for each in found if each[0] == Material.FELT_NAILS]
    assert len(found) == 5
    assert sorted(shingle) == sorted(felt)
    assert {merchant for merchant, *_ in felt} == {"Quayside", "Osmerton Roofing"}
    assert (held.material, held.quantity) == (Material.SHINGLE_NAILS, Decimal(420))


def test_what_an_older_quote_was_made_from_stays_and_is_read_by_its_covering() -> None:
    for takeoff, now in ((priced.worked_example(), "nails"), (priced.in_felt(), "felt-nails")):
        kept = priced.quote(takeoffs=(takeoff,)).counting.basis
        made = from_json(PricingBasis, kept)
        one_kind = kept.replace("felt-nails", "nails")
        supplies = [s for s in read_basis(one_kind).supplies if s.material.is_nails]
        assert {s.material for s in supplies} == {now}
        assert all(s.price.material == s.material for s in supplies)
        assert read_basis(kept) == made
        assert to_json(made) == kept


def test_what_is_put_into_stock_of_one_kind_does_not_serve_the_other(path: Path) -> None:
    with opened(older(path)) as book:
        book.move_stock(StockMove(Material.FELT_NAILS, "", Decimal(100), priced.PRICED))
        assert {line.material: line.quantity for line in book.stock()} == {
            Material.SHINGLE_NAILS: 420,
            Material.FELT_NAILS: 100,
        }
