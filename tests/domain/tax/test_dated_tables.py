"""Tax years, miles and thresholds, held to what was published."""

from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.tax.mileage import worth_of_miles
from domain.tax.thresholds import updates_threshold, vat_threshold
from domain.tax.years import TaxYear, quarter_of, tax_year_of


@pytest.mark.parametrize(
    ("begins", "miles", "pence"),
    [
        # GOV.UK calculator tests and simplified expenses: read.
        (2026, 10_000, 5_500_00),
        (2026, 10_001, 5_500_25),
        (2025, 10_000, 4_500_00),
        (2025, 10_001, 4_500_25),
        (2025, 11_000, 4_750_00),
        # From the same rates: computed.
        (2026, 12_340, 6_085_00),
        (2025, 12_340, 5_085_00),
    ],
)
def test_the_miles_of_a_year_come_to_what_was_published(
    begins: int, miles: int, pence: int
) -> None:
    assert worth_of_miles(TaxYear(begins), Decimal(miles)) == pence


def test_half_a_penny_of_miles_is_rounded_up_once() -> None:
    assert worth_of_miles(TaxYear(2026), Decimal("0.1")) == 6
    assert worth_of_miles(TaxYear(2026), Decimal("0.2")) == 11


@pytest.mark.parametrize(
    ("day", "last", "due"),
    [
        # GOV.UK, Making Tax Digital for Income Tax: quoted.
        (date(2026, 4, 6), date(2026, 7, 5), date(2026, 8, 7)),
        (date(2026, 7, 6), date(2026, 10, 5), date(2026, 11, 7)),
        (date(2026, 12, 31), date(2027, 1, 5), date(2027, 2, 7)),
        (date(2027, 1, 5), date(2027, 1, 5), date(2027, 2, 7)),
        (date(2027, 4, 5), date(2027, 4, 5), date(2027, 5, 7)),
    ],
)
def test_a_day_lies_in_a_quarter_with_its_due_day(day: date, last: date, due: date) -> None:
    quarter = quarter_of(day)
    assert (quarter.last, quarter.due) == (last, due)


@given(st.dates(date(2000, 1, 1), date(2098, 1, 1)))
def test_the_quarters_of_a_year_follow_on_and_every_day_is_in_one(day: date) -> None:
    year = tax_year_of(day)
    quarters = year.quarters
    assert (quarters[0].first, quarters[-1].last) == (year.first, year.last)
    for before, after in pairwise(quarters):
        assert after.first == before.last + timedelta(days=1)
    assert quarter_of(day).first <= day <= quarter_of(day).last
    assert day in year


def test_a_tax_year_is_named_as_people_write_it_and_ends_in_a_return() -> None:
    assert (str(TaxYear(2026)), str(TaxYear(1999))) == ("2026-27", "1999-00")
    assert TaxYear(2026).deadline == date(2028, 1, 31)


@pytest.mark.parametrize(
    ("begins", "pence", "since"),
    # GOV.UK, Making Tax Digital for Income Tax: quoted; the last row derived.
    [
        (2024, 50_000_00, 2026),
        (2025, 30_000_00, 2027),
        (2026, 20_000_00, 2028),
        (2029, 20_000_00, 2031),
    ],
)
def test_the_income_of_a_year_decides_on_the_updates_of_the_one_after_next(
    begins: int, pence: int, since: int
) -> None:
    found = updates_threshold(TaxYear(begins))
    assert found is not None
    assert (found.over, found.updates_from.begins) == (pence, since)


def test_nothing_was_held_against_the_income_of_2023_24() -> None:
    assert updates_threshold(TaxYear(2023)) is None


def test_the_vat_threshold_is_that_of_its_day() -> None:
    # GOV.UK, VAT registration: £90,000 read, £85,000 in May 2022 quoted.
    assert vat_threshold(date(2022, 5, 31)) == 85_000_00
    assert vat_threshold(date(2026, 11, 28)) == 90_000_00
