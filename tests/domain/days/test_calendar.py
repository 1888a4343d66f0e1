"""Days as typed and as shown, the right to cancel, bank holidays."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import strategies as st

from domain.days.calendar import (
    NATIONS,
    bank_holidays,
    cancellation_ends,
    months_after,
    show_date,
    show_day,
    show_day_from,
    show_hours,
    show_near,
    show_weekday,
    untold_cancellation_ends,
)
from domain.days.cancellation import goods_end, right_applies, right_ends, service_ends
from domain.errors import Refused
from domain.job import CustomerKind, MadeAt
from tests.builders import acceptance, customer

TODAY = date(2026, 6, 24)  # a Wednesday
DATES = st.dates(date(2000, 1, 1), date(2099, 12, 31))


def test_days_are_shown_short_whole_and_as_spoken() -> None:
    day = date(2026, 11, 25)
    assert (show_day(day), show_weekday(day)) == ("25 Nov", "Wed 25")
    assert show_date(day) == "Wed 25 Nov 2026"
    spoken = [show_near(TODAY + timedelta(days=n), TODAY) for n in (-1, 0, 1, 2, 6, 7)]
    assert spoken == ["23 Jun", "today", "tomorrow", "Friday", "Tuesday", "1 Jul"]


@pytest.mark.parametrize(
    ("hours", "shown"),
    [
        ("8", "8"),
        ("8.0", "8"),
        ("6.5", "6½"),
        ("0.25", "¼"),
        ("1.75", "1¾"),
        ("6.4", "6.4"),
        ("0", "0"),
    ],
)
def test_hours_are_shown_in_quarters(hours: str, shown: str) -> None:
    assert show_hours(Decimal(hours)) == shown


@pytest.mark.parametrize(
    ("day", "months", "after"),
    [
        (date(2026, 1, 31), 1, date(2026, 2, 28)),
        (date(2027, 12, 15), 12, date(2028, 12, 15)),
        (date(2028, 2, 29), 12, date(2029, 2, 28)),
        (date(2026, 12, 1), 1, date(2027, 1, 1)),
        (date(2027, 3, 31), -1, date(2027, 2, 28)),
        (date(2027, 1, 5), -1, date(2026, 12, 5)),
    ],
)
def test_months_end_where_the_month_does(day: date, months: int, after: date) -> None:
    assert months_after(day, months) == after


@pytest.mark.parametrize(
    ("agreed", "last"),
    [
        # Consumer Contracts Regulations 2013 reg. 30: quoted. The second by the same rule.
        (date(2026, 11, 25), date(2026, 12, 9)),
        (date(2028, 2, 20), date(2028, 3, 5)),
    ],
)
def test_the_right_to_cancel_ends_14_days_after_the_agreement(agreed: date, last: date) -> None:
    assert cancellation_ends(agreed) == last
    assert (
        right_ends(customer(), acceptance(on=agreed, notice_on=agreed, materials_on=agreed)) == last
    )
    given_before = acceptance(on=agreed, materials_on=agreed, notice_on=agreed - timedelta(days=7))
    assert right_ends(customer(), given_before) == last


def test_the_later_of_two_last_days_is_told_and_both_are_kept() -> None:
    """Agreed 1 Jun 2026, materials 24 Jun: service 15 Jun, goods 8 Jul (reg. 30: derived)."""
    agreed = date(2026, 6, 1)
    yes = acceptance(on=agreed, notice_on=agreed, materials_on=date(2026, 6, 24))
    assert service_ends(customer(), yes) == date(2026, 6, 15)
    assert goods_end(customer(), yes) == right_ends(customer(), yes) == date(2026, 7, 8)
    not_yet = replace(yes, materials_on=None)
    assert goods_end(customer(), not_yet) is None
    assert right_ends(customer(), not_yet) == date(2026, 6, 15)


def test_a_customer_told_late_has_14_days_from_then_and_never_told_a_year_more() -> None:
    # Consumer Contracts Regulations 2013 reg. 31: quoted ("up to 12 months more").
    agreed = date(2026, 11, 25)
    assert untold_cancellation_ends(agreed) == date(2027, 12, 9)
    late = acceptance(on=agreed, notice_on=date(2027, 1, 4))
    assert right_ends(customer(), late) == date(2027, 1, 18)
    far_too_late = acceptance(on=agreed, notice_on=date(2027, 12, 24))
    assert right_ends(customer(), far_too_late) == date(2027, 12, 9)
    never = acceptance(on=agreed, notice_on=None)
    assert right_ends(customer(), never) == date(2027, 12, 9)


def test_only_a_householder_who_did_not_come_to_the_trader_has_the_right() -> None:
    business = customer(kind=CustomerKind.BUSINESS)
    assert right_applies(customer(), acceptance(made_at=MadeAt.DISTANCE))
    assert right_ends(customer(), acceptance(made_at=MadeAt.PREMISES)) is None
    assert right_ends(business, acceptance()) is None


# GOV.UK bank holidays data for 2026: read.
_BOTH = {(1, 1), (4, 3), (5, 4), (5, 25), (12, 25), (12, 28)}


@pytest.mark.parametrize(
    ("nation", "days"),
    [
        ("England", _BOTH | {(4, 6), (8, 31)}),
        ("Wales", _BOTH | {(4, 6), (8, 31)}),
        ("Scotland", _BOTH | {(1, 2), (6, 15), (8, 3), (11, 30)}),
    ],
)
def test_bank_holidays_are_those_published(nation: str, days: set[tuple[int, int]]) -> None:
    assert set(bank_holidays(nation, 2026)) == {date(2026, month, day) for month, day in days}


def test_a_holiday_at_a_weekend_stands_by_its_substitute_alone() -> None:
    # The same list: 26 December 2026 is a Saturday, its substitute Monday the 28th (read).
    christmas = bank_holidays("England", 2026)
    assert date(2026, 12, 26) not in christmas
    assert christmas[date(2026, 12, 28)] == "Boxing Day (substitute)"


@pytest.mark.parametrize("nation", NATIONS)
def test_every_nation_keeps_new_year(nation: str) -> None:
    assert date(2026, 1, 1) in bank_holidays(nation, 2026)


def test_another_nation_is_refused() -> None:
    with pytest.raises(Refused, match="England, Wales, Scotland, Northern Ireland"):
        bank_holidays("Ruritania", 2026)


@pytest.mark.parametrize(
    ("day", "shown"),
    [
        (date(2027, 5, 20), "20 May"),
        (date(2027, 6, 5), "5 Jun 2027"),
        (date(2028, 1, 5), "5 Jan 2028"),
        (date(2026, 6, 5), "5 Jun"),
        (date(2026, 5, 20), "20 May 2026"),
    ],
)
def test_a_day_is_told_with_its_year_where_another_is_nearer(day: date, shown: str) -> None:
    assert show_day_from(day, date(2026, 11, 28)) == shown
