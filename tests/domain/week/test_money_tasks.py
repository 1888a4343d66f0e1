"""Money to ask for."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from domain.days.calendar import show_day
from domain.job import BookedDay, Chase, Cover, Ending
from domain.page_names import PageName
from domain.week import Task, TaskKind, WeekLine
from tests import priced
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


def test_a_vat_invoice_is_due_30_days_after_the_tax_point() -> None:
    """24 Jun gives 24 Jul 2026 (VAT Regulations 1995 reg. 13(5): from memory; derived)."""
    laid = replace(LAID, laid_on=date(2026, 6, 24), usage_recorded=True)
    (task,) = _of_invoice(laid, date(2026, 7, 2))
    assert (task.words, task.about) == (
        "Send the invoice",
        "VAT invoice by 24 Jul, 30 days after the tax point",
    )
    (task,) = _of_invoice(laid, date(2026, 7, 14))
    assert task.words == "Invoice by 24 Jul"
    # With a deposit asked the day of the work brings nothing to tax, but money that came does.
    asked = replace(laid, deposit=100_00)
    (task,) = _of_invoice(asked, date(2026, 7, 14))
    assert (task.words, task.about) == ("Send the invoice", "")
    ahead = replace(asked, credit=100_00, paid=((date(2026, 6, 1), 100_00),))
    (task,) = _of_invoice(ahead, date(2026, 6, 24))
    assert task.words == "Invoice by 1 Jul"


def _of_invoice(line: WeekLine, today: date) -> list[Task]:
    found = tonight(line, today=today, by=priced.registered())
    return [each for each in found if each.kind is TaskKind.INVOICE]


def test_what_was_overpaid_on_a_job_that_is_paid_is_spoken_of_until_it_is_settled() -> None:
    paid = replace(BILLED, bills=(replace(BILLED.bills[0], owed=0),), credit=25_00)
    (task,) = tonight(paid, today=days_on(DUE, 1))
    assert (task.kind, task.words, task.amount) == (TaskKind.CREDIT, "Overpaid: pay it back", 25_00)
    assert words(replace(paid, credit=0), today=days_on(DUE, 1)) == []
    still_owed = replace(paid, bills=BILLED.bills)
    assert TaskKind.CREDIT not in {each.kind for each in tonight(still_owed, today=DUE)}
