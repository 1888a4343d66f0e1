from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.errors import Refused
from domain.tax import VatBand, VatSum, part_of, rate_on, read_rate, totals_of, vat_by_rate, vat_in

RATES = st.sampled_from([Decimal(20), Decimal(5), Decimal(0)])
LINES = st.lists(st.tuples(RATES, st.integers(min_value=0, max_value=10**7)), max_size=12)


def dec(text: str) -> Decimal:
    return Decimal(text)


@pytest.mark.parametrize("day", [date(1960, 1, 1), date(2026, 11, 28)])
@pytest.mark.parametrize("typed", ["20", "5 %", "0"])
def test_a_rate_in_force_is_read(day: date, typed: str) -> None:
    assert read_rate("vat", typed, day) == dec(typed.split(maxsplit=1)[0])


@pytest.mark.parametrize("typed", ["40", "17.5", "20.5", "", "[/]"])
def test_another_rate_is_refused_with_those_in_force(typed: str) -> None:
    with pytest.raises(Refused, match="Give 20, 5 or 0 per cent, the rates of VAT on that day"):
        read_rate("vat", typed, date(2026, 11, 28))


def test_en_16931_example_2() -> None:
    # CEN validation artefacts v1.3.16, ubl-tc434-example2 (read): lines 1273.00, -3.96, 4.96,
    # -25.00 (exempt), 187.50; allowance -100.00 and charge 100.00 on the document. Which line
    # stands at which rate follows from the sums at 25 % and 15 % (derived).
    lines = [(dec("25"), 1273_00), (dec("15"), -3_96), (dec("15"), 4_96), (dec("0"), -25_00)]
    lines += [(dec("25"), 187_50), (dec("25"), -100_00), (dec("25"), 100_00)]
    totals = totals_of(lines)
    assert totals.vat == (
        VatSum(dec("25"), 1460_50, 365_13),
        VatSum(dec("15"), 1_00, 15),
        VatSum(dec("0"), -25_00, 0),
    )
    assert (totals.net, totals.vat_whole, totals.gross) == (1436_50, 365_28, 1801_78)
    assert totals.gross - 1000_00 == 801_78


def test_en_16931_example_5() -> None:
    # CEN validation artefacts v1.3.16, example5 (read): lines 1000, 500, 2500, document -150 +150.
    lines = [(dec("25"), 1000_00), (dec("25"), 500_00), (dec("12"), 2500_00)]
    lines += [(dec("25"), -150_00), (dec("25"), 150_00)]
    totals = totals_of(lines)
    assert totals.vat == (VatSum(dec("25"), 1500_00, 375_00), VatSum(dec("12"), 2500_00, 300_00))
    assert totals.gross == 4675_00
    assert totals.gross - 2337_50 == 2337_50


def test_en_16931_guide_example_1() -> None:
    # CEN validation artefacts v1.3.16, guide-example1 (read).
    totals = totals_of([(dec("6"), 183_23), (dec("21"), 46_37)])
    assert [s.vat for s in totals.vat] == [9_74, 10_99]
    assert (totals.net, totals.vat_whole, totals.gross) == (229_60, 20_73, 250_33)


def test_three_lines_of_33_33_are_rounded_on_their_sum() -> None:
    # VAT Notice 700 §17.5 (read): £20.01 by line, £19.99 on the total rounded down; half up on the
    # sum lies between (derived).
    assert vat_by_rate([(dec("20"), 33_33)] * 3) == (VatSum(dec("20"), 99_99, 20_00),)


def test_the_vat_fraction() -> None:
    # VAT Notice 700 §7.3.1 (memory): 1/6 at 20 %, 1/21 at 5 %; £250.00 holds £41.67.
    assert vat_in(250_00, dec("20")) == 41_67
    assert vat_in(21_00, dec("5")) == 1_00
    assert vat_in(250_00, dec("0")) == 0


@pytest.mark.parametrize(
    ("band", "percent"), [(VatBand.STANDARD, "20"), (VatBand.REDUCED, "5"), (VatBand.ZERO, "0")]
)
def test_rates_of_a_day(band: VatBand, percent: str) -> None:
    # The standard rate is 20 % since 4 January 2011 (quoted), the reduced 5 % (quoted).
    assert rate_on(band, date(2011, 1, 4)) == rate_on(band, date(2026, 11, 25)) == dec(percent)


@given(LINES)
def test_totals_add_up(lines: list[tuple[Decimal, int]]) -> None:
    totals = totals_of(lines)
    assert totals.net == sum(net for _, net in lines)
    assert totals.gross == totals.net + totals.vat_whole
    assert all(abs(s.vat - s.net * s.rate / 100) <= dec("0.5") for s in totals.vat)


@given(LINES, st.integers(min_value=0, max_value=10**8))
def test_a_part_asked_for_beforehand_is_a_part_of_every_sum(
    lines: list[tuple[Decimal, int]], asked: int
) -> None:
    whole = totals_of(lines)
    part = part_of(whole, min(asked, whole.gross))
    assert part.gross == min(asked, whole.gross) == part.net + part.vat_whole
    for mine, all_of_it in zip(part.vat, whole.vat, strict=True):
        assert mine.rate == all_of_it.rate
        assert 0 <= mine.vat <= all_of_it.vat
        assert 0 <= mine.net <= all_of_it.net


@given(LINES)
def test_the_whole_asked_for_beforehand_is_the_whole(lines: list[tuple[Decimal, int]]) -> None:
    whole = totals_of(lines)
    assert part_of(whole, whole.gross) == whole
