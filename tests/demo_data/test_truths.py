"""What the demo tells is true of its roofs, its days and its trade, where it can be computed."""

import re
from contextlib import closing
from decimal import Decimal
from pathlib import Path

import pytest

from demo_data.story import Story
from domain.estimate.pricing import old_weight
from domain.job import Job, Stage, Usage
from domain.quantity import to_decimal
from domain.setting_out.forms.roof import build_roof
from domain.units import parse_length
from storage.book import Book
from tests.laid_out_once import NOW, jobs_of

DRAMA = re.compile(r"01632 960\d{3}")
"""Ofcom keeps 01632 960000 to 960999 for drama. source: Ofcom, "Telephone numbers for use in TV and
radio drama programmes"; from memory."""
GARAGE_MM = (4_800, 2_400)
"""Length and width that a garage for a car has at the least. Common practice: 16 × 8 ft is the
smallest sold; its 16 ft are 4,877 mm and its 8 ft 2,438 mm."""


@pytest.fixture(scope="module")
def jobs(demo: Path) -> list[Job]:
    return jobs_of(demo)


def _by_the_roof(job: Job) -> Decimal:
    assert job.survey is not None
    area = to_decimal(build_roof(job.survey.measures).area / 10**6)
    return old_weight(area, job.survey.old)


def _is_off(row: Usage) -> bool:
    """Whether more than rounding lies between the estimate and what was used."""
    rounding = Decimal("0.125") if row.unit == "hour" else Decimal("0.5")
    return abs(row.used - row.estimated) > rounding


def _stripped(jobs: list[Job]) -> list[Job]:
    return [job for job in jobs if job.stripping]


def test_what_was_stripped_weighs_what_its_roof_says(jobs: list[Job]) -> None:
    shares = []
    for job in _stripped(jobs):
        assert job.stripping is not None
        assert job.stripping.waste_kg is not None
        shares.append(job.stripping.waste_kg / _by_the_roof(job))
    assert len(shares) > 20
    assert all(Decimal("0.8") <= share <= Decimal("1.2") for share in shares)
    assert len({round(share, 2) for share in shares}) > 10


def test_what_was_found_differs_from_job_to_job(jobs: list[Job]) -> None:
    found = [job.stripping.found for job in _stripped(jobs) if job.stripping]
    assert len(set(found)) == len(found)
    said = [job.enquiry.said for job in jobs]
    assert len(set(said)) == len(said)


def test_no_two_share_a_telephone_number_and_all_are_kept_for_drama(jobs: list[Job]) -> None:
    phones = [job.customer.phone for job in jobs] + [Story.read().trader["phone"]]
    assert len(set(phones)) == len(phones)
    assert all(DRAMA.fullmatch(phone) for phone in phones)


def test_hours_are_in_quarters(jobs: list[Job]) -> None:
    booked = [day.hours for job in jobs for day in job.days]
    used = [row.used for job in jobs for row in job.usages if row.unit == "hour"]
    assert booked
    assert used
    assert all(hours * 4 % 1 == 0 for hours in booked + used)


def test_what_was_used_is_not_the_estimate_again(jobs: list[Job]) -> None:
    done = [job for job in jobs if job.usages]
    shares = [row.used / row.estimated for job in done for row in job.usages if row.estimated > 5]
    assert all(Decimal("0.7") <= share <= Decimal("1.3") for share in shares)
    assert len(done) > 15
    assert all(any(map(_is_off, job.usages)) for job in done)


def _floor_mm(told: dict[str, str]) -> tuple[int, int] | None:
    """Length and width of a building as the story tells them, the longer first."""
    if "length" in told:
        sides = [parse_length("Length", told[key]) for key in ("length", "span")]
    elif "nominal" in told:
        sides = [parse_length("Side", f"{n} ft") for n in re.findall(r"\d+", told["nominal"])]
    else:
        return None
    longer, shorter = sorted((round(side.mm) for side in sides), reverse=True)
    return longer, shorter


def test_what_is_called_a_garage_takes_a_car_and_a_shed_does_not() -> None:
    seen = set()
    for told in Story.read().jobs:
        floor = _floor_mm(told)
        if floor and told["building"] != "workshop":
            takes_a_car = floor[0] >= GARAGE_MM[0] and floor[1] >= GARAGE_MM[1]
            assert takes_a_car == (told["building"] == "garage"), told["customer"]
            seen.add(told["building"])
    assert seen == {"garage", "shed", "summerhouse"}


def test_the_days_of_a_job_hang_together(jobs: list[Job]) -> None:
    for job in jobs:
        quote = job.quote
        told = [
            job.enquiry.received_on,
            job.enquiry.visit_on,
            quote.sent_on if quote else None,
            quote.acceptance.on if quote and quote.acceptance else None,
            job.days[0].day if job.days else None,
            job.stripping.on if job.stripping else None,
            job.laying.on if job.laying else None,
            job.sign_off.on if job.sign_off else None,
        ]
        days = [day for day in told if day]
        assert days == sorted(days), job.customer.name
        assert job.enquiry.received_on <= NOW.date()
        if job.laying:
            assert job.laying.on == job.days[-1].day <= NOW.date()


def test_today_s_prices_are_of_this_year_and_near_what_a_merchant_asks(demo: Path) -> None:
    with closing(Book.open(demo, lambda: NOW)) as book:
        prices = book.prices()
    newest = {p.material: p for p in sorted(prices, key=lambda price: price.since)}
    assert {price.since.year for price in newest.values()} == {NOW.year}
    with_vat = {str(m): price.net * (1 + price.vat_rate / 100) for m, price in newest.items()}
    assert all(3000 <= with_vat[shingles] <= 4500 for shingles in ("square-butt", "hexagonal"))
    assert all(400 <= pence <= 4500 for pence in with_vat.values())


def test_each_thing_is_recorded_on_the_evening_it_was_done(demo: Path, jobs: list[Job]) -> None:
    finished = next(job for job in jobs if job.stage is Stage.SIGNED_OFF and job.laying)
    assert finished.id is not None
    assert finished.laying is not None
    with closing(Book.open(demo, lambda: NOW)) as book:
        told = {entry.words.split(", ")[-1]: entry.at for entry in book.history(finished.id)}
        latest = max(entry.at for job in jobs for entry in book.history(job.id or 0))
    assert told["laying saved"].date() == finished.laying.on
    assert finished.survey is not None
    assert told["survey saved"].date() == finished.survey.visited_on
    assert latest <= NOW
