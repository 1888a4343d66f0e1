"""Nails as they are typed, counted or weighed."""

from contextlib import suppress
from decimal import Decimal
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.errors import Refused
from domain.takeoff.nails import nails_by_weight, read_nails


@pytest.mark.parametrize(
    ("typed", "count"),
    [
        *(("900", 900), ("1,200", 1200), ("900 nails", 900), ("1 nail", 1), ("0 kg", 0)),
        *(("1kg", 585), ("500 g", 292), ("0.5 kg", 292), ("1 lb", 265), ("2.5 kilos", 1462)),
        *(("1 kg 20 x 3", 585), ("1 kg of 20x3mm", 585), ("1 kg of 20 mm × 3 mm", 585)),
    ],
)
def test_nails_are_counted_or_weighed(typed: str, count: int) -> None:
    # 585 a kilogram: derived in test_fixings from steel at 7850 kg/m³
    assert read_nails("quantity", typed) == count


def test_other_nails_are_counted_by_their_size() -> None:
    # derived: shank 40 × ø3.35 mm, head ø10.05 × 1.34 mm, steel at 7.85 g/cm³; 3.602 g each
    grams = pi / 4 * (3.35**2 * 40 + 10.05**2 * 1.34) * 7.85e-3
    assert read_nails("quantity", "1 kg 40 x 3.35") == int(1000 / grams) == 277


@pytest.mark.parametrize(
    ("typed", "beside"),
    [
        ("1 kg", "1 kg, about 585 nails"),
        (" 5 kg ", "5 kg, about 2,925 nails"),
        ("1 kg of 40 x 3.35", "1 kg, about 277 nails"),
        ("900", ""),
        ("900 nails", ""),
        ("", ""),
        ("a few", ""),
    ],
)
def test_the_count_is_shown_beside_a_weight(typed: str, beside: str) -> None:
    assert nails_by_weight(typed) == beside


@pytest.mark.parametrize("typed", ["", "a few", "1 m", "1 kg 30", "9 boxes", "-1 kg", "½ nail"])
def test_what_is_no_number_of_nails_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match="Give how many nails, or their weight such as 1 kg"):
        read_nails("quantity", typed)


@pytest.mark.parametrize("typed", ["1 kg 5 x 3", "1 kg 300 x 3", "1 kg 30 x 9", "1 kg 30 x 0.5"])
def test_a_size_no_roofing_nail_has_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match="from 10 x 1 to 200 x 8 mm"):
        read_nails("quantity", typed)


def test_a_weight_of_less_than_a_nail_is_less_than_one() -> None:
    with pytest.raises(Refused, match="Give 1 to 100,000"):
        read_nails("quantity", "1 g", least=Decimal(1))


@given(st.text(st.sampled_from("0123456789., kgx×ofmnails½"), max_size=20))
def test_any_text_is_a_number_of_nails_or_refused(text: str) -> None:
    with suppress(Refused):
        assert 0 <= read_nails("quantity", text) <= 100_000
    assert nails_by_weight(text).isprintable()
