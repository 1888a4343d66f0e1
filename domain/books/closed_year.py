"""A tax year whose last update was due: what falls into it was told, so it is asked about."""

from datetime import date

from domain.days.calendar import show_in_full
from domain.tax.years import TaxYear, tax_year_of
from domain.typing_slips import Slip


def told_already(on: date, today: date) -> TaxYear | None:
    """The tax year of a day, once its last update was due; None until then."""
    year = tax_year_of(on)
    return year if today > year.quarters[-1].due else None


def closed_year(field: str, on: date, today: date) -> Slip | None:
    """Ask about a day of such a year."""
    year = told_already(on, today)
    if year is None:
        return None
    return Slip(field, f"{show_in_full(on)} is in {year}, whose last quarter was due already")
