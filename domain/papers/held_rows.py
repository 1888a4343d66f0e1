"""Rows and tables of what is known; nothing is said of what is not."""

from collections.abc import Iterable, Iterator
from datetime import date

from domain.days.calendar import show_date
from domain.papers.blocks import Column, Details, Table

_FIGURES = ("Price", "Sum", "Paid")
"""The columns that stand to the right."""


def known_details(heading: str, *rows: tuple[str, str]) -> Iterator[Details]:
    """Label and value of each that is known; no block where none is."""
    known = tuple((label, value) for label, value in rows if value.strip())
    if known:
        yield Details(known, heading)


def table_of(
    heading: str, titles: Iterable[str], rows: Iterable[tuple[str, ...]]
) -> Iterator[Table]:
    """A table of what there is; no block of nothing."""
    found = tuple(rows)
    if found:
        yield Table(tuple(Column(title, title in _FIGURES) for title in titles), found, heading)


def day_of(on: date | None) -> str:
    """The day; nothing for None."""
    return show_date(on) if on else ""


def yes_no(answer: bool | None) -> str:
    """The answer; nothing for None."""
    return "" if answer is None else "yes" if answer else "no"


def in_a_row(*parts: str) -> str:
    """The parts that there are, with commas between."""
    return ", ".join(part for part in parts if part.strip())
