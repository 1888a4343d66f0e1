"""What the order screen turns over: a page a merchant's list, and a page a delivery on its way."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import groupby
from typing import TYPE_CHECKING

from rich.text import Text

from domain.days.calendar import show_date, show_near
from domain.estimate.ordered import Ordered, State, where_to
from domain.estimate.ordering import MerchantList
from domain.estimate.stock import named_material
from domain.job import Booking
from domain.money import show_money
from domain.quantity import show_amount
from domain.week import Task, TaskKind
from storage.orders_read import Orders
from tui.frame.safe_text import fitted, one_line, shortened
from tui.frame.theme import Palette

if TYPE_CHECKING:
    from storage.book import Book

NOTHING = "Nothing to order for the bookings of the next two weeks, and nothing on its way."
IN_STOCK = (
    "Nothing to order for it: it is all in stock, or on its way. "
    "{key} says so: its materials are in hand."
)
_PACKS, _SUM, _HERE, _FOR = 14, 12, 8, 14
"""Cells of how many packs, what they cost, and the least of how many are here and for whom."""
_NARROW = 66
"""Cells under which the jobs are named below the list alone, so that what to order is not cut."""


@dataclass(frozen=True, slots=True)
class Delivery:
    """What comes from one merchant on one day."""

    merchant: str
    expected_on: date
    deliver_to: str
    lines: tuple[Ordered, ...]

    @property
    def state(self) -> State:
        """Ordered, or part delivered."""
        begun = any(line.came for line in self.lines)
        return State.PART if begun else State.ORDERED


Page = MerchantList | Delivery


def pages_of(orders: Orders) -> tuple[Page, ...]:
    """What is to be ordered first, then what is on its way."""
    return (*orders.lists, *_deliveries(orders))


def page_for(pages: tuple[Page, ...], task: Task | None) -> int | None:
    """The page that settles a line of Tonight; None if none does."""
    if task is None:
        return 0
    for at, page in enumerate(pages):
        if settles(page, task):
            return at
    return None


def settles(page: Page, task: Task) -> bool:
    """Whether a page is what a line of Tonight asks for."""
    if isinstance(page, Delivery):
        same = page.expected_on == task.since and task.who.startswith(page.merchant)
        return task.kind is TaskKind.DELIVERY and same
    return task.kind is TaskKind.ORDER and any(job.job_id == task.job_id for job in page.jobs)


def _deliveries(orders: Orders) -> Iterator[Delivery]:
    def of(line: Ordered) -> tuple[date, str, str]:
        return line.expected_on, line.merchant, line.deliver_to

    for (day, merchant, place), lines in groupby(sorted(orders.coming, key=of), of):
        yield Delivery(merchant, day, place, tuple(lines))


def put_in_hand(book: "Book", job_id: int) -> None:
    """Record that all a job takes is in hand."""
    job = book.job(job_id)
    book.book_days(job, Booking(job.days, materials_in_hand=True))


def told(page: Page, today: date, phone: str, *, registered: bool) -> str:
    """What stands over a page; to a trader who is not ``registered`` VAT is a part of the price."""
    call = f"  Telephone {one_line(phone)}." if phone else ""
    return f"{_told(page, today, registered=registered)}{call}"


def _told(page: Page, today: date, *, registered: bool) -> str:
    if isinstance(page, MerchantList):
        comes_to = page.net if registered else page.net + page.vat
        words = f"{show_money(comes_to)}{' before VAT' if registered else ''}"
        return f"To order, needed {_near(page.by, today)}.  {words}."
    state = page.state.value.capitalize()
    return f"{state}, to come {_near(page.expected_on, today)}.  {where_words(page.deliver_to)}"


def where_words(place: str) -> str:
    """Where it goes, in a sentence of its own."""
    words = one_line(where_to(place))
    return f"{words[:1].upper()}{words[1:]}."


def title_of(page: Page) -> str:
    """The merchant of a page."""
    return one_line(page.merchant) or "no merchant"


def drawn(page: Page, row: int, width: int, p: Palette, *, registered: bool) -> Text:
    """A line of a page: how many, what, for whom or how much is here, and what it costs."""
    line = page.lines[row]
    amount = show_amount(Decimal(line.packs), line.material.pack_word)
    what = named_material(line.material, line.colour)
    text = Text(end="")
    text.append(f"{amount:>{_PACKS}}  ", style=f"bold {p.ink}")
    beside = _SUM + (_HERE if isinstance(line, Ordered) else _FOR)
    narrow = width < _NARROW and not isinstance(line, Ordered)
    room = width - _PACKS - _SUM - 5 if narrow else max(12, min(40, width - _PACKS - beside - 4))
    text.append(f"{fitted(what, room)}  ", style=p.ink)
    if isinstance(line, Ordered):
        here = f"{line.came} here, {line.to_come} to come" if line.came else line.state.value
        return text.append(shortened(here, width - text.cell_len), style=p.slate)
    room_for = max(0, width - text.cell_len - _SUM)
    jobs = f"for {', '.join(one_line(job.place) for job in line.jobs)}"
    if len(jobs) >= room_for and len(line.jobs) > 1:
        jobs = f"for {len(line.jobs)} jobs"  # they are named below the list
    text.append(fitted("" if narrow else jobs, room_for - 1), style=p.quiet).append(" ")
    return text.append(f"{show_money(line.cost(registered=registered)):>{_SUM}}", style=p.ink)


def _near(day: date, today: date) -> str:
    near = show_near(day, today)
    return near if near in ("today", "tomorrow") else f"on {show_date(day)}"
