"""The ways from stage to stage: no stop is ever passed, and nothing recorded is ever lost."""

from collections.abc import Callable
from dataclasses import fields, replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.checks.stages import (
    CHECKS,
    Severity,
    Situation,
    end,
    endings,
    go_back,
    missing,
    move,
    next_stage,
    note_heading,
    reopen,
)
from domain.errors import NotNow, Refused
from domain.job import CautionNote, Closing, Ending, Job, Stage
from tests.builders import TODAY_AT, job_at, ready_for, situation
from tests.domain.checks.cases import FAILS, FULL, Change, names

FORWARD = [stage for stage in Stage if stage is not Stage.ENQUIRY]
STOPS = {check.id: check for check in CHECKS if check.severity is Severity.STOP}
CAUTIONS = {check.id: check for check in CHECKS if check.severity is Severity.CAUTION}
BROKEN_STOPS = [case for case in FAILS if case[0] in STOPS]
BROKEN_CAUTIONS = [case for case in FAILS if case[0] in CAUTIONS]


def ready(stage: Stage) -> Situation:
    return situation(ready_for(stage), today=TODAY_AT[stage])


def called(stage: Stage) -> Situation:
    """The full record, marked as a stage."""
    return replace(FULL, job=replace(FULL.job, stage=stage))


def _closing(ending: Ending, why: str) -> Closing:
    return Closing(ending, why, FULL.today)


def before(stage: Stage) -> Situation:
    return called(list(Stage)[stage.rank - 1])


@pytest.mark.parametrize("stage", FORWARD)
def test_a_job_with_everything_recorded_moves_on(stage: Stage) -> None:
    start = ready(stage)
    assert missing(start, stage) == ()
    assert move(start, stage, {}) == replace(start.job, stage=stage)


@pytest.mark.parametrize(("check_id", "change"), BROKEN_STOPS, ids=names(BROKEN_STOPS))
def test_no_note_passes_a_stop(check_id: str, change: Change) -> None:
    stage = STOPS[check_id].stage
    notes = {check.id: "never mind" for check in CHECKS}
    with pytest.raises(NotNow, match=f"marked as {stage.done} yet"):
        move(change(before(stage)), stage, notes)


@pytest.mark.parametrize("stage", FORWARD)
def test_a_stop_of_an_earlier_stage_holds_up_every_later_one(stage: Stage) -> None:
    start = before(stage)
    nameless = replace(start.job, customer=replace(start.job.customer, name=""))
    with pytest.raises(NotNow, match="Who is it for"):
        move(replace(start, job=nameless), stage, {})


@pytest.mark.parametrize(("check_id", "change"), BROKEN_CAUTIONS, ids=names(BROKEN_CAUTIONS))
def test_a_caution_needs_a_note_that_stays_on_the_job(check_id: str, change: Change) -> None:
    stage = CAUTIONS[check_id].stage
    start = change(before(stage))
    open_ids = [check.id for check in missing(start, stage)]
    with pytest.raises(NotNow, match="a note to each caution"):
        move(start, stage, {})
    moved = move(start, stage, dict.fromkeys(open_ids, " the customer agrees "))
    assert CautionNote(check_id, "the customer agrees", start.today) in moved.notes
    assert moved.stage is stage


def test_a_note_without_words_is_refused() -> None:
    start = ready(Stage.SIGNED_OFF)
    unsent = replace(start, job=replace(start.job, documents=()))
    with pytest.raises(Refused) as refused:
        move(unsent, Stage.SIGNED_OFF, {"invoice-sent": "  "})
    assert (refused.value.field, refused.value.value) == ("invoice-sent", "")


def test_a_note_given_before_counts_again_and_is_not_missed() -> None:
    start = ready(Stage.SIGNED_OFF)
    note = CautionNote("invoice-sent", "sent by post", date(2026, 6, 20))
    noted = replace(start, job=replace(start.job, documents=(), notes=(note,)))
    assert missing(noted, Stage.SIGNED_OFF) == ()
    assert move(noted, Stage.SIGNED_OFF, {}).notes == (note,)


def test_a_note_that_is_not_needed_is_not_kept() -> None:
    assert move(ready(Stage.BOOKED), Stage.BOOKED, {"sunday": "agreed"}).notes == ()


def test_what_is_missing_names_stops_first_then_cautions() -> None:
    start = situation(job_at(Stage.SURVEY, survey=None))
    bare = replace(start.job, enquiry=replace(start.job.enquiry, visit_on=None))
    found = list(missing(replace(start, job=bare), Stage.QUOTED))
    assert found == sorted(found, key=lambda check: check.severity is not Severity.STOP)
    assert {"quote-sent", "visit-time"} <= {check.id for check in found}


def test_a_job_moves_one_stage_at_a_time() -> None:
    with pytest.raises(NotNow, match="“survey” comes next"):
        move(called(Stage.ENQUIRY), Stage.QUOTED, {})
    with pytest.raises(NotNow, match="is already laid"):
        move(called(Stage.LAID), Stage.LAID, {})
    with pytest.raises(NotNow, match="is already signed off"):
        move(called(Stage.SIGNED_OFF), Stage.SIGNED_OFF, {})


@pytest.mark.parametrize("stage", Stage)
def test_next_stage_is_the_one_after(stage: Stage) -> None:
    after = list(Stage)[stage.rank + 1 :]
    assert next_stage(called(stage).job) is (after[0] if after else None)


