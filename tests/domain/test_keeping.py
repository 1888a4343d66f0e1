"""How long papers are kept for the tax, and which enquiry may be deleted."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.errors import NotNow
from domain.job import Ending, Job, Snag, Stage
from domain.keeping import demand_deletable, keep_until, kept_of
from tests import builders

TODAY = builders.SIGNED


def _job(**changes: Any) -> Job:
    return replace(builders.job_at(Stage.ENQUIRY), **changes)


@pytest.mark.parametrize(
    ("on", "until"),
    [
        (date(2026, 4, 5), date(2032, 1, 31)),
        (date(2026, 4, 6), date(2033, 1, 31)),
        (date(2026, 12, 31), date(2033, 1, 31)),
        (date(2027, 4, 5), date(2033, 1, 31)),
        (date(2027, 4, 6), date(2034, 1, 31)),
    ],
)
def test_a_tax_year_is_kept_five_years_after_its_31_january(on: date, until: date) -> None:
    # Gov.uk, business records if you're self-employed: quoted; the days derived from it.
    assert keep_until(on) == until


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)))
def test_it_is_kept_between_five_and_seven_years_and_always_to_a_31_january(on: date) -> None:
    until = keep_until(on)
    assert (until.month, until.day) == (1, 31)
    assert 5 * 365 + 300 < (until - on).days < 7 * 366


def test_an_enquiry_and_a_survey_can_be_deleted_even_when_declined() -> None:
    job = _job(survey=builders.survey(), quotes=(builders.draft(),))
    for stage in (Stage.ENQUIRY, Stage.SURVEY):
        for ended in (None, Ending.DECLINED):
            demand_deletable(replace(job, stage=stage, ended=ended), TODAY)


def test_what_was_sent_issued_or_paid_is_kept_and_says_until_when() -> None:
    sent = _job(quotes=(builders.sent(),))
    billed = replace(sent, documents=(builders.invoice(),))
    paid = _job(payments=(builders.payment(),))
    for job, words in (
        (sent, "Quote 1, sent 4 June 2026, has to be kept until 31 January 2033."),
        (billed, f"Invoice {builders.invoice().label} has to be kept until 31 January 2033."),
        (paid, "The payment of 9 July 2026 has to be kept until 31 January 2033."),
    ):
        with pytest.raises(NotNow) as refused:
            demand_deletable(job, TODAY)
        assert str(refused.value) == words


def test_a_paper_stays_even_once_it_need_not_be_kept() -> None:
    job = _job(documents=(builders.invoice(),))
    with pytest.raises(NotNow, match="stays: papers and payments are never deleted"):
        demand_deletable(job, date(2033, 2, 1))


def test_what_is_kept_longest_is_named() -> None:
    late = replace(builders.payment(), received_on=date(2027, 5, 1))
    job = _job(documents=(builders.invoice(),), payments=(late,))
    assert [kept.until.year for kept in kept_of(job)] == [2034, 2033]


def test_a_job_with_work_on_it_is_no_mere_enquiry() -> None:
    begun = (
        _job(stage=Stage.BOOKED),
        _job(stripping=builders.stripping()),
        _job(snags=(Snag("trim"),)),
        _job(usages=builders.usages()),
    )
    for job in begun:
        with pytest.raises(NotNow, match="Work is recorded on 0421, so it stays"):
            demand_deletable(job, TODAY)


def test_a_record_of_vat_is_kept_six_years_from_its_own_day_where_that_is_later() -> None:
    # Six years: from memory; the days derived.
    assert keep_until(date(2026, 4, 6), holds_vat=True) == date(2033, 1, 31)
    assert keep_until(date(2027, 4, 5), holds_vat=True) == date(2033, 4, 5)
    document = replace(builders.invoice(), issued_on=date(2027, 4, 5))
    of_vat = replace(document, snapshot='{"seller":{"vat_number":"980780684"}}')
    for each, until in ((document, date(2033, 1, 31)), (of_vat, date(2033, 4, 5))):
        (kept,) = kept_of(_job(documents=(each,)))
        assert kept.until == until
