"""What is asked about before it is saved: limits of our own, checked on both sides of each."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from domain.coverings.materials import Material
from domain.job import Usage
from domain.typing_slips import (
    before_invoice,
    before_last,
    far_date,
    far_price,
    measured_slips,
    overpaid,
    past_day,
    used_slips,
)
from tests import priced

TODAY = date(2026, 6, 3)


@pytest.mark.parametrize(
    ("day", "words"),
    [
        (date(2027, 6, 3), None),
        (date(2027, 6, 4), "Fri 4 Jun 2027 is over a year away"),
        (date(2025, 6, 3), None),
        (date(2025, 6, 2), "Mon 2 Jun 2025 is over a year ago"),
    ],
)
def test_a_date_over_a_year_off(day: date, words: str | None) -> None:
    slip = far_date("on", day, TODAY)
    assert (slip.words if slip else None) == words


@pytest.mark.parametrize(
    ("pence", "words"),
    [(640_00, None), (640_01, "£640.01 is more than the £640.00 owed")],
)
def test_a_payment_over_what_is_owed(pence: int, words: str | None) -> None:
    slip = overpaid("amount", pence, 640_00)
    assert (slip.words if slip else None) == words


@pytest.mark.parametrize(
    ("pence", "last", "asked"),
    [
        (239_90, 24_00, False),
        (240_00, 24_00, True),
        (2_41, 24_00, False),
        (2_40, 24_00, True),
        (240_00, 0, False),
    ],
)
def test_a_price_ten_times_the_last(pence: int, last: int, asked: bool) -> None:
    known = priced.price(Material.SHINGLE_NAILS, last, "9")
    assert (far_price("net", replace(known, net=pence), [known]) is not None) == asked


@pytest.mark.parametrize(
    ("pence", "per_pack", "words"),
    [
        (240_00, "9", "the last price at Osmerton Roofing was £24.00"),
        (239_90, "9", None),
        (240_00, "10", None),
    ],
)
def test_a_price_ten_times_that_of_another_merchant_by_the_unit(
    pence: int, per_pack: str, words: str | None
) -> None:
    known = priced.price(Material.SHINGLE_NAILS, 24_00, "9")
    typed = priced.price(Material.SHINGLE_NAILS, pence, per_pack, merchant="Quayside")
    slip = far_price("net", typed, [known, priced.price(Material.MASTIC, 3_00, "1")])
    assert (slip.words if slip else None) == words


def test_the_merchant_s_own_last_price_is_the_one_that_counts() -> None:
    dear = priced.price(Material.SHINGLE_NAILS, 240_00, "9", merchant="Quayside")
    cheap = priced.price(Material.SHINGLE_NAILS, 24_00, "9", since=TODAY)
    assert far_price("net", replace(dear, net=239_00), [dear, cheap]) is None


@pytest.mark.parametrize(("colour", "asked"), [("green", False), ("Slate grey", True), ("", True)])
def test_a_price_of_another_colour_is_another_item(colour: str, asked: bool) -> None:
    known = priced.price(Material("hexagonal"), 24_00, "21", colour="slate grey")
    typed = replace(known, net=240_00, colour=colour, merchant="Quayside")
    assert (far_price("net", typed, [known]) is not None) == asked


@pytest.mark.parametrize(
    ("last", "words"),
    [
        (None, None),
        (TODAY, None),
        (date(2026, 6, 4), "Wed 3 Jun 2026 is before the last receipt, of Thu 4 Jun 2026"),
    ],
)
def test_a_paper_dated_before_the_last_of_its_series(last: date | None, words: str | None) -> None:
    slip = before_last("on", TODAY, last, "receipt")
    assert (slip.words if slip else None) == words


@pytest.mark.parametrize(
    ("used", "words"),
    [
        ("20.99", "shingles: 20.99 strips, estimated 42 strips"),
        ("21", None),
        ("63", None),
        ("63.01", "shingles: 63.01 strips, estimated 42 strips"),
    ],
)
def test_used_under_half_or_over_one_and_a_half_times(used: str, words: str | None) -> None:
    usage = Usage("strips", "strip", Decimal(42), Decimal(used))
    assert [slip.words for slip in used_slips([usage], {"strips": Decimal(100)})] == (
        [words] if words else []
    )


@pytest.mark.parametrize("part", ["wasted", "left", "returned"])
def test_what_was_wasted_left_or_returned_is_more_than_was_taken(part: str) -> None:
    usage = Usage("underlay", "m", Decimal(12), Decimal(12))
    parts: dict[str, Any] = {part: Decimal(3)}
    assert not used_slips([replace(usage, **parts)], {"underlay": Decimal(15)})
    (slip,) = used_slips([replace(usage, **parts)], {"underlay": Decimal(14)})
    assert slip.words == "underlay: 15 m in all, but 14 m were taken"


def test_more_strips_than_the_packs_in_hand_hold() -> None:
    usage = Usage("strips", "strip", Decimal(42), Decimal(60), wasted=Decimal(4))
    assert not used_slips([usage], {"strips": Decimal(64)})
    (slip,) = used_slips([usage], {"strips": Decimal(63)})
    assert slip.words == "shingles: 64 strips in all, but 63 strips were taken"


def test_one_more_of_a_small_estimate_is_no_slip() -> None:
    assert not used_slips([Usage("hours-strip", "hour", Decimal("0.5"), Decimal("1.5"))], {})
    assert used_slips([Usage("hours-strip", "hour", Decimal("0.5"), Decimal("1.75"))], {})


def test_hours_have_no_packs_and_nothing_is_asked_without_an_estimate() -> None:
    assert not used_slips([Usage("hours-lay", "hour", Decimal(0), Decimal(9))], {})


def test_a_day_that_should_lie_ahead() -> None:
    assert past_day("day1", TODAY, TODAY) is None
    slip = past_day("day1", date(2026, 6, 2), TODAY)
    assert slip is not None
    assert slip.words == "Tue 2 Jun 2026 is past"


def test_money_before_its_invoice() -> None:
    assert before_invoice("on", TODAY, TODAY) is None
    slip = before_invoice("on", date(2025, 6, 3), TODAY)
    assert slip is not None
    assert slip.words == "Tue 3 Jun 2025 is before the invoice of Wed 3 Jun 2026"


@pytest.mark.parametrize(
    ("taped", "said", "words"),
    [
        ({"length": 24000, "span": 2400}, (3000, 2400), ["length: 24,000 mm, where 3,000 mm ×"]),
        ({"length": 2400, "span": 3000}, (3000, 2400), []),  # told the other way round
        ({"length": 4500, "span": 1200}, (3000, 2400), []),
        ({"length": 2, "span": 1800}, None, ["length: 2 mm is short for a roof: a number alone"]),
        ({"length": 24000}, None, []),
    ],
)
def test_a_side_far_from_what_was_said_is_asked_about(
    taped: dict[str, int], said: tuple[int, int] | None, words: list[str]
) -> None:
    sides = {name: Fraction(mm) for name, mm in taped.items()}
    told = None if said is None else (Fraction(said[0]), Fraction(said[1]))
    found = [f"{slip.field}: {slip.words}" for slip in measured_slips(sides, told)]
    assert len(found) == len(words)
    assert all(slip.startswith(begins) for slip, begins in zip(found, words, strict=True))