def test_going_back_keeps_everything_and_says_why() -> None:
    start = called(Stage.LAID)
    back = go_back(start, Stage.SURVEY, "measured the wrong shed")
    assert back.stage is Stage.SURVEY
    assert back.notes[-1].words == "measured the wrong shed"
    assert note_heading(back.notes[-1]) == "Back to survey"
    assert replace(back, stage=start.job.stage, notes=start.job.notes) == start.job


def test_going_back_needs_a_reason_and_an_earlier_stage() -> None:
    with pytest.raises(Refused, match="Say why in a few words"):
        go_back(called(Stage.LAID), Stage.SURVEY, " ")
    with pytest.raises(NotNow, match="only laid"):
        go_back(called(Stage.LAID), Stage.LAID, "why not")


def test_a_job_is_declined_until_it_is_booked_and_called_off_until_it_is_laid() -> None:
    declined = end(called(Stage.QUOTED), _closing(Ending.DECLINED, "too dear"))
    assert (declined.ended, declined.ended_why) == (Ending.DECLINED, "too dear")
    with pytest.raises(NotNow, match="can no longer be declined"):
        end(called(Stage.BOOKED), _closing(Ending.DECLINED, "too dear"))
    assert (
        end(called(Stage.STRIPPED), _closing(Ending.CALLED_OFF, "sold")).ended is Ending.CALLED_OFF
    )
    with pytest.raises(NotNow, match="can no longer be called off"):
        end(called(Stage.LAID), _closing(Ending.CALLED_OFF, "sold"))
    with pytest.raises(Refused, match="Say why"):
        end(called(Stage.QUOTED), _closing(Ending.DECLINED, ""))
    for stage in Stage:  # what is offered is what is taken
        job = called(stage).job
        for ending in Ending:
            try:
                end(called(stage), _closing(ending, "sold"))
            except NotNow:
                assert ending not in endings(job)
            else:
                assert ending in endings(job)
    assert endings(declined) == ()


def test_an_ended_job_is_reopened_before_anything_else_and_keeps_why_it_ended() -> None:
    ended = replace(FULL, job=end(called(Stage.QUOTED), _closing(Ending.DECLINED, "too dear")))
    assert next_stage(ended.job) is None
    attempts: tuple[Callable[[], Job], ...] = (
        lambda: move(ended, Stage.BOOKED, {}),
        lambda: go_back(ended, Stage.SURVEY, "again"),
        lambda: end(ended, _closing(Ending.CALLED_OFF, "again")),
    )
    for attempt in attempts:
        with pytest.raises(NotNow, match="declined"):
            attempt()
    again = reopen(ended, "rang back")
    assert (again.ended, again.stage) == (None, Stage.QUOTED)
    assert [note_heading(note) for note in again.notes] == ["Declined", "Reopened"]
    with pytest.raises(NotNow, match="still open"):
        reopen(replace(ended, job=again), "once more")
    with pytest.raises(Refused, match="Say why"):
        reopen(ended, "")


def test_a_note_is_headed_by_the_caution_it_passed() -> None:
    assert note_heading(CautionNote("sunday", "agreed", TODAY_AT[Stage.BOOKED])) == "Not a Sunday?"


turns = st.tuples(
    st.sampled_from(["move", "move", "move", "skip", "back", "end", "reopen"]),
    st.sampled_from(Stage),
)
paths = st.lists(st.one_of(turns, turns, turns, st.sampled_from(FAILS)), max_size=20)
"""Turns a job takes, and now and then a record that changes under it."""


def _step(start: Situation, turn: str, to: Stage) -> Job:
    notes = {check.id: "noted" for check in CHECKS}
    if turn == "back":
        return go_back(start, to, "a reason")
    if turn == "end":
        return end(start, _closing(Ending.CALLED_OFF, "a reason"))
    if turn == "reopen":
        return reopen(start, "a reason")
    return move(start, next_stage(start.job) or to if turn == "move" else to, notes)


def _changed(start: Situation, change: Change) -> Situation:
    try:
        return change(start)
    except (AttributeError, TypeError):
        return start  # an earlier change took away the record that this one would change


@given(paths)
def test_no_path_passes_an_open_stop_or_loses_a_record(
    path: list[tuple[str, Stage | Change]],
) -> None:
    now = called(Stage.ENQUIRY)
    for turn, to in path:
        if not isinstance(to, Stage):
            now = _changed(now, to)
            continue
        try:
            after = _step(now, turn, to)
        except NotNow:
            continue
        assert after.stage.rank <= now.job.stage.rank + 1
        if after.stage.rank > now.job.stage.rank:
            reached = [check for check in CHECKS if check.stage.rank <= after.stage.rank]
            noted = {note.check_id for note in after.notes}
            assert all(check.holds(now) for check in reached if check.severity is Severity.STOP)
            assert all(check.holds(now) or check.id in noted for check in reached)
        assert after.notes[: len(now.job.notes)] == now.job.notes
        assert _record(after) == _record(now.job)
        now = replace(now, job=after)


def _record(of: Job) -> dict[str, object]:
    """All that is recorded of a job but where it stands and its notes, which may grow."""
    standing = {"stage", "ended", "ended_why", "told_on", "kept", "kept_why", "notes"}
    return {f.name: getattr(of, f.name) for f in fields(of) if f.name not in standing}
