"""The customer's yes: to a quote that was sent, once, in the covering that was taken."""

from dataclasses import replace

import pytest

from domain.errors import NotNow
from domain.estimate.accepting import accept
from domain.job import CoveringChoice, Job, Stage
from tests import builders, priced

SQUARE, HEXAGONAL, FELT = 1, 2, 3
"""The numbers of the options."""


def offered_three() -> Job:
    made = replace(
        priced.three_options(), id=7, sent_on=builders.SENT, valid_until=builders.VALID_UNTIL
    )
    options = tuple(replace(o, id=n) for n, o in enumerate(made.options, start=1))
    survey = builders.survey(covering=CoveringChoice("square-butt", "slate grey"))
    quote = replace(made, options=options, acceptance=None)
    return builders.job_at(Stage.QUOTED, survey=survey, quotes=(quote,), documents=())


def test_the_survey_is_then_in_the_covering_that_was_taken() -> None:
    job = accept(offered_three(), builders.acceptance(option_id=FELT))
    assert job.survey is not None
    assert job.survey.covering == CoveringChoice("felt", "slate grey")
    assert job.quotes[0].acceptance == builders.acceptance(option_id=FELT)


def test_only_what_was_sent_can_be_accepted() -> None:
    job = offered_three()
    draft = replace(job, quotes=(replace(job.quotes[0], sent_on=None),))
    for unsent, option in ((draft, SQUARE), (job, 99)):
        with pytest.raises(NotNow, match="marked as sent"):
            accept(unsent, builders.acceptance(option_id=option))


def test_one_quote_is_accepted_at_the_most() -> None:
    job = accept(offered_three(), builders.acceptance(option_id=SQUARE))
    newer = replace(
        job.quotes[0],
        id=8,
        number=2,
        acceptance=None,
        options=(replace(job.quotes[0].options[0], id=4),),
    )
    job = accept(replace(job, quotes=(*job.quotes, newer)), builders.acceptance(option_id=4))
    assert [quote.acceptance is not None for quote in job.quotes] == [False, True]


def test_what_is_invoiced_stays_the_covering_agreed_but_its_facts_can_be_put_right() -> None:
    job = accept(offered_three(), builders.acceptance(option_id=SQUARE))
    invoiced = replace(job, documents=(builders.invoice(),))
    with pytest.raises(NotNow, match="stays the covering agreed"):
        accept(invoiced, builders.acceptance(option_id=HEXAGONAL))
    corrected = builders.acceptance(option_id=SQUARE, who="Mr Adeyemi")
    after = accept(invoiced, corrected)
    assert (after.quotes[0].acceptance, after.survey) == (corrected, invoiced.survey)
