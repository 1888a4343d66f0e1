"""A list of prices from a CSV file, looked at line by line before any of it is taken.

It is all or nothing: while one line is refused, nothing is saved.
"""

import csv
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum
from io import StringIO
from types import MappingProxyType

from domain.coverings.materials import MATERIALS, Material
from domain.days.dates import read_date
from domain.errors import Refused
from domain.estimate.amounts import read_amount
from domain.estimate.stock import Price, is_same_colour
from domain.money import Pence, read_money
from domain.tax import VatBand, rate_on, read_rate, vat_in

NEEDED = ("material", "merchant", "pack size", "price")
OPTIONAL = ("colour", "vat", "with vat", "since")
"""Columns that may be left out: any colour, the standard rate, before VAT, today."""
MOST_BYTES, MOST_LINES = 1_000_000, 2_000
_COLUMNS = f"{', '.join(NEEDED)}; if you like also {', '.join(OPTIONAL)}"
_YES_NO: Mapping[str, bool] = MappingProxyType({"": False, "no": False, "yes": True})
_BY_NAME: Mapping[str, Material] = MappingProxyType(
    {
        name.casefold(): each
        for each in MATERIALS
        for name in (each, each.replace("-", " "), each.words)
    }
)
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


class Verdict(StrEnum):
    """What becomes of a line."""

    NEW = "new"
    CHANGED = "changed"
    SAME = "as before"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class PriceIn:
    """One line of the file."""

    number: int
    """Its line in the file; the titles are line 1."""
    verdict: Verdict
    words: str
    """What it is: material and merchant, as they stand there if they cannot be read."""
    price: Price | None
    """None if it is refused."""
    why: str = ""
    """Why it is refused, or what the price was before."""


def read_price_file(
    field: str, name: str, content: bytes, known: Iterable[Price], today: date
) -> tuple[PriceIn, ...]:
    """Look at every line of a file. Raises :class:`Refused` for one that is no list of prices.

    ``name`` is the file as it was typed into ``field``; ``known`` are the prices of the book.
    """
    rows = _rows(field, name, content)
    prices = tuple(known)
    found: list[PriceIn] = []
    for number, row in rows:
        found.append(_looked_at(number, row, prices, found, today))
    return tuple(found)


def to_save(lines: Iterable[PriceIn]) -> tuple[Price, ...]:
    """The prices that are new or changed; what is as before is not recorded again."""
    wanted = (Verdict.NEW, Verdict.CHANGED)
    return tuple(each.price for each in lines if each.price and each.verdict in wanted)


def net_of(pence: Pence, rate: Decimal, *, with_vat: bool) -> Pence:
    """A price without VAT, of one typed with it or without: the VAT is the fraction inside it."""
    return pence - vat_in(pence, rate) if with_vat else pence


def _rows(field: str, name: str, content: bytes) -> list[tuple[int, dict[str, str]]]:
    """The lines under the titles, each with its number. Raises :class:`Refused`."""
    if len(content) > MOST_BYTES:
        raise Refused(field, name, f"Give a file of {MOST_LINES:,} lines at most.")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Refused(field, name, "Save it as CSV in UTF-8, then try again.") from None
    try:
        lines = list(csv.reader(StringIO(text, newline=""), strict=True))
    except csv.Error:
        raise Refused(field, name, "Save it as CSV with commas, then try again.") from None
    titles = [_title(cell) for cell in lines[0]] if lines else []
    unknown = [title for title in titles if title not in (*NEEDED, *OPTIONAL)]
    if unknown or len(set(titles)) < len(titles) or not set(NEEDED) <= set(titles):
        raise Refused(field, name, f"Its first line must name the columns: {_COLUMNS}.")
    given = [(at, line) for at, line in enumerate(lines[1:], 2) if any(map(str.strip, line))]
    if not given:
        raise Refused(field, name, "Give a file with a price in it.")
    if len(given) > MOST_LINES:
        raise Refused(field, name, f"Give a file of {MOST_LINES:,} lines at most.")
    return [(at, _cells(titles, line)) for at, line in given]


