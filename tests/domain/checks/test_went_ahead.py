"""What the answer to “did it go ahead?” makes of a job."""

from dataclasses import replace
from decimal import Decimal

import pytest

from domain.checks.went_ahead import answer_day, answer_words
from domain.errors import NotNow
from domain.job import BookedDay, Cover, DayAnswer, Ending, Job, Stage, Stripping, WentAhead
from tests.builders import LAY_DAY, SIGNED, job_at, stripping

RAINED_OFF = DayAnswer(LAY_DAY, WentAhead.RAINED_OFF)
PART_DONE = DayAnswer(LAY_DAY, WentAhead.PART_DONE)
LATER = BookedDay(SIGNED, Decimal(4), "lay")
BOOKED = job_at(Stage.BOOKED)
TWO_DAYS = replace(BOOKED, days=(*BOOKED.days, LATER))


def test_a_day_that_was_rained_off_is_no_longer_booked() -> None:
    assert answer_day(BOOKED, RAINED_OFF) == replace(BOOKED, days=())
    assert answer_day(TWO_DAYS, RAINED_OFF).days == (LATER,)


def test_a_day_that_was_part_done_is_that_of_the_stripping_sheeted_for_the_night() -> None:
    now = answer_day(TWO_DAYS, PART_DONE)
    assert now == replace(TWO_DAYS, stripping=Stripping(LAY_DAY, "", Cover.SHEETED))


def test_a_laying_that_was_part_done_leaves_the_roof_sheeted_and_its_day_free() -> None:
    known = stripping(on=LAY_DAY, cover=Cover.OPEN)
    job = replace(TWO_DAYS, stripping=known)
    now = answer_day(job, DayAnswer(SIGNED, WentAhead.PART_DONE))
    assert now == replace(job, days=BOOKED.days, stripping=replace(known, cover=Cover.SHEETED))


def test_a_day_that_was_done_leaves_the_roof_as_it_was_booked_for() -> None:
    done = DayAnswer(LAY_DAY, WentAhead.DONE, "nothing")
    assert answer_day(BOOKED, done).stripping == Stripping(LAY_DAY, "nothing", Cover.LAID)
    first = replace(BOOKED, days=(BookedDay(LAY_DAY, Decimal(8), "strip"), LATER))
    sheeted = answer_day(first, done)
    assert sheeted == replace(first, stripping=Stripping(LAY_DAY, "nothing", Cover.SHEETED))
    laid = answer_day(sheeted, DayAnswer(SIGNED, WentAhead.DONE))
    assert laid == replace(first, stripping=Stripping(LAY_DAY, "nothing", Cover.LAID))


@pytest.mark.parametrize(
    ("job", "answer", "said"),
    [
        (BOOKED, DayAnswer(SIGNED, WentAhead.RAINED_OFF), "no longer booked"),
        (job_at(Stage.LAID), RAINED_OFF, "laying is recorded already"),
        (replace(BOOKED, ended=Ending.CALLED_OFF), PART_DONE, "called off: reopen it"),
    ],
)
def test_what_is_not_to_be_answered_says_why(job: Job, answer: DayAnswer, said: str) -> None:
    with pytest.raises(NotNow, match=said):
        answer_day(job, answer)


def test_the_answer_is_told_with_its_day() -> None:
    assert answer_words(RAINED_OFF) == "Wed 24 Jun rained off"


def test_any_other_reason_frees_the_day_and_materials_that_did_not_come_are_not_in_hand() -> None:
    for went in (WentAhead.CUSTOMER_OUT, WentAhead.ILL, WentAhead.VAN, WentAhead.NO_MATERIALS):
        answer = DayAnswer(LAY_DAY, went)
        job = replace(BOOKED, materials_in_hand=True)
        in_hand = went is not WentAhead.NO_MATERIALS
        assert answer_day(job, answer) == replace(job, days=(), materials_in_hand=in_hand)
        assert answer_words(answer) == f"Wed 24 Jun did not go ahead: {went}"
