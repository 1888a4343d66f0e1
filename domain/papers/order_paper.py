"""A merchant's list, as paper, as text to send and as rows: prices on the trader's own alone."""

from collections.abc import Iterable
from decimal import Decimal

from domain.days.calendar import show_date
from domain.estimate.ordering import MerchantList, OrderLine
from domain.estimate.stock import named_material
from domain.money import show_money
from domain.papers.blocks import Column, Details, Paper, Table, Totals
from domain.papers.shared_parts import lines_of, on_one_line, sentence
from domain.quantity import show_amount
from domain.trader import Trader

CSV_TITLES = ("packs", "of", "item", "units a pack", "for", "by", "net each", "net")
"""What stands over each of :func:`order_rows`."""


def order_paper(given: MerchantList, trader: Trader, place: str, *, priced: bool) -> Paper:
    """The list for a merchant; ``priced`` is the trader's own, with what it costs and for whom.

    ``place`` is where it is delivered to.
    """
    name = given.merchant or "the merchant"
    head = lines_of(trader.heading, trader.address, trader.phone)
    details = (
        ("Merchant", name),
        ("Deliver to", on_one_line(place)),
        ("By", show_date(given.by)),
    )
    titles = [Column("How many", True), Column("What")]
    if not priced:
        rows = tuple((_packs(line), _item(line)) for line in given.lines)
        return Paper(f"Order for {name}", (Details(details), Table(tuple(titles), rows)), head)
    titles += [Column("For"), Column("Net" if trader.vat_registered else "Price", True)]
    own = tuple(
        (
            _packs(line),
            _item(line),
            _jobs(line),
            show_money(line.cost(registered=trader.vat_registered)),
        )
        for line in given.lines
    )
    total = show_money(given.net + given.vat)
    sums: tuple[tuple[str, str], ...] = (("To pay", total),)
    if trader.vat_registered:
        net, vat = show_money(given.net), show_money(given.vat)
        sums = (("Net", net), ("VAT", vat), ("With VAT", total))
    blocks = (Details(details), Table(tuple(titles), own), Totals(sums))
    return Paper(f"Order for {name}, with prices", blocks, head)


def order_text(given: MerchantList, trader: Trader, place: str) -> str:
    """What is sent to the merchant: no price stands in it."""
    lines = [f"{_packs(line)} {_item(line)}" for line in given.lines]
    return "\n".join(
        (
            "Please could I order:",
            *lines,
            f"Deliver to: {on_one_line(place)}",
            f"By: {show_date(given.by)}",
            *lines_of(trader.heading, trader.phone),
        )
    )


def order_rows(given: MerchantList) -> Iterable[tuple[str, ...]]:
    """A row a line, for a spreadsheet: numbers plain, money in pounds."""
    for line in given.lines:
        price = line.price
        yield (
            str(line.packs),
            price.material.pack_word,
            _item(line),
            f"{price.per_pack:f}",
            _jobs(line),
            line.by.isoformat(),
            _pounds(price.net),
            _pounds(line.net),
        )


def _packs(line: OrderLine) -> str:
    return show_amount(Decimal(line.packs), line.material.pack_word)


def _item(line: OrderLine) -> str:
    return sentence(named_material(line.material, line.colour))


def _jobs(line: OrderLine) -> str:
    return ", ".join(job.place for job in line.jobs)


def _pounds(pence: int) -> str:
    return f"{pence // 100}.{pence % 100:02}"
