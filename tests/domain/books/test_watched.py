from datetime import date

import pytest

from domain.books.money_in import MoneyIn
from domain.books.quarter import Books
from domain.books.watched import Nearness, Supply, updates_warning, vat_duty, vat_warning, watched

TODAY = date(2026, 11, 28)


def test_over_the_vat_threshold_both_days_are_named() -> None:
    # GOV.UK, VAT registration: £87,000 passed in May 2022, limit then £85,000 → by 30 June 2022,
    # registered from 1 July 2022 (quoted).
    duty = vat_duty([Supply(date(2022, 5, 9), 87_000_00)], date(2022, 6, 1))
    assert duty is not None
    assert (duty.register_by, duty.registered_from) == (date(2022, 6, 30), date(2022, 7, 1))
    # The month has to be over.
    assert vat_duty([Supply(date(2022, 5, 9), 87_000_00)], date(2022, 5, 31)) is None


def test_exactly_the_threshold_is_no_duty_and_a_penny_more_is() -> None:
    for pence, is_due in ((90_000_00, False), (90_000_01, True)):
        assert (vat_duty([Supply(date(2026, 9, 3), pence)], TODAY) is not None) is is_due


def test_twelve_whole_months_are_looked_at_and_not_thirteen() -> None:
    first, last = Supply(date(2025, 10, 1), 45_000_01), Supply(date(2026, 9, 30), 45_000_00)
    assert vat_duty([first, last], TODAY) is not None
    before = Supply(date(2025, 9, 30), 45_000_01)
    assert vat_duty([before, last], TODAY) is None


@pytest.mark.parametrize(
    ("pence", "said"),
    [
        (71_999_99, ""),
        (72_000_00, "over 80 %"),
        (81_000_00, "over 90 %"),
    ],
)
def test_the_vat_threshold_is_said_from_80_and_90_per_cent(pence: int, said: str) -> None:
    warning = vat_warning([Supply(date(2026, 2, 3), pence)], TODAY)
    assert (warning is not None) is bool(said)
    assert warning is None or (said in warning.words and warning.nearness is Nearness.NEAR)


def _income(on: date, pence: int) -> Books:
    return Books(money=(MoneyIn(on, pence, "bank transfer", "Mrs Alder", "0041"),))


@pytest.mark.parametrize(
    ("on", "pence", "said"),
    # GOV.UK, Making Tax Digital for Income Tax: quoted.
    [
        (date(2024, 6, 1), 50_000_00, ""),
        (date(2024, 6, 1), 50_000_01, ""),  # due already
        (date(2025, 6, 1), 30_000_01, "6 April 2027"),
        (date(2026, 6, 1), 20_000_01, "6 April 2028"),
        (date(2026, 6, 1), 15_999_99, ""),
        (date(2026, 6, 1), 16_000_00, "so far in 2026-27"),
    ],
)
def test_income_over_its_sum_names_the_day_from_which_updates_are_due(
    on: date, pence: int, said: str
) -> None:
    warning = updates_warning(_income(on, pence), TODAY)
    assert (warning is not None) is bool(said)
    assert warning is None or said in warning.words


def test_over_50_000_of_2024_25_is_said_until_the_updates_are_due() -> None:
    # GOV.UK, Making Tax Digital for Income Tax: quoted.
    books = _income(date(2024, 6, 1), 50_000_01)
    said = updates_warning(books, date(2026, 4, 5))
    assert said is not None
    assert "6 April 2026" in said.words
    assert updates_warning(_income(date(2024, 6, 1), 50_000_00), date(2026, 4, 5)) is None
    assert updates_warning(books, date(2026, 4, 6)) is None


def test_who_is_registered_is_told_nothing_of_the_vat_threshold() -> None:
    supplied = [Supply(date(2026, 9, 3), 90_000_01)]
    for registered, told in ((False, 1), (True, 0)):
        assert len(watched(Books(), supplied, TODAY, registered=registered)) == told
