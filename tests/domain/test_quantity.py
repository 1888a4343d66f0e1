"""Numbers as they are typed, with their unit or without."""

from contextlib import suppress
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.errors import Refused
from domain.quantity import read_count, read_kg, read_number, show_quantity

UNITS = ("", "hour", "minute", "day", "mile", "m", "%", "strip", "box")
SCRAPS = st.lists(
    st.sampled_from(["1", "9", "0", ",000", ".", ".5", " ", "½", "/", "hrs", "%", "kg", "t", "-"])
).map("".join)
TEXTS = st.one_of(st.text(max_size=45), SCRAPS, st.decimals().map(str))


def _read(text: str, unit: str, least: Decimal, most: Decimal) -> Decimal | Refused:
    """What is read, or the refusal itself."""
    try:
        return read_number("hours", text, "hours: 8", unit=unit, least=least, most=most)
    except Refused as refused:
        return refused


@given(TEXTS, st.sampled_from(UNITS), st.integers(-5, 50), st.integers(0, 10**6))
def test_a_number_is_within_its_bounds_or_refused(
    text: str, unit: str, least: int, more: int
) -> None:
    low, high = Decimal(least), Decimal(least + more)
    number = _read(text, unit, low, high)
    if isinstance(number, Refused):
        assert str(number).startswith(("Hours: ", "Hours is empty."))
        assert str(number).endswith("hours: 8.")
    else:
        assert low <= number <= high
    with suppress(Refused):
        assert 0 <= read_kg("kg", text, "kilograms", most=Decimal(50)) <= 50


@given(st.decimals(0, 99_999, places=3), st.sampled_from(UNITS))
def test_a_number_as_shown_reads_back(number: Decimal, unit: str) -> None:
    assert read_number("hours", show_quantity(number), "x", unit=unit) == number
    assert read_kg("kg", f"{show_quantity(number)} kg", "x", most=Decimal(10**5)) == number


@pytest.mark.parametrize(
    ("text", "unit", "number"),
    [
        ("9½", "", "9.5"),
        ("9 1/2", "", "9.5"),
        ("¼", "", "0.25"),
        ("1/8", "", "0.125"),
        ("1,200", "", "1200"),
        (" .5 ", "", "0.5"),
        ("007", "", "7"),
        ("14", "mile", "14"),
        ("14 mi", "mile", "14"),
        ("14 miles", "mile", "14"),
        ("8 h", "hour", "8"),
        ("7½ hrs", "hour", "7.5"),
        ("90 mins", "minute", "90"),
        ("1/2 hour", "minute", "30"),
        ("30 days", "day", "30"),
        ("4 weeks", "day", "28"),
        ("a fortnight", "day", None),
        ("1 fortnight", "day", "14"),
        ("5%", "%", "5"),
        ("5 per cent", "%", "5"),
        ("3.5m", "m", "3.5"),
        ("12 strips", "strip", "12"),
        ("2 boxes", "box", "2"),
        ("12 strips", "m", None),
        ("14 km", "mile", None),
        ("8 hours", "", None),
        ("91/3", "", None),
        ("1/3", "", None),
        ("1.5 1/2", "", None),
        ("1,,2", "", None),
        ("1.2345", "", None),
        ("-1", "", None),
        ("one", "", None),
        ("", "", None),
    ],
)
def test_a_number_is_read_as_people_write_it(text: str, unit: str, number: str | None) -> None:
    if number is None:
        with pytest.raises(Refused, match="Give so many"):
            read_number("hours", text, "so many", unit=unit)
    else:
        assert read_number("hours", text, "so many", unit=unit) == Decimal(number)


@pytest.mark.parametrize("text", ["1.5", "½", "1000", "-1", "", "one"])
def test_a_count_is_whole_and_within_its_bounds(text: str) -> None:
    with pytest.raises(Refused, match="Layers"):
        read_count("layers", text, "how many", most=9)


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("40", "40"),
        ("40 kg", "40"),
        ("152½", "152.5"),
        ("1.2 t", "1200"),
        ("500g", "0.5"),
        ("2 cwt", "101.605"),
        ("1 lb", "0.454"),
        ("1,200 kilos", "1200"),
    ],
)
def test_a_weight_is_in_kilograms_to_the_gram(text: str, kg: str) -> None:
    # The pound is 0.45359237 kg by definition, a hundredweight 112 lb; to the gram, half up.
    assert read_kg("kg", text, "kilograms", most=Decimal(5000)) == Decimal(kg)


@pytest.mark.parametrize("text", ["", "heavy", "40 m", "-1", "5001", "6 t"])
def test_what_is_no_weight_or_too_great_a_one_is_refused(text: str) -> None:
    with pytest.raises(Refused, match="kilograms such as 40"):
        read_kg("kg", text, "kilograms such as 40", most=Decimal(5000))
