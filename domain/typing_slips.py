"""What was typed and may be a slip of ten: it can be right, so it is asked about and not refused.

The limits are our own: wide enough that a right figure is seldom asked about.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from domain.days.calendar import months_after, show_date
from domain.estimate.stock import Price, is_same_colour
from domain.estimate.usage import ELEMENTS
from domain.job import Usage
from domain.money import Pence, show_money
from domain.quantity import show_amount
from domain.units import show_mm

_LEAST, _MOST = Fraction(1, 2), Fraction(3, 2)
"""Of the estimate, or of what was said: what is under or over that is asked about."""
_SHORTEST = 300
"""Millimetres: no side of a roof is shorter."""
_YEARS = 15
"""The longest that a guarantee or a registration is likely to run."""
_TEN = 10
"""A price so many times the last one, or the last one so many times it, has lost or won a digit."""


@dataclass(frozen=True, slots=True)
class Slip:
    """One figure to look at again."""

    field: str
    """The id of its field; of what was used, the element."""
    words: str
    """What is unlikely about it: "Thu 3 Jun 2027 is over a year away"."""


def far_date(field: str, day: date, today: date) -> Slip | None:
    """A date more than a year from today, either way."""
    if months_after(today, -12) <= day <= months_after(today, 12):
        return None
    side = "away" if day > today else "ago"
    return Slip(field, f"{show_date(day)} is over a year {side}")


def far_last_day(field: str, day: date, today: date) -> Slip | None:
    """A last day more than fifteen years ahead: no guarantee or registration runs as long."""
    if day <= months_after(today, 12 * _YEARS):
        return None
    return Slip(field, f"{show_date(day)} is over {_YEARS} years away")


def past_day(field: str, day: date, today: date) -> Slip | None:
    """A day that should lie ahead and is past: the year before was typed, or the month."""
    return Slip(field, f"{show_date(day)} is past") if day < today else None


def before_invoice(field: str, day: date, issued_on: date) -> Slip | None:
    """Money received before the invoice it pays was issued."""
    if day >= issued_on:
        return None
    return Slip(field, f"{show_date(day)} is before the invoice of {show_date(issued_on)}")


def overpaid(field: str, pence: Pence, owed: Pence) -> Slip | None:
    """A payment over what is owed on all the invoices it can go to."""
    if pence <= owed:
        return None
    return Slip(field, f"{show_money(pence)} is more than the {show_money(owed)} owed")


def far_price(field: str, price: Price, known: Iterable[Price]) -> Slip | None:
    """A price ten times the last one of the same item or more, or a tenth of it or less.

    That of the same merchant if there is one, else the last of any; by the unit, since merchants
    pack otherwise.
    """
    alike = [each for each in known if _is_same_item(each, price)]
    own = [each for each in alike if _is_same_name(each.merchant, price.merchant)]
    last = max(own or alike, key=lambda each: (each.since, each.id or 0), default=None)
    if last is None or not last.net:
        return None
    now, then = price.net * last.per_pack, last.net * price.per_pack
    if then < now * _TEN and now < then * _TEN:
        return None
    elsewhere = "" if own else f" at {last.merchant}"
    return Slip(field, f"the last price{elsewhere} was {last.typed_words}")


def measured_slips(
    taped: Mapping[str, Fraction], said: tuple[Fraction, Fraction] | None
) -> Iterator[Slip]:
    """Sides of a roof, in mm by field, that are far from those ``said`` on the telephone.

    Either was said first, so a side is held against both; without them only against one too short
    for a roof: a number alone is in millimetres.
    """
    for field, mm in taped.items():
        if mm < _SHORTEST:
            yield Slip(field, f"{show_mm(mm)} is short for a roof: a number alone is in mm")
        elif said is not None and not min(said) * _LEAST <= mm <= max(said) * _MOST:
            sides = " × ".join(show_mm(side) for side in said)
            yield Slip(field, f"{show_mm(mm)}, where {sides} was said")


def before_last(field: str, day: date, last: date | None, what: str) -> Slip | None:
    """A day before the last paper of its series, called ``what``: their numbers run by the day."""
    if last is None or day >= last:
        return None
    return Slip(field, f"{show_date(day)} is before the last {what}, of {show_date(last)}")


def used_slips(usages: Iterable[Usage], in_hand: Mapping[str, Decimal]) -> tuple[Slip, ...]:
    """What was used far under or over the estimate, and more of a material than was taken.

    ``in_hand`` is as :func:`domain.estimate.usage.in_hand` gives it.
    """
    return tuple(
        Slip(usage.element, f"{ELEMENTS[usage.element].words}: {words}")
        for usage in usages
        for words in [_used(usage, in_hand.get(usage.element))]
        if words
    )


def _is_same_item(price: Price, other: Price) -> bool:
    """Whether two prices are of one material, and of one colour where both name one."""
    named = bool(price.colour.strip() and other.colour.strip())
    return price.material == other.material and (
        not named or is_same_colour(price.colour, other.colour)
    )


def _is_same_name(name: str, other: str) -> bool:
    return name.strip().casefold() == other.strip().casefold()


def _used(usage: Usage, held: Decimal | None) -> str:
    """What is unlikely about a row; nothing if it is likely."""
    gone = usage.taken
    if held is not None and gone > held:
        rest = show_amount(held, usage.unit)
        return f"{show_amount(gone, usage.unit)} in all, but {rest} were taken"
    estimated = usage.estimated
    if not estimated or _LEAST <= usage.used / estimated <= _MOST:
        return ""
    if abs(usage.used - estimated) <= 1:  # of a short hour, half an hour is over the limit too
        return ""
    return f"{show_amount(usage.used, usage.unit)}, estimated {show_amount(estimated, usage.unit)}"
