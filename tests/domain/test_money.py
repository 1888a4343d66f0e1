import re
from contextlib import suppress
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.errors import Refused
from domain.money import (
    apportion,
    read_money,
    read_rough_money,
    share,
    show_money,
    times,
    whole_pence,
)

EXACT_PENCE = st.decimals(min_value=0, max_value=10**7, places=4)


def test_a_quarter_of_1460_50_is_rounded_half_up() -> None:
    # EN 16931, ubl-tc434-example2 (read): 25 % of 1460.50 = 365.13, half-even gives 365.12.
    assert share(1460_50, Decimal(25)) == 365_13


@pytest.mark.parametrize(
    ("exact", "rounded"),
    [("0.5", 1), ("1.5", 2), ("2.5", 3), ("2.4999", 2), ("-0.5", -1), ("-2.5", -3), ("7", 7)],
)
def test_halves_go_away_from_zero(exact: str, rounded: int) -> None:
    assert whole_pence(Decimal(exact)) == rounded


def test_a_quantity_is_priced_and_rounded_once() -> None:
    assert times(33_33, Decimal(3)) == 99_99
    assert times(28_00, Decimal("3.75")) == 105_00
    assert times(55, Decimal("0.5")) == 28


def test_shares_of_a_penny_go_where_most_was_lost() -> None:
    assert apportion([Decimal("10.2"), Decimal("10.5"), Decimal("10.4")]) == (10, 11, 10)
    assert apportion([Decimal("0.5"), Decimal("0.5")]) == (1, 0)
    assert apportion([]) == ()


@given(st.lists(EXACT_PENCE, max_size=12))
def test_no_penny_is_lost_or_found(exact: list[Decimal]) -> None:
    parts = apportion(exact)
    assert sum(parts) == whole_pence(sum(exact, Decimal(0)))
    assert all(abs(part - each) < 1 for part, each in zip(parts, exact, strict=True))


@pytest.mark.parametrize(
    ("pence", "shown"),
    [(0, "£0.00"), (5, "£0.05"), (1_240_00, "£1,240.00"), (-3_96, "−£3.96"), (99, "£0.99")],
)
def test_money_is_shown_as_people_read_it(pence: int, shown: str) -> None:
    assert show_money(pence) == shown


@pytest.mark.parametrize(
    ("text", "pence"),
    [
        ("486", 486_00),
        (" £1,240.50 ", 1_240_50),
        ("12.5", 12_50),
        (".99", 99),
        ("£ 1 240", 1_240_00),
        ("0", 0),
        ("1250", 1_250_00),
        ("1.2k", 1_200_00),
        ("£1.2345K", 1_234_50),
        ("2 k", 2_000_00),
        ("50p", 50),
        ("600 quid", 600_00),
        ("600 pounds", 600_00),
        ("-3.96", -3_96),
    ],
)
def test_money_is_read_as_people_write_it(text: str, pence: int) -> None:
    assert read_money("Deposit", text, least=-400) == pence


@pytest.mark.parametrize(
    "text",
    [
        *("about 600", "~600", "≈ £600", "600ish", "600-ish"),
        *("About £600.00", "c. 600", "say 0.6k", "600"),
    ],
)
def test_a_rough_price_is_read_without_the_words_round_it(text: str) -> None:
    assert read_rough_money("rough", text) == 600_00
    if text != "600":
        with pytest.raises(Refused, match="Give pounds and pence"):
            read_money("deposit", text)


@pytest.mark.parametrize(
    "text", ["about", "about about 600", "ish", "~", "about 600 or so", "-600"]
)
def test_a_rough_price_that_is_none_is_refused_with_all_that_was_typed(text: str) -> None:
    with pytest.raises(Refused, match=f"^Rough: “{re.escape(text)}” is not valid"):
        read_rough_money("rough", text)


@given(st.integers(min_value=-(10**10), max_value=10**10))
def test_what_is_shown_reads_back(pence: int) -> None:
    assert read_money("Sum", show_money(pence), least=-(10**10)) == pence


@pytest.mark.parametrize(
    "text",
    [
        *("", " ", "£", ".", "abc", "1.234", "1,24", "1e5", "nan", "٣", "²", "1\n2", "[/]"),
        *("0.5p", "1.234567k", "1.234 quid", "k", "£" * 9999),
    ],
)
def test_what_is_no_money_is_refused_by_name(text: str) -> None:
    with pytest.raises(Refused, match=r"^Deposit(: .* is not valid| is empty)\."):
        read_money("Deposit", text)


@given(st.text(alphabet=st.sampled_from("0123456789.,£~kp -−isha bout"), max_size=30))
def test_any_text_is_a_sum_or_refused(text: str) -> None:
    for read in (read_money, read_rough_money):
        with suppress(Refused):
            assert 0 <= read("rough", text) <= 10**10


def test_too_little_and_too_much_are_refused() -> None:
    with pytest.raises(Refused, match=r"Give £0\.00 or more"):
        read_money("Deposit", "-1")
    with pytest.raises(Refused, match=r"Give £0\.01 or more"):
        read_money("Paid", "0", least=1)
    with pytest.raises(Refused, match=r"Give £100,000,000\.00 or less"):
        read_money("Deposit", "100000000.01")
