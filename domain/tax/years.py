"""Tax years, from 6 April to 5 April, and the quarters of the updates within them."""

from dataclasses import dataclass
from datetime import date
from typing import Final

_BEGINS: Final = (4, 6)  # 6 April
_QUARTERS: Final = (((7, 5), (8, 7)), ((10, 5), (11, 7)), ((1, 5), (2, 7)), ((4, 5), (5, 7)))
"""Last day and due day of each, month and day. Source: GOV.UK, Making Tax Digital for Income Tax:
quoted."""


@dataclass(frozen=True, slots=True, order=True)
class TaxYear:
    """A tax year, known by the calendar year in which it begins."""

    begins: int

    @property
    def first(self) -> date:
        """6 April."""
        return date(self.begins, *_BEGINS)

    @property
    def last(self) -> date:
        """5 April of the year after."""
        return date(self.begins + 1, 4, 5)

    @property
    def deadline(self) -> date:
        """The day by which its return is sent: 31 January after it ends (GOV.UK: quoted)."""
        return date(self.begins + 2, 1, 31)

    @property
    def quarters(self) -> tuple["Quarter", ...]:
        """The four, the earliest first."""
        return tuple(Quarter(self, number) for number in range(1, 5))

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last

    def __str__(self) -> str:
        return f"{self.begins}-{(self.begins + 1) % 100:02}"


@dataclass(frozen=True, slots=True, order=True)
class Quarter:
    """A quarter of a tax year. An update tells the year up to its last day."""

    year: TaxYear
    number: int
    """1 to 4."""

    @property
    def first(self) -> date:
        """6 April, 6 July, 6 October or 6 January."""
        month = (4, 7, 10, 1)[self.number - 1]
        return date(self._calendar_year(month), month, 6)

    @property
    def last(self) -> date:
        """5 July, 5 October, 5 January or 5 April."""
        (month, day), _ = _QUARTERS[self.number - 1]
        return date(
            self._calendar_year(month) if self.number < 4 else self.year.last.year, month, day
        )

    @property
    def due(self) -> date:
        """The day by which its update is sent: 7 August, 7 November, 7 February or 7 May."""
        _, (month, day) = _QUARTERS[self.number - 1]
        return date(self.last.year, month, day)

    def _calendar_year(self, month: int) -> int:
        return self.year.begins + (month < _BEGINS[0])


def tax_year_of(day: date) -> TaxYear:
    """The tax year that a day lies in."""
    return TaxYear(day.year - ((day.month, day.day) < _BEGINS))


def quarter_of(day: date) -> Quarter:
    """The quarter that a day lies in."""
    year = tax_year_of(day)
    return next(quarter for quarter in year.quarters if day <= quarter.last)
