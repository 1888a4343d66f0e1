"""What can be told of a surveyed roof before it is counted: whether its measures make one."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from domain.coverings.pitch import check_pitch
from domain.coverings.reaching import reaching
from domain.coverings.registry import COVERINGS
from domain.coverings.shingle import Shingle
from domain.errors import Refused
from domain.job import CoveringChoice, Job, Survey
from domain.setting_out.courses import lay_courses
from domain.setting_out.forms.roof import build_roof


@lru_cache(maxsize=16)
def can_be_drawn(survey: Survey) -> bool:
    """Tell whether the measures make a roof that the covering, if chosen, can be laid on.

    Several checks ask it of one survey, at each turn that a job takes.
    """
    covering = COVERINGS.get(survey.covering.key) if survey.covering else None
    try:
        roof = build_roof(survey.measures)
        if covering is not None:
            check_pitch(covering, roof.pitch)
            covering = reaching(covering, survey.edges.past_edge)
        if isinstance(covering, Shingle):
            for slope in roof.slopes:
                lay_courses(slope, covering)
    except Refused:
        return False
    return True


def pitch_in_doubt(survey: Survey) -> bool:
    """Tell whether the pitch is under what the covering wants, or not known.

    A roof that cannot be drawn, or a pitch under the least of all, is a stop and not this caution.
    """
    if survey.covering is None or survey.covering.key not in COVERINGS or not can_be_drawn(survey):
        return False
    roof = build_roof(survey.measures)
    return bool(check_pitch(COVERINGS[survey.covering.key], roof.pitch))


def in_each_covering(job: Job) -> Iterator[Survey]:
    """The survey as it is, and in each covering that is offered beside its own."""
    if job.survey is None:
        return
    yield job.survey
    if job.quote is not None and job.quote.acceptance is None:
        for option in job.quote.options[1:]:
            yield replace(job.survey, covering=CoveringChoice(option.covering, option.colour))


def measures_disagree(survey: Survey) -> bool:
    """Tell whether the measures disagree with each other; False if the roof cannot be drawn."""
    try:
        return bool(build_roof(survey.measures).cautions)
    except Refused:
        return False
