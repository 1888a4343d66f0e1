"""A merchant's list, as paper, as text to send and as rows: prices on the trader's own alone."""

from collections.abc import Iterable, Sequence
from decimal import Decimal

from domain.days.calendar import show_date
from domain.estimate.ordered import COLLECTED, Ordered
from domain.estimate.ordering import MerchantList, OrderLine
from domain.estimate.stock import named_material
from domain.money import plain_pounds, show_money
from domain.papers.blocks import Column, Details, Paper, Table, Totals
from domain.papers.shared_parts import lines_of, on_one_line, sentence
from domain.quantity import show_amount
from domain.trader import Trader

CSV_TITLES = ("packs", "of", "item", "units a pack", "for", "by", "net each", "net")
"""What stands over each of :func:`order_rows`."""


def order_paper(given: MerchantList, trader: Trader, place: str, *, priced: bool) -> Paper:
    """The list for a merchant; ``priced`` is the trader's own, with what it costs and for whom.

    ``place`` is where it goes, or ``COLLECTED``: one place, however many jobs it is for.
    """
    name = given.merchant or "the merchant"
    jobs = ", ".join(job.place for job in given.jobs)
    details = _details(name, place, show_date(given.by), jobs)
    if not priced:
        return _plain(name, details, [(_packs(line), _item(line)) for line in given.lines], trader)
    head = lines_of(trader.heading, trader.address, trader.phone)
    total_of = Column("Net" if trader.vat_registered else "Price", True)
    titles = (*_TITLES, Column("For"), total_of)
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
    blocks = (Details(details), Table(titles, own), Totals(sums))
    return Paper(f"Order for {name}, with prices", blocks, head)


def order_text(given: MerchantList, trader: Trader, place: str) -> str:
    """What is sent to the merchant: no price stands in it."""
    lines = [(_packs(line), _item(line)) for line in given.lines]
    return _text("Please could I order:", lines, place, show_date(given.by), trader)


def ordered_paper(lines: Sequence[Ordered], trader: Trader) -> Paper:
    """What was ordered at a merchant for a day, as it was: a line or more, no price on it."""
    first = lines[0]
    name = first.merchant or "the merchant"
    details = _details(name, first.deliver_to, show_date(first.expected_on), "")
    ordered = ("Ordered on", show_date(first.ordered_on))
    return _plain(name, (*details, ordered), _ordered(lines), trader)


def ordered_text(lines: Sequence[Ordered], trader: Trader) -> str:
    """What is sent about an order that stands, such as to ask after it."""
    first = lines[0]
    begins = f"My order of {show_date(first.ordered_on)}:"
    by = show_date(first.expected_on)
    return _text(begins, _ordered(lines), first.deliver_to, by, trader)


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
            plain_pounds(price.net),
            plain_pounds(line.net),
        )


_TITLES = (Column("How many", True), Column("What"))


def _plain(
    name: str,
    details: Sequence[tuple[str, str]],
    lines: Iterable[tuple[str, str]],
    trader: Trader,
) -> Paper:
    head = lines_of(trader.heading, trader.address, trader.phone)
    blocks = (Details(tuple(details)), Table(_TITLES, tuple(lines)))
    return Paper(f"Order for {name}", blocks, head)


def _details(name: str, place: str, by: str, jobs: str) -> tuple[tuple[str, str], ...]:
    told = (("Merchant", name), _where(place), ("By", by), ("For", jobs))
    return tuple((label, words) for label, words in told if words or label != "For")


def _text(
    begins: str, lines: Iterable[tuple[str, str]], place: str, by: str, trader: Trader
) -> str:
    return "\n".join(
        (
            begins,
            *(f"{packs} {item}" for packs, item in lines),
            ": ".join(_where(place)),
            f"By: {by}",
            *lines_of(trader.heading, trader.phone),
        )
    )


def _where(place: str) -> tuple[str, str]:
    """What the merchant is told of where it goes, with its label."""
    return (
        ("Delivery", "I collect it") if place == COLLECTED else ("Deliver to", on_one_line(place))
    )


def _ordered(lines: Iterable[Ordered]) -> list[tuple[str, str]]:
    return [
        (
            show_amount(Decimal(line.packs), line.material.pack_word),
            sentence(named_material(line.material, line.colour)),
        )
        for line in lines
    ]


def _packs(line: OrderLine) -> str:
    return show_amount(Decimal(line.packs), line.material.pack_word)


def _item(line: OrderLine) -> str:
    return sentence(named_material(line.material, line.colour))


def _jobs(line: OrderLine) -> str:
    return ", ".join(job.place for job in line.jobs)
