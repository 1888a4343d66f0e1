"""Sending a quote: every version is held to what the first is, and to the survey as it stands."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from domain.checks.stages import Situation, before_sending, send
from domain.errors import NotNow
from domain.estimate.quoting import is_priced_from
from domain.job import Ending, Stage, Survey
from domain.setting_out.kinds import RoofForm
from tests import builders

NO_NOTES: Mapping[str, str] = {}


def _drafted(stage: Stage, **changes: Any) -> Situation:
    """A job at a stage with one more version in draft, on the day it got there."""
    job = builders.job_at(stage)
    version = builders.draft(number=len(job.quotes) + 1, id=9)
    return builders.situation(replace(job, quotes=(*job.quotes, version), **changes))


def _remeasured(situation: Situation) -> Situation:
    longer = builders.survey(measures=builders.measures(length=builders.mm(3000)))
    return replace(situation, job=replace(situation.job, survey=longer))


@pytest.mark.parametrize("stage", [Stage.QUOTED, Stage.BOOKED, Stage.STRIPPED])
def test_a_later_version_is_sent_and_the_stage_stays(stage: Stage) -> None:
    situation = _drafted(stage)
    after = send(situation, builders.VALID_UNTIL, NO_NOTES)
    assert after.stage is stage
    newest = after.quotes[-1]
    assert (newest.sent_on, newest.valid_until) == (situation.today, builders.VALID_UNTIL)
    assert after.quotes[:-1] == situation.job.quotes[:-1]


def test_the_first_moves_the_job_to_quoted() -> None:
    job = builders.ready_for(Stage.QUOTED, quotes=(builders.draft(),))
    assert send(builders.situation(job), builders.VALID_UNTIL, NO_NOTES).stage is Stage.QUOTED


@pytest.mark.parametrize("stage", [Stage.QUOTED, Stage.BOOKED])
def test_no_version_goes_out_on_measures_that_have_since_changed(stage: Stage) -> None:
    situation = _remeasured(_drafted(stage))
    (stop,) = before_sending(situation, builders.VALID_UNTIL)
    assert "Priced before the survey changed: price it again." in stop.remedy
    with pytest.raises(NotNow, match="Priced from the latest survey"):
        send(situation, builders.VALID_UNTIL, NO_NOTES)


def test_a_pent_turned_round_is_another_roof_though_its_area_is_the_same() -> None:
    def pent(length: int, up: int) -> Survey:
        taped = {"length": builders.mm(length), "slope_length": builders.mm(up)}
        overhangs = {"eaves_overhang": None, "verge_overhang": None}
        measures = builders.measures(form=RoofForm.PENT, **taped, **overhangs)
        return builders.survey(measures=measures)

    option = builders.option(basis=builders.basis(pent(2400, 1900)))
    quote = builders.draft(options=(option,))
    assert is_priced_from(quote, pent(2400, 1900))
    assert not is_priced_from(quote, pent(1900, 2400))


def test_a_later_version_asks_for_a_note_on_a_caution_that_is_new() -> None:
    situation = _drafted(Stage.QUOTED)
    edges = builders.survey().edges
    unseen = builders.survey(edges=replace(edges, gutter=""))
    situation = replace(situation, job=replace(situation.job, survey=unseen))
    with pytest.raises(NotNow, match="mark it as sent if you add a note to each caution"):
        send(situation, builders.VALID_UNTIL, NO_NOTES)
    after = send(situation, builders.VALID_UNTIL, {"gutter": "none on this side"})
    assert [(note.check_id, note.on) for note in after.notes] == [("gutter", situation.today)]


def test_nothing_is_sent_without_a_draft_before_the_survey_or_after_the_end() -> None:
    for job in (
        builders.job_at(Stage.QUOTED),
        builders.job_at(Stage.ENQUIRY, quotes=(builders.draft(),)),
        _drafted(Stage.QUOTED, ended=Ending.DECLINED).job,
    ):
        with pytest.raises(NotNow):
            send(builders.situation(job), builders.VALID_UNTIL, NO_NOTES)
