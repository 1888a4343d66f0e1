"""What a job left by what was paid, by hand from slips, miles and what was used."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from domain.books.headings import Heading
from domain.books.margin import Paid, bought_for, left_as_paid
from domain.books.miles import Miles
from domain.books.purchase import Purchase
from domain.coverings.materials import Material
from domain.estimate.earned import earned
from domain.job import Job, Snag, Usage
from domain.papers.materials_paper import materials_paper
from domain.trader import Trader
from tests import builders, priced
from tui.papers.as_text import plain_text

STRIPS = Usage("strips", "strip", Decimal(55), Decimal(50), wasted=Decimal(4), left=Decimal(9))
HOURS = Usage("hours-lay", "hour", Decimal(6), Decimal("5.25"))
SLIP = Purchase(
    date(2026, 6, 20), "Quayside", "shingles", 151_20,
    vat_rate=Decimal(20), material=Material("square-butt"), packs=Decimal(3), id=1,
)  # fmt: skip


def _job(trader: Trader) -> Job:
    made = priced.accepted(priced.quote(trader))
    job = priced.laid_job(made, usages=(STRIPS, HOURS), stripping=None, extras=(), snags=())
    return replace(job, id=5)


def test_materials_are_taken_at_the_slip_by_the_packs_and_as_quoted_without_one() -> None:
    job = _job(priced.registered())
    made = left_as_paid(job, Paid((SLIP,)))
    assert made is not None
    # £151.20 less £25.20 of VAT is £42.00 a pack of 21, £2.00 a strip: 54 of them £108.00; the
    # nails as quoted, £3.07 and £0.24: computed by hand.
    assert made.materials == 108_00 + 3_07 + 24
    unregistered = left_as_paid(_job(builders.trader()), Paid((SLIP,)))
    as_quoted = earned(_job(builders.trader()), _job(builders.trader()).usages)
    assert unregistered is not None
    assert as_quoted is not None
    # With its VAT £50.40 a pack, £2.40 a strip; quoted at £37.80: 54 of 21 a pack.
    assert unregistered.materials - as_quoted.materials == 129_60 - 97_20


def test_a_slip_of_this_job_comes_before_a_later_one_and_what_else_was_bought_on_top() -> None:
    job = _job(priced.registered())
    own = replace(SLIP, job_id=5, pence=75_60, on=date(2026, 6, 1), id=2)
    boards = Purchase(date(2026, 6, 20), "Quayside", "boards", 24_00, job_id=5, id=3)
    aside = replace(boards, heading=Heading.NOT_FOR_TAX, id=4)
    other = replace(boards, job_id=6, id=5)
    made = left_as_paid(job, Paid((SLIP, own, boards, aside, other)))
    assert made is not None
    assert (made.materials, made.bought) == (54_00 + 3_07 + 24, 24_00)


def test_boards_stand_in_what_the_job_earned_and_so_on_the_paper() -> None:
    job = _job(priced.registered())
    boards = Purchase(
        date(2026, 6, 20), "Quayside", "boards", 24_00, vat_rate=Decimal(20), job_id=5, id=3
    )
    paid = Paid((boards, replace(SLIP, job_id=5), replace(boards, job_id=6, id=4)))
    assert bought_for(job, paid) == 20_00
    assert bought_for(_job(builders.trader()), paid) == 24_00
    made, without = earned(job, job.usages, 20_00), earned(job, job.usages)
    assert made is not None
    assert without is not None
    assert made.pence == without.pence - 20_00
    words = "Boards and what else was bought for it"
    assert words in plain_text(materials_paper(job, paid)).split("by your slips")[0]
    assert words not in plain_text(materials_paper(job, Paid()))


def test_miles_recorded_stand_in_place_of_those_quoted() -> None:
    job = _job(priced.registered())
    made = left_as_paid(job, Paid(miles=(Miles(date(2026, 6, 24), Decimal(40), "Mill Row", 5),)))
    as_quoted = earned(job, job.usages)
    assert made is not None
    assert as_quoted is not None
    rate = priced.registered().rates.mile
    assert made.travel == 40 * rate
    assert made.pence == as_quoted.pence + as_quoted.travel - 40 * rate


def test_the_way_to_a_callback_is_counted_once_where_its_miles_are_recorded() -> None:
    snag, day = Snag("drip trim", done_on=date(2026, 7, 3), hours=Decimal(1)), date(2026, 6, 24)
    job = replace(_job(priced.registered()), snags=(snag,))
    rates = priced.registered().rates
    laid, back = Miles(day, Decimal(12), "", 5), Miles(date(2026, 7, 3), Decimal(12), "", 5)
    before = left_as_paid(job, Paid(miles=(laid,)))
    after = left_as_paid(job, Paid(miles=(laid, back)))
    assert before is not None
    assert after is not None
    assert (after.travel, after.callbacks) == (24 * rates.mile, rates.hour)
    assert before.callbacks > rates.hour  # the way there, as quoted


def test_it_stands_on_the_materials_paper_only_where_something_was_paid() -> None:
    job = _job(priced.registered())
    assert left_as_paid(job, Paid()) is None
    assert "by your slips and miles" not in plain_text(materials_paper(job, Paid()))
    assert "by your slips and miles" in plain_text(materials_paper(job, Paid((SLIP,))))
