"""On which day what a trader who is not registered supplies counts for the VAT threshold.

They issue no VAT invoice: VAT Regulations 1995 reg. 14(1) and 93(1): read; the days: derived.
"""

from datetime import date

import pytest

from domain.books.turnover import Billed, Came, Work, supplies
from domain.books.watched import Supply

DONE = date(2026, 6, 24)
INVOICED = date(2026, 7, 5)
BEFORE, AFTER = date(2026, 6, 20), date(2026, 8, 3)


@pytest.mark.parametrize(
    ("asks_first", "came", "counted"),
    [
        (True, (), ()),  # an invoice that is no VAT invoice makes no tax point
        (True, ((AFTER, 300_00),), ((AFTER, 300_00),)),
        (True, ((BEFORE, 100_00), (AFTER, 380_00)), ((BEFORE, 100_00), (AFTER, 380_00))),
        (False, (), ((DONE, 480_00),)),  # not the day of an invoice within 14 days
        (False, ((AFTER, 480_00),), ((DONE, 480_00),)),
        (False, ((BEFORE, 100_00), (AFTER, 380_00)), ((BEFORE, 100_00), (DONE, 380_00))),
    ],
)
def test_the_money_counts_where_a_deposit_is_asked_and_else_the_day_of_the_work(
    asks_first: bool, came: tuple[tuple[date, int], ...], counted: tuple[tuple[date, int], ...]
) -> None:
    work = Work(asks_first, DONE)
    found = supplies(
        [Billed(1, work, 480_00, INVOICED)], [Came(work, on, pence, 1) for on, pence in came]
    )
    assert tuple(found) == tuple(Supply(on, pence) for on, pence in counted)


def test_money_for_work_that_is_not_done_yet_counts_as_it_comes() -> None:
    came = [Came(Work(asks, None), BEFORE, 100_00) for asks in (True, False)]
    assert list(supplies([], came)) == [Supply(BEFORE, 100_00)] * 2
    assert list(supplies([], [Came(Work(False, DONE), AFTER, 25_00)])) == []
