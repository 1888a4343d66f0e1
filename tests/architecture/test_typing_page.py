"""Every example on the page of what can be typed is read, by what reads the fields."""

import re
from collections.abc import Callable
from datetime import date
from decimal import Decimal

import pytest

from domain.contacts import read_email, read_telephone, set_postcode
from domain.days.clock import read_time
from domain.days.dates import read_date, read_until
from domain.days.forecast_line import look_at_line, read_line
from domain.estimate.rough_price import read_rough_roof
from domain.money import read_money, read_rough_money
from domain.quantity import read_kg, read_number
from domain.setting_out.wind import read_wind
from domain.takeoff.nails import read_nails
from domain.units import parse_angle, parse_length
from tests.architecture.sources import ROOT

TODAY = date(2026, 6, 24)
PAGE = (ROOT / "docs" / "typing.md").read_text(encoding="utf-8")
READERS: dict[str, Callable[[str], object]] = {
    "length": lambda text: parse_length("f", text),
    "rough size": lambda text: read_rough_roof("f", text),
    "pitch": lambda text: parse_angle("f", text),
    "weight": lambda text: read_kg("f", text, "x", most=Decimal(5000)),
    "nails": lambda text: read_nails("f", text),
    "wind": lambda text: read_wind("f", text),
    "distance": lambda text: read_number("f", text, "x", unit="mile"),
    "hours": lambda text: read_number("f", text, "x", unit="hour"),
    "days": lambda text: read_number("f", text, "x", unit="day"),
    "date": lambda text: read_date("f", text, TODAY),
    "last day": lambda text: read_until("f", text, TODAY, TODAY),
    "time": lambda text: read_time("f", text),
    "forecast": lambda text: read_line("f", text, TODAY),
    "sum": lambda text: read_money("f", text),
    "rough price": lambda text: read_rough_money("f", text),
    "address": lambda text: set_postcode("f", text),
    "telephone": lambda text: read_telephone("f", text),
    "e-mail": lambda text: read_email("f", text),
}
ROWS = {
    what: re.findall(r"`([^`]+)`", examples)
    for what, examples in re.findall(r"^\| ([a-z -]+) \| (`.+?`) \| ", PAGE, re.MULTILINE)
}


TOKENS = [
    token
    for row in re.findall(r"^\| (`[^|]+) \| ", PAGE.split("## Keys in a field")[0], re.MULTILINE)
    for token in re.findall(r"`([^`]+)`", row)
]


@pytest.mark.parametrize("token", TOKENS)
def test_every_token_of_a_forecast_is_read(token: str) -> None:
    typed = f"d{token}" if token[0] in "/@g" else token
    assert look_at_line("f", typed, TODAY).refused is None


def test_the_tokens_of_a_forecast_stand_in_their_table() -> None:
    assert TOKENS[:2] == ["d", "d9-12,14-17"]
    assert len(TOKENS) == 19


def test_every_kind_has_a_row_with_examples() -> None:
    assert list(ROWS) == list(READERS)
    assert sum(map(len, ROWS.values())) > 50


@pytest.mark.parametrize(
    ("what", "typed"), [(what, typed) for what, examples in ROWS.items() for typed in examples]
)
def test_an_example_is_read(what: str, typed: str) -> None:
    assert READERS[what](typed) not in (None, "", typed) or what == "e-mail"
