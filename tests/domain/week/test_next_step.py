"""What the heading of a job says comes next."""

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest

from domain.job import (
    BookedDay,
    Cover,
    Ending,
    OldCovering,
    OldKind,
    Outgoing,
    Stage,
    ToSend,
)
from domain.week.next_step import next_step
from tests import builders

TODAY = builders.LAY_DAY  # a Wednesday
NEXT = TODAY + timedelta(days=1)
TWO_DAYS = (
    BookedDay(TODAY, Decimal(8), "strip"),
    BookedDay(NEXT, Decimal(6), "lay"),
)
AGREED = {"quotes": (builders.sent(acceptance=builders.acceptance()),)}
SHEETED = {"stripping": builders.stripping(cover=Cover.SHEETED), "days": TWO_DAYS}
LAID = {"stripping": builders.stripping(cover=Cover.LAID)}
DOUBTFUL = {"survey": builders.survey(old=OldCovering(OldKind.CEMENT_SHEET))}


@pytest.mark.parametrize(
    ("stage", "record", "words"),
    [
        (Stage.ENQUIRY, {"enquiry": builders.enquiry(visit_on=None)}, "next: arrange the visit"),
        (Stage.ENQUIRY, {"enquiry": builders.enquiry(visit_on=NEXT)}, "next: visit, tomorrow"),
        (Stage.SURVEY, {}, "next: survey and quote"),
        (Stage.SURVEY, DOUBTFUL, "next: get it tested"),
        (Stage.BOOKED, DOUBTFUL, "next: get it tested"),
        (Stage.BOOKED, DOUBTFUL | {"ended": Ending.CALLED_OFF}, ""),
        (Stage.STRIPPED, DOUBTFUL | SHEETED, "next: lay, tomorrow"),
        (Stage.QUOTED, {"quotes": (builders.sent(),)}, "valid until 4 Jul"),
        (
            Stage.QUOTED,
            {"quotes": (builders.sent(),), "to_send": (ToSend(Outgoing.QUOTE, 1),)},
            "next: send the quote",
        ),
        (Stage.QUOTED, {"quotes": (builders.sent(valid_until=builders.SENT),)}, "ran out 4 Jun"),
        (Stage.QUOTED, {"quotes": (builders.draft(),)}, "next: wait for an answer"),
        (Stage.QUOTED, AGREED, "next: book a day"),
        (Stage.QUOTED, AGREED | {"days": TWO_DAYS}, "next: strip, today"),
        (Stage.BOOKED, {"days": TWO_DAYS}, "next: strip, today"),
        (Stage.BOOKED, {"days": TWO_DAYS[1:]}, "next: lay, tomorrow"),
        (Stage.BOOKED, {"days": ()}, "next: strip"),
        (Stage.BOOKED, SHEETED, "next: lay, tomorrow"),
        (Stage.STRIPPED, SHEETED, "next: lay, tomorrow"),
        (Stage.STRIPPED, SHEETED | {"days": TWO_DAYS[:1]}, "next: book a day to lay"),
        (
            Stage.STRIPPED,
            {"stripping": builders.stripping(cover=Cover.OPEN), "days": TWO_DAYS},
            "next: sheet the deck",
        ),
        (Stage.STRIPPED, LAID | {"days": TWO_DAYS[:1]}, "next: record the laying"),
        (Stage.STRIPPED, LAID | {"laying": builders.laying()}, "next: record materials"),
        (
            Stage.STRIPPED,
            LAID | {"laying": builders.laying(), "usages": builders.usages()},
            "next: mark as laid",
        ),
        (Stage.LAID, {}, "next: sign off and invoice"),
        (Stage.LAID, {"documents": (builders.invoice(),)}, "next: sign off"),
        (Stage.SIGNED_OFF, {}, ""),
        (Stage.BOOKED, {"ended": Ending.CALLED_OFF}, ""),
    ],
)
def test_the_next_step_is_said(stage: Stage, record: dict[str, Any], words: str) -> None:
    assert next_step(builders.job_at(stage, **record), TODAY) == words


def test_a_day_further_on_is_named() -> None:
    days = (BookedDay(TODAY + timedelta(days=5), Decimal(8), "strip, lay"),)
    job = builders.job_at(Stage.BOOKED, days=days)
    assert next_step(job, TODAY) == "next: strip, lay, Monday"
