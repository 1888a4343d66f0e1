"""Whole jobs at every stage."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from domain.checks.stages import Situation
from domain.job import Job, SignOff, Stage
from tests.builders.parts import (
    AGREED,
    LAY_DAY,
    RECEIVED,
    SENT,
    SIGNED,
    VISIT,
    acceptance,
    booked_day,
    customer,
    enquiry,
    invoice,
    laying,
    sent,
    site,
    stripping,
    survey,
    trader,
    usages,
)

TODAY_AT: Mapping[Stage, date] = {
    Stage.ENQUIRY: RECEIVED,
    Stage.SURVEY: VISIT,
    Stage.QUOTED: SENT,
    Stage.BOOKED: AGREED,
    Stage.STRIPPED: LAY_DAY,
    Stage.LAID: LAY_DAY,
    Stage.SIGNED_OFF: SIGNED,
}
"""A day on which a job at the stage has just got there."""

_RECORDS: Mapping[Stage, Callable[[], dict[str, Any]]] = {
    Stage.SURVEY: lambda: {"survey": survey()},
    Stage.QUOTED: lambda: {"survey": survey(), "quotes": (sent(),)},
    Stage.BOOKED: lambda: {
        "quotes": (sent(acceptance=acceptance()),),
        "days": (booked_day(),),
        "materials_in_hand": True,
    },
    Stage.STRIPPED: lambda: {"stripping": stripping()},
    Stage.LAID: lambda: {"laying": laying(), "usages": usages()},
    Stage.SIGNED_OFF: lambda: {
        "sign_off": SignOff("Mrs Adeyemi", SIGNED),
        "documents": (invoice(),),
    },
}
"""What each stage adds to the record."""


def ready_for(stage: Stage, **changes: Any) -> Job:
    """A job one previous stage, with everything recorded that the stage asks for."""
    job = Job(ref="0421", customer=customer(), site=site(), enquiry=enquiry(), id=1)
    for step in list(Stage)[1 : stage.rank + 1]:
        job = replace(job, **_RECORDS[step]())
    before = list(Stage)[max(stage.rank - 1, 0)]
    return replace(job, stage=before, **changes)


def job_at(stage: Stage, **changes: Any) -> Job:
    """A job at a stage, everything before it in order."""
    return replace(ready_for(stage), stage=stage, **changes)


def situation(job: Job, **changes: Any) -> Situation:
    """A job on a day on which its stage is fresh, with no forecast recorded."""
    return replace(Situation(job, trader(), TODAY_AT[job.stage], {}), **changes)
