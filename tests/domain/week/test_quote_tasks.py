"""From the enquiry to the answer."""

from dataclasses import replace

import pytest

from domain.job import Stage
from domain.page_names import PageName
from tests.builders import (
    DUE,
    RECEIVED,
    SENT,
    VALID_UNTIL,
    VISIT,
    enquiry,
    job_at,
    survey,
    trader,
    week_line,
)
from tests.domain.week.lines import (
    ENQUIRY,
    QUOTED,
    SURVEYED,
    days_on,
    tonight,
    words,
)


def test_a_roof_that_is_surveyed_is_to_be_quoted() -> None:
    assert words(SURVEYED, today=VISIT) == ["Price it and quote"]
    assert words(replace(SURVEYED, quote_gross=486_00), today=VISIT) == ["Send the quote"]
    assert words(QUOTED, today=SENT) == []


def test_a_quote_is_to_be_sent_only_once_it_can_be() -> None:
    draft = replace(SURVEYED, quote_gross=486_00)
    assert words(replace(draft, survey_answered=False), today=VISIT) == ["Finish the survey"]
    (task,) = tonight(replace(draft, stage=Stage.ENQUIRY), today=VISIT)
    assert (task.words, task.page) == ("Mark as surveyed", PageName.ENQUIRY)
    for lacking in ({"name": " "}, {"address": ""}):
        (task,) = tonight(draft, today=VISIT, by=trader(**lacking))
        assert (task.words, task.page) == ("Fill in your details", PageName.TRADER)


def test_a_time_is_to_be_agreed_until_the_day_of_the_visit() -> None:
    no_time = replace(ENQUIRY, visit_at=None)
    (task,) = tonight(no_time, today=RECEIVED)
    assert (task.words, task.page) == ("Agree a time to visit", PageName.ENQUIRY)
    assert words(no_time, today=days_on(VISIT, -1)) == ["Agree a time to visit"]
    assert words(no_time, today=VISIT) == ["Fill in the survey"]
    assert words(replace(no_time, old_covering=survey().old), today=RECEIVED) == [
        "Finish the survey"
    ]


@pytest.mark.parametrize(
    ("left", "said"),
    [
        (4, []),
        (3, ["Quote runs out on Saturday"]),
        (1, ["Quote runs out tomorrow"]),
        (0, ["Quote runs out today"]),
        (-1, ["Ring: quote has run out"]),
        (-90, ["Ring: quote has run out"]),
    ],
)
def test_a_quote_about_to_run_out_is_asked_about(left: int, said: list[str]) -> None:
    assert words(QUOTED, today=days_on(VALID_UNTIL, -left)) == said
    accepted = replace(QUOTED, accepted_on=SENT)
    assert words(accepted, today=days_on(VALID_UNTIL, -left)) == ["Book a day"]


def test_a_visit_is_told_the_day_before_and_recorded_from_the_day() -> None:
    assert words(ENQUIRY, today=RECEIVED) == []
    assert words(ENQUIRY, today=days_on(VISIT, -1)) == ["Visit tomorrow"]
    assert words(ENQUIRY, today=VISIT) == ["Fill in the survey"]
    assert words(SURVEYED, today=VISIT) == ["Price it and quote"]


def test_a_visit_is_to_be_arranged_from_the_enquiry_on() -> None:
    unseen = week_line(job_at(Stage.ENQUIRY, enquiry=enquiry(visit_on=None, visit_at=None)))
    (task,) = tonight(unseen, today=RECEIVED)
    assert (task.words, task.page) == ("Arrange the visit", PageName.ENQUIRY)
    called_survey = replace(unseen, stage=Stage.SURVEY)
    assert words(called_survey, today=DUE) == ["Arrange the visit"]
    seen = replace(called_survey, old_covering=survey().old, survey_answered=True)
    assert words(seen, today=DUE) == ["Price it and quote"]
