"""How the books are drawn: the totals of a quarter, and a line an item."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from rich.text import Text

from domain.books.items import Item, ItemKind
from domain.books.miles import Miles
from domain.books.purchase import CameBack, Cost, Purchase
from domain.books.quarter import Books, of_quarter, up_to
from domain.books.watched import Watched
from domain.days.calendar import show_date, show_day
from domain.money import Pence, show_money
from domain.papers.quarter_paper import WITH_VAT
from domain.quantity import show_quantity
from domain.signs import Sign
from domain.tax.years import Quarter
from domain.trader import Trader
from tui.frame.commands import key_of
from tui.frame.safe_text import fitted
from tui.frame.theme import Palette

_LABEL, _MONEY = 24, 13
_DAY, _JOB = 8, 6
_HEADING, _SHORT = 22, 15
"""Cells of the heading, on a wide screen and on a narrow one."""
_WIDE = 100
RECORD = "A record, no tax advice; nothing is filed."


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the list."""

    on: date
    what: str
    job: str
    heading: str
    amount: str
    sign: Sign | None
    """Of miles that are only proposed, and of what is not for tax; None of all others."""
    of: object
    """The money, the purchase or the miles it tells."""

    @property
    def is_income(self) -> bool:
        """Whether money came in by it."""
        return isinstance(self.of, Item) and self.of.kind is ItemKind.INCOME


def lines_of(
    items: Iterable[Item], proposed: Iterable[Miles], aside: Iterable[Purchase | CameBack]
) -> tuple[Line, ...]:
    """The lines, the newest first: the items, what is proposed, and what is not for tax."""
    found = [
        *(_item_line(each) for each in items),
        *(_proposed_line(each) for each in proposed),
        *(_aside_line(each) for each in aside),
    ]
    return tuple(sorted(found, key=lambda line: line.on, reverse=True))


def _item_line(item: Item) -> Line:
    what = f"{item.who}: {item.what}" if item.who else item.what
    if isinstance(item.of, CameBack):
        what = f"{item.kind} · {what}"
    if isinstance(item.of, Purchase) and item.of.cost is not Cost.ORDINARY:
        what = f"{item.of.cost} · {what}"
    heading = "income" if item.kind is ItemKind.INCOME else item.heading or ""
    return Line(item.on, what, item.job, heading, show_money(item.pence), None, item)


def _proposed_line(trip: Miles) -> Line:
    amount = f"{show_quantity(trip.miles) if trip.miles else '?'} miles"
    return Line(trip.on, trip.words, "", "proposed", amount, Sign.NOT_CHOSEN, trip)


def _aside_line(of: Purchase | CameBack) -> Line:
    bought = of if isinstance(of, Purchase) else of.bought
    on, pence = (of.on, of.pence) if isinstance(of, Purchase) else (of.back.on, -of.back.pence)
    what = f"{bought.merchant}: {bought.what}"
    return Line(on, what, "", bought.heading, show_money(pence), Sign.BEFORE, of)


def draw_line(line: Line, width: int, p: Palette, *, by_heading: bool) -> Text:
    """One line: day, what, job, heading where it is kept or there is room, and the sum."""
    heading = _HEADING if width >= _WIDE else _SHORT * by_heading
    rest = width - 2 - _DAY - _JOB - _MONEY - heading - 2
    quiet = line.sign is not None
    text = Text(f"{line.sign or ' '} ", style=p.quiet, end="")
    text.append(fitted(show_day(line.on), _DAY), style=p.quiet)
    text.append(fitted(line.what, rest), style=p.quiet if quiet else p.ink)
    job = line.job.split(" ", 1)[0]
    text.append(f" {fitted(job, _JOB)}", style=p.slate)
    if heading:
        text.append(f" {fitted(line.heading, heading - 1)}", style=p.quiet)
    style = p.quiet if quiet else p.moss if line.is_income else p.ink
    sign = "+" if line.is_income else ""
    return text.append(f"{sign + line.amount:>{_MONEY + 1}}", style=style)


def totals_text(
    books: Books,
    quarter: Quarter,
    said: Sequence[Watched],
    p: Palette,
    trader: Trader,
) -> Text:
    """What the quarter and the year so far come to, when the update is due, and what is near."""
    here, so_far = of_quarter(books, quarter), up_to(books, quarter)
    since = f"since {show_day(quarter.year.first)}"
    text = Text(f"{'':<{_LABEL}}{'quarter':>{_MONEY}}{since:>{_MONEY + 2}}\n", style=p.quiet)
    rows: list[tuple[str, Pence, Pence]] = [("income", here.income, so_far.income)]
    if so_far.cis:
        rows.append(("of it CIS deducted", here.cis, so_far.cis))
    if trader.expense_headings:
        parts = here.by_heading
        rows += [(name, parts.get(name, 0), sum_) for name, sum_ in so_far.by_heading.items()]
    rows.append(("all expenses", here.expenses, so_far.expenses))
    if so_far.miles:
        rows.append(("of it by the mile", here.miles_worth, so_far.miles_worth))
    for label, one, other in rows:
        text.append(f"{label:<{_LABEL}}", style=p.quiet)
        text.append(f"{show_money(one):>{_MONEY}}", style=p.ink)
        text.append(f"{show_money(other):>{_MONEY + 2}}\n", style=f"bold {p.ink}")
    text.append(f"Any update is due {show_date(quarter.due)}. {RECORD}\n", style=p.quiet)
    if trader.vat_registered:
        text.append(f"{WITH_VAT}\n", style=p.quiet)
    for each in said:
        text.append(f"{Sign.CAUTION} {each.words}\n", style=p.caution)
    return text


def nothing_yet() -> str:
    """What stands in place of a list without lines."""
    return f"Nothing in this quarter. Press {key_of('books', 'purchase')} to add a purchase."
