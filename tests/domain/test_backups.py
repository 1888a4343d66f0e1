"""Which backups are kept: never less than is said, and always the newest."""

from collections.abc import Callable
from datetime import date, datetime, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.backups import DAYS, MONTHS, WEEKS, kept

EVENING = datetime(2026, 6, 25, 19, 0)
TIMES = st.datetimes(datetime(2024, 1, 1), datetime(2027, 12, 31))
PARTS: dict[str, tuple[Callable[[datetime], object], int]] = {
    "day": (lambda at: at.date(), DAYS),
    "week": (lambda at: at.isocalendar()[:2], WEEKS),
    "month": (lambda at: (at.year, at.month), MONTHS),
}


@given(st.sets(TIMES, min_size=1))
def test_the_newest_is_kept_and_nothing_that_was_never_made(made: set[datetime]) -> None:
    stay = kept(made)
    assert max(made) in stay
    assert stay <= made


@given(st.sets(TIMES))
def test_what_is_kept_is_kept_again(made: set[datetime]) -> None:
    assert kept(kept(made)) == kept(made)


@pytest.mark.parametrize("part", PARTS)
@given(made=st.sets(TIMES, max_size=80))
def test_every_late_day_week_and_month_keeps_its_newest(part: str, made: set[datetime]) -> None:
    when, count = PARTS[part]
    late = sorted({when(at) for at in made}, key=str, reverse=True)
    by_age = sorted({max(at for at in made if when(at) == each) for each in late}, reverse=True)
    assert set(by_age[:count]) <= kept(made)


@given(st.sets(TIMES, max_size=80))
def test_all_of_the_last_seven_days_are_kept(made: set[datetime]) -> None:
    days = sorted({at.date() for at in made})[-DAYS:]
    assert {at for at in made if at.date() in days} <= kept(made)


@given(st.dates(date(2026, 1, 1), date(2027, 12, 31)), st.integers(1, 800))
def test_thinned_out_each_evening_no_gap_is_longer_than_said(last: date, evenings: int) -> None:
    newest = datetime.combine(last, EVENING.time())
    stay: frozenset[datetime] = frozenset()
    for ago in reversed(range(evenings)):
        stay = kept({*stay, newest - timedelta(days=ago)})
    by_age = sorted(stay, reverse=True)
    assert len(by_age) <= DAYS + WEEKS + MONTHS
    for later, earlier in pairwise(by_age):
        age = (newest - later).days
        longest = 1 if age < DAYS - 1 else 7 if age < 7 * (WEEKS - 2) else 31
        assert (later - earlier).days <= longest
    assert (newest - by_age[-1]).days >= min(evenings - 32, 30 * (MONTHS - 2))


def test_a_year_of_evenings_leaves_days_then_sundays_then_month_ends() -> None:
    stay = sorted(kept(EVENING - timedelta(days=ago) for ago in range(400)), reverse=True)
    assert [f"{at:%d %b}" for at in stay] == [
        *("25 Jun", "24 Jun", "23 Jun", "22 Jun", "21 Jun", "20 Jun", "19 Jun"),
        *("14 Jun", "07 Jun", "31 May"),
        *("30 Apr", "31 Mar", "28 Feb", "31 Jan", "31 Dec", "30 Nov"),
        *("31 Oct", "30 Sep", "31 Aug", "31 Jul"),
    ]
