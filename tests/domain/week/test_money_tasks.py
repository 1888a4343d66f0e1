"""Money to ask for."""

from dataclasses import replace
from decimal import Decimal

from domain.days.calendar import show_day
from domain.job import BookedDay, Chase, Cover, Ending
from domain.page_names import PageName
from tests.builders import (
    AGREED,
    DUE,
    LAY_DAY,
    SENT,
    SIGNED,
)
from tests.domain.week.lines import (
    BILLED,
    BOOKED,
    LAID,
    QUOTED,
    STRIPPED,
    days_on,
    tonight,
    words,
)


def test_a_laid_roof_is_to_be_invoiced() -> None:
    (task,) = tonight(LAID, today=LAY_DAY)
    assert (task.words, task.amount, task.page) == ("Send the invoice", 486_00, PageName.MONEY)
    deposit = replace(BILLED.bills[0], deposit=True, owed=0)
    assert words(replace(LAID, bills=(deposit,)), today=LAY_DAY) == ["Send the invoice"]
    assert words(BILLED, today=SIGNED) == []


def test_money_is_overdue_from_the_day_after() -> None:
    assert words(BILLED, today=DUE) == []
    (task,) = tonight(BILLED, today=days_on(DUE, 1))
    assert (task.words, task.amount) == ("Overdue 1 day", 486_00)
    assert words(BILLED, today=days_on(DUE, 12)) == ["Overdue 12 days"]
    paid = replace(BILLED, bills=(replace(BILLED.bills[0], owed=0),))
    assert words(paid, today=days_on(DUE, 12)) == []


def test_a_deposit_of_a_job_called_off_is_owed_all_the_same() -> None:
    called_off = replace(BOOKED, ended=Ending.CALLED_OFF, bills=BILLED.bills)
    assert words(called_off, today=days_on(DUE, 2)) == ["Overdue 2 days"]


def test_a_deposit_that_was_agreed_is_asked_for_until_the_work_begins() -> None:
    agreed = replace(BOOKED, deposit=100_00)
    (task,) = tonight(agreed, today=AGREED)
    assert (task.words, task.amount) == ("Send the deposit invoice", 100_00)
    assert task.page is PageName.MONEY
    sent = replace(BILLED.bills[0], deposit=True)
    assert words(replace(agreed, bills=(sent,)), today=AGREED) == []
    assert words(replace(QUOTED, deposit=100_00), today=SENT) == []
    begun = replace(STRIPPED, deposit=100_00, usage_recorded=True)
    assert "Send the deposit invoice" not in words(begun, today=LAY_DAY)


def test_extras_still_to_agree_are_spoken_of() -> None:
    open_one = replace(STRIPPED, cover=Cover.SHEETED, extras_open=1)
    open_one = replace(open_one, days=(BookedDay(SIGNED, Decimal(4)),))
    (task,) = tonight(open_one, today=LAY_DAY)
    assert (task.words, task.page) == ("Agree the extra", PageName.STRIP)
    assert words(replace(open_one, extras_open=2), today=LAY_DAY) == ["Agree 2 extras"]


def test_what_was_chased_waits_for_its_day_and_says_what_came_of_it() -> None:
    bill = BILLED.bills[0]
    on, day = days_on(DUE, 8), days_on(DUE, 15)
    for promised, told in ((True, "said they would pay on"), (False, "reminded on")):
        line = replace(BILLED, chased=(Chase(bill.id, on, day, promised=promised),))
        assert words(line, today=days_on(DUE, 14)) == []
        (task,) = tonight(line, today=day)
        assert task.words == "Overdue 15 days"
        assert f"{told} {show_day(day if promised else on)}" in task.about
        another = replace(line, bills=(replace(bill, id=bill.id + 1),))
        assert words(another, today=on) == ["Overdue 8 days"]
