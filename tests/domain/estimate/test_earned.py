"""What a job earned: by hand from the prices, rates and quantities the quote was made from."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from domain.estimate.basis import PricingBasis
from domain.estimate.earned import days_called_back, earned
from domain.estimate.quoting import basis_of, option_total
from domain.job import Extra, ExtraState, Job, Snag, Usage
from domain.money import show_money, times
from domain.papers.blocks import Details
from domain.papers.materials_paper import materials_paper
from domain.trader import Trader
from tests import builders, priced


def _job(*usages: Usage) -> tuple[Job, PricingBasis]:
    made = priced.accepted(priced.quote(priced.registered()))
    basis = basis_of(made)
    assert basis is not None
    return priced.laid_job(made, usages=usages, stripping=None, extras=(), snags=()), basis


def test_every_part_is_what_the_quote_was_made_from() -> None:
    strips = Usage("strips", "strip", Decimal(55), Decimal(50), wasted=Decimal(4), left=Decimal(9))
    hours = Usage("hours-lay", "hour", Decimal(6), Decimal("5.25"))
    job, basis = _job(strips, hours)
    made = earned(job, job.usages)
    assert made is not None
    assert job.quote is not None
    assert made.agreed == option_total(job.quote.counting).net
    # 54 of 21 a pack at £31.50; 429 and 34 nails of 900 a box at £6.45: computed by hand
    assert made.materials == 81_00 + 3_07 + 24
    assert made.worked == Decimal("5.25")
    assert made.labour == 147_00  # at £28.00
    assert made.travel == int(basis.miles * basis.days * basis.rates.mile)
    assert made.callbacks == made.extras == 0
    took = made.materials + made.labour + made.travel + made.disposal
    assert made.pence == made.agreed - took


def test_extras_count_once_they_are_agreed_and_callbacks_against_the_job() -> None:
    job, basis = _job()
    extra = Extra("boards", Decimal(1), "job", 60_00, Decimal(20))
    snag = Snag("tab lifted", date(2026, 7, 1), Decimal("1.5"), "half a pack", 12_40)
    job = replace(
        job,
        extras=(extra, replace(extra, state=ExtraState.AGREED)),
        snags=(snag, snag, Snag("gutter")),
    )
    before, after = earned(replace(job, extras=(), snags=()), ()), earned(job, ())
    assert before is not None
    assert after is not None
    assert after.extras == 60_00
    way = times(basis.rates.mile, basis.miles)  # once: both were put right on one day
    assert way > 0
    assert after.callbacks == 2 * (42_00 + 12_40) + way
    assert after.pence == before.pence + 60_00 - after.callbacks


def test_a_snag_put_right_while_laying_is_no_callback_to_drive_to() -> None:
    job, _ = _job()
    assert job.laying is not None
    snags = (Snag("tab lifted", job.laying.on), Snag("drip", job.laying.on + timedelta(days=1)))
    assert days_called_back(replace(job, snags=snags)) == {job.laying.on + timedelta(days=1)}


def test_what_was_carried_away_counts_by_its_weight_once_that_is_recorded() -> None:
    job, basis = _job()
    job = replace(job, stripping=builders.stripping(waste_kg=Decimal(100)))
    made = earned(job, ())
    assert made is not None
    assert made.disposal == 100 * basis.rates.disposal_kg


def test_vat_is_a_cost_of_who_cannot_reclaim_it() -> None:
    made = priced.accepted(priced.quote(Trader()))
    strips = Usage("mastic", "cartridge", Decimal(2), Decimal(1))
    job = priced.laid_job(made, usages=(strips,))
    with_it, without = earned(job, (strips,)), earned(job, ())
    assert with_it is not None
    assert without is not None
    assert with_it.materials - without.materials == 4_00  # £3.33 and 20 %


def test_nothing_is_earned_before_a_quote_is_accepted() -> None:
    job, _ = _job()
    assert earned(replace(job, quotes=(priced.quote(),)), ()) is None


def test_the_trader_sees_it_on_the_summary_with_what_it_is_made_of() -> None:
    job, _ = _job(Usage("hours-lay", "hour", Decimal(6), Decimal("5.25")))
    made = earned(job, job.usages)
    assert made is not None
    (told,) = (each for each in materials_paper(job).blocks if isinstance(each, Details))
    assert told.heading == "What the job earned"
    assert told.rows[-1] == ("Earned", show_money(made.pence))
    assert ("Your hours, 5.25 hours", "−£147.00") in told.rows
