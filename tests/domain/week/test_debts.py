"""What is owed, by how long it has been overdue."""

from dataclasses import replace
from datetime import date

from domain.job import Stage
from domain.week.debts import owed_by_age
from domain.week.week_data import Bill
from tests import builders

(BILL,) = builders.week_line(builders.job_at(Stage.SIGNED_OFF)).bills


def bill(due: date, owed: int = 486_00) -> Bill:
    return replace(BILL, due_on=due, owed=owed)


def test_what_is_owed_is_told_by_age() -> None:
    today = date(2026, 12, 31)
    bills = [
        *(bill(date(2026, 12, 31)), bill(date(2026, 12, 30), 400_00), bill(date(2026, 12, 1))),
        *(bill(date(2026, 11, 30)), bill(date(2026, 11, 1)), bill(date(2026, 10, 31))),
        *(bill(date(2026, 10, 2)), bill(date(2026, 10, 1)), bill(date(2026, 9, 1), 0)),
    ]
    assert [(owed.words, owed.pence, owed.bills) for owed in owed_by_age(bills, today)] == [
        ("not due", 486_00, 1),
        ("up to 30 days overdue", 886_00, 2),
        ("31 to 60 days overdue", 2 * 486_00, 2),
        ("61 to 90 days overdue", 2 * 486_00, 2),
        ("over 90 days overdue", 486_00, 1),
    ]


def test_nothing_owed_is_nothing_of_any_age() -> None:
    ages = owed_by_age([], date(2026, 12, 31))
    assert len(ages) == 5
    assert sum(owed.pence + owed.bills for owed in ages) == 0
