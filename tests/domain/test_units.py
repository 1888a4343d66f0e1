"""Typed measures are read exactly or refused."""

import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from fractions import Fraction

import pint
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from domain.errors import Refused
from domain.units import (
    Length,
    parse_length,
    parse_offset,
    parse_speed,
    parse_temperature,
    parse_weight,
    show_mm,
)
from tests import strategies

HOSTILE = [
    "",
    "   ",
    "m",
    "(2.4) m",
    "2.4 m [bold]",
    "2.4\nm",
    "2.4 m\n",
    "\x00",
    "\u202e2.4 m",
    "😀 m",
    "٣ m",
    "2**9999999",
    "9" * 10_000,
    " " * 10_000 + "1",
    "__import__('os')",
    "inf",
    "nan",
    "1e3 m",
    "0x10",
    "1/0 m",
    "2,4 m",
    "1,00 m",
    "2.4.1 m",
    "--2 m",
    "2.4 m 2400",
]


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("2.4 m", "2400"),
        ("2.4M", "2400"),
        ("2400", "2400"),
        ("2400mm", "2400"),
        ("2,400 mm", "2400"),
        (" 2,400.5 ", "2400.5"),
        ("\N{NO-BREAK SPACE}45\N{NO-BREAK SPACE}cm", "450"),
        ("2 m 40 cm", "2400"),
        (".5 m", "500"),
        ("0", "0"),
        ("8 ft", "2438.4"),
        ("8 feet", "2438.4"),
        ("7'10\"", "2387.6"),
        ("7’ 10”", "2387.6"),
        ("7'10''", "2387.6"),
        ("7' 10", "2387.6"),
        ("8 ft 3 1/2", "2527.3"),
        ("8' 3 1/2\"", "2527.3"),
        ("8ft3½", "2527.3"),
        ("1 ft 8", "508"),
        ("20'6\"", "6248.4"),
        ("2ft6", "762"),
        ("2.4m", "2400"),
        ("240cm", "2400"),
        ("10m", "10000"),
        ("50 mil", "50"),
        ("8′ 6″", "2590.8"),
        ("7 ft 10 1/2 in", "2400.3"),
        ("7ft 10½in", "2400.3"),
        ("1 1/2 in", "38.1"),
        ("¾ in", "19.05"),
        ("5/8 in", "15.875"),
        ("2 yd", "1828.8"),
        ("2 yards 1 ft", "2133.6"),
        ("0.01 km", "10000"),
    ],
)
def test_a_length_is_read_exactly(text: str, mm: str) -> None:
    assert parse_length("Length", text).mm == Fraction(mm)


def test_thirds_of_an_inch_stay_thirds() -> None:
    assert parse_length("Length", "10 1/3 in").mm == Fraction(10 * 3 + 1, 3) * Fraction("25.4")


def test_what_was_typed_is_kept_and_does_not_tell_lengths_apart() -> None:
    typed = parse_length("Length", " 8 ft ")
    assert typed.typed == "8 ft"
    assert typed == Length(Fraction("2438.4"), "2438.4 mm")


@pytest.fixture(scope="module")
def exact() -> pint.UnitRegistry[Fraction]:
    """Pint in exact fractions, which takes half a second to load."""
    return pint.UnitRegistry(non_int_type=Fraction)


@pytest.mark.parametrize("text", ["2 yd", "3 ft", "1 in", "1 m", "1 cm", "1 mm", "0.01 km"])
def test_factors_kept_here_are_those_of_pint(text: str, exact: pint.UnitRegistry[Fraction]) -> None:
    # computed: pint in exact fractions
    number, unit = text.split()
    quantity = exact.Quantity(Fraction(number), unit)
    assert parse_length("Length", text).mm == quantity.m_as("mm")


def test_what_is_typed_every_day_is_read_without_loading_pint() -> None:
    daily = ["2.4 m", "2400", "45 cm", "8 ft", "7 ft 10 1/2 in", "7'10\""]
    code = (
        "import sys; from domain.units import *\n"
        f"for text in {daily!r}: parse_length('Length', text)\n"
        "parse_angle('Pitch', '30 deg'); parse_weight('Weight', '24 kg')\n"
        "parse_speed('Wind', '16 mph'); parse_temperature('Air', '5 C')\n"
        "sys.exit('pint' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@pytest.mark.parametrize(
    "text",
    [
        *HOSTILE,
        "3 kg",
        "3 furlongs",
        "-3 m",
        "−3 m",
        "101 m",
        "2.4 km",
        "7 1/2",
        "8 ft 12 in",
        "7.5 ft 3 in",
        "3 in 2 ft",
        "7 ft 2 in 3 mm",
        "8 ft 12",
        "8 ft 3.5 1/2",
        "7.5 ft 3",
        "2 m 40",
        "6 in 3",
        "8 ft -3",
    ],
)
def test_what_is_no_length_of_a_roof_is_refused(text: str) -> None:
    with pytest.raises(Refused) as refusal:
        parse_length("slope_length", text)
    assert refusal.value.field == "slope_length"
    assert refusal.value.remedy.startswith("Give ")
    assert len(str(refusal.value)) < 200