def _title(cell: str) -> str:
    return " ".join(cell.replace("_", " ").split()).casefold()


def _cells(titles: list[str], line: list[str]) -> dict[str, str]:
    """The cells of a line by column; one with too many or too few is known by "cells"."""
    if len(line) != len(titles):
        return {"cells": str(len(line)), "of": str(len(titles)), "what": ", ".join(line)}
    return {title: cell.strip() for title, cell in zip(titles, line, strict=True)}


def _looked_at(
    number: int,
    row: Mapping[str, str],
    known: tuple[Price, ...],
    before: list[PriceIn],
    today: date,
) -> PriceIn:
    words = row.get("what") or f"{row.get('material', '')}, {row.get('merchant', '')}"
    try:
        price = _price(row, today)
        twice = next((e.number for e in before if e.price and _is_same(e.price, price)), None)
        if twice is not None:
            raise Refused("material", row["material"], f"It stands in line {twice} already.")
    except Refused as refused:
        return PriceIn(number, Verdict.REFUSED, words, None, str(refused))
    words = ", ".join(filter(None, (price.material.words, price.colour, price.merchant)))
    alike = [each for each in known if _is_same(each, price) and each.since <= price.since]
    last = max(alike, key=lambda each: (each.since, each.id or 0), default=None)
    if last is None:
        return PriceIn(number, Verdict.NEW, words, price)
    same = _figures(last) == _figures(price)
    if same and not last.starting:
        return PriceIn(number, Verdict.SAME, words, price)
    return PriceIn(number, Verdict.CHANGED, words, price, f"was {last.typed_words}")


def _figures(price: Price) -> tuple[object, ...]:
    return price.net, price.gross, price.per_pack, price.vat_rate


def _price(row: Mapping[str, str], today: date) -> Price:
    """The price of a line. Raises :class:`Refused`."""
    _demand_plain(row)
    material = _BY_NAME.get(row["material"].casefold())
    if material is None:
        names = ", ".join(each.words for each in MATERIALS)
        raise Refused("material", row["material"], f"Give one of: {names}.")
    if not row["merchant"]:
        raise Refused("merchant", "", "Give the merchant's name.")
    since = read_date("since", row["since"], today) if row.get("since") else today
    rate = rate_on(VatBand.STANDARD, since)
    if row.get("vat"):
        rate = read_rate("vat", row["vat"], since)
    with_vat = _YES_NO.get(row.get("with vat", "").casefold())
    if with_vat is None:
        raise Refused("with_vat", row["with vat"], "Give yes or no.")
    pack = read_amount(
        "pack_size", row["pack size"], material, "a number such as 21", least=Decimal("0.001")
    )
    asked = read_money("price", row["price"], least=1)
    return Price(
        material=material,
        merchant=row["merchant"],
        per_pack=pack,
        net=net_of(asked, rate, with_vat=with_vat),
        vat_rate=rate,
        since=since,
        colour=row.get("colour", "") if material.coloured else "",
        with_vat=asked if with_vat else None,
    )


def _demand_plain(row: Mapping[str, str]) -> None:
    """Raise :class:`Refused` for a line of too many or too few cells, or with a formula in it."""
    if "cells" in row:
        raise Refused("line", row["what"], f"Give {row['of']} cells: it has {row['cells']}.")
    for title, cell in row.items():
        if cell.startswith(_FORMULA):
            raise Refused(title, cell, "Give what it comes to: a formula is not read.")


def _is_same(one: Price, other: Price) -> bool:
    """Whether two prices are of one material and colour at one merchant."""
    return (
        one.material == other.material
        and one.merchant.strip().casefold() == other.merchant.strip().casefold()
        and is_same_colour(one.colour, other.colour)
    )
