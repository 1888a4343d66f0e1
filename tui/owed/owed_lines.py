"""The lines of what is owed: whose, since when, how much, and what comes next."""

from datetime import date

from rich.text import Text

from domain.accounts.chasing import NextThing
from domain.days.calendar import show_day
from domain.money import show_money
from domain.signs import Sign
from domain.week.debts import Owed
from domain.week.owing import Owing, next_words
from tui.frame.safe_text import fitted
from tui.frame.theme import Palette

_NUMBER, _DUE, _DAYS, _SUM, _NEXT, _SIGN = 9, 8, 6, 12, 23, 2
_WIDE = 100
"""Cells from which the place has a column."""


def owed_line(owing: Owing, width: int, today: date, p: Palette) -> Text:
    """Number, customer and place, the day it was due, the days since, the sum, the next thing."""
    bill, days = owing.bill, owing.days_over(today)
    late = days > 0
    line = Text(end="").append(f"{bill.label:<{_NUMBER}}", style=f"bold {p.ink}")
    who, place = _whose(width)
    line.append(fitted(owing.line.customer or owing.line.phone, who), style=p.ink)
    line.append(fitted(owing.line.place, place), style=p.quiet)
    line.append(f"{show_day(bill.due_on):>{_DUE}}", style=p.quiet)
    line.append(f"{days if late else '':>{_DAYS}}", style=p.caution)
    line.append(f"{show_money(bill.owed):>{_SUM}}", style=f"bold {p.ink}")
    now = owing.next.on <= today and owing.next.what in _OURS
    line.append(f"{Sign.CAUTION if now else '':>{_SIGN}} ", style=p.caution)
    return line.append(fitted(next_words(owing, today), _NEXT), style=p.ink if now else p.quiet)


def titles(width: int) -> str:
    """What the columns are, each over its own."""
    who, place = _whose(width)
    words = f"{'number':<{_NUMBER}}{fitted('customer', who)}{fitted('place', place)}"
    words += f"{'due':>{_DUE}}{'days':>{_DAYS}}{'owed':>{_SUM}}{'':>{_SIGN}} "
    return f"{words}{fitted('next', _NEXT)}"


def ages(owed: tuple[Owed, ...]) -> str:
    """What is owed of each age, those with nothing left out."""
    told = [
        f"{show_money(each.pence)} {each.words}"
        if each.bills == 1
        # Of several the sum alone would not say whether it is one large debt.
        else f"{show_money(each.pence)} {each.words} ({each.bills})"
        for each in owed
        if each.bills
    ]
    return " · ".join(told)


_OURS = (NextThing.FIRST, NextThing.SECOND, NextThing.DECIDE)
"""What the trader is to do."""


def _whose(width: int) -> tuple[int, int]:
    room = max(8, width - _NUMBER - _DUE - _DAYS - _SUM - _SIGN - 1 - _NEXT)
    if width < _WIDE:
        return room, 0
    return room * 3 // 5, room - room * 3 // 5