def test_nothing_is_refused_where_there_must_be_something() -> None:
    with pytest.raises(Refused, match="more than 0"):
        parse_length("Underlay roll", "0 m", zero=False)
    assert parse_length("Underlay roll", "1 mm", zero=False).mm == 1


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("2.4", "“2.4” is not valid. Its unit is missing: give 2.4 mm, 2.4 m or 2.4 ft."),
        ("0.05", "“0.05” is not valid. Its unit is missing: give 0.05 mm, 0.05 m or 0.05 ft."),
        ("2,400", "“2,400” is not valid. Its unit is missing: give 2,400 mm, 2,400 m or 2,400 ft."),
    ],
)
def test_a_number_alone_is_refused_where_nothing_shows_its_unit(text: str, told: str) -> None:
    for parse in (parse_length, parse_offset):
        with pytest.raises(Refused) as refusal:
            parse("eaves_overhang", text, bare=False)
        assert str(refusal.value) == f"Eaves overhang: {told}"
        assert parse("eaves_overhang", text).mm == Fraction(text.replace(",", ""))


def test_nought_is_nought_in_any_unit_and_inches_may_follow_feet() -> None:
    assert parse_length("Top", "0", bare=False).mm == 0
    assert parse_length("Top", "8 ft 3", bare=False).mm == Fraction("2514.6")


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("24", Fraction(24)),
        ("24 kg", Fraction(24)),
        ("1.2 t", Fraction(1200)),
        ("500 g", Fraction(1, 2)),
        ("1 lb", Fraction("0.45359237")),
        ("2 st 4 lb", 32 * Fraction("0.45359237")),
        ("1 cwt", 112 * Fraction("0.45359237")),
        ("1 hundredweight", 112 * Fraction("0.45359237")),
        ("1 ton", 2240 * Fraction("0.45359237")),
    ],
)
def test_a_weight_is_read_exactly_and_a_hundredweight_is_the_british_one(
    text: str, kg: Fraction
) -> None:
    # The pound is 0.45359237 kg by definition; 112 lb a hundredweight and 2240 lb a ton are the
    # British measures: common practice. computed: pint's plain "hundredweight" is the American one.
    assert parse_weight("Waste", text).kg == kg


def test_a_mile_an_hour_is_0_44704_metres_a_second() -> None:
    # exact definition; computed: pint
    assert parse_speed("Wind", "0.44704 m/s").mph == 1
    assert parse_speed("Wind", "1.609344 km/h").mph == 1
    assert parse_speed("Wind", "16").mph == 16


def test_the_wind_that_stops_roof_work_is_10_28_metres_a_second() -> None:
    # 23 mph = 10.28 m/s: quoted, HSE, construction FAQ on work at height
    assert round(parse_speed("Wind", "10.28 m/s").mph, 1) == 23


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("5", 5), ("5 C", 5), ("5 °C", 5), ("-2°", -2), ("−2.5 °C", Fraction("-2.5")), ("41 F", 5)],
)
def test_a_temperature_is_read_exactly(text: str, celsius: Fraction) -> None:
    assert parse_temperature("Air", text).celsius == celsius


@pytest.mark.parametrize(
    "parse", [parse_weight, parse_speed, parse_temperature], ids=lambda parse: str(parse.__name__)
)
@pytest.mark.parametrize("text", [*HOSTILE, "999999999", "-999", "3 mm", "5 C 3 C", "1 °F 2 °F"])
def test_what_is_no_weight_speed_or_temperature_is_refused(
    parse: Callable[[str, str], object], text: str
) -> None:
    with pytest.raises(Refused):
        parse("Reading", text)


@given(feet=st.integers(0, 300), inches=st.integers(0, 11), eighths=st.integers(1, 7))
def test_feet_inches_and_eighths_add_up_exactly(feet: int, inches: int, eighths: int) -> None:
    length = parse_length("Length", f"{feet} ft {inches} {eighths}/8 in")
    assert length.mm == (feet * 12 + inches + Fraction(eighths, 8)) * strategies.INCH


@given(thousandths=st.integers(0, 100_000))
def test_metres_and_millimetres_agree_to_the_last(thousandths: int) -> None:
    metres = f"{thousandths // 1000}.{thousandths % 1000:03d} m"
    assert parse_length("Length", metres) == parse_length("Length", f"{thousandths}")


@given(mm=strategies.millimetres(0, 100_000))
def test_a_length_as_shown_reads_back_to_the_millimetre(mm: Fraction) -> None:
    assert abs(parse_length("Length", show_mm(mm)).mm - mm) <= Fraction(1, 2)


@given(text=st.text(alphabet=st.sampled_from("0123456789.,/-'\" ftinmcky½°″\n"), max_size=12))
@example("1/2/3 in")
@example("1,000,00 m")
@example("'")
def test_any_text_is_read_within_limits_or_refused(text: str) -> None:
    with suppress(Refused):
        assert 0 <= parse_length("Length", text).mm <= 100_000


@pytest.mark.parametrize(
    ("mm", "shown"),
    [
        (Fraction(1062), "1,062 mm"),
        (Fraction(937, 7), "134 mm"),
        (Fraction("2400.3"), "2,400 mm"),
        (Fraction("0.5"), "1 mm"),
        (Fraction(-50), "−50 mm"),
        (Fraction(5), "5 mm"),
    ],
)
def test_a_length_is_shown_to_a_hundredth_half_up(mm: Fraction, shown: str) -> None:
    assert show_mm(mm) == shown
