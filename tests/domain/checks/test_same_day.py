"""Two jobs on one day are named, with what they come to together."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from domain.checks.same_day import ANOTHER_JOB, others_on
from tests.builders import LAY_DAY, SIGNED
from tests.domain.checks.cases import FULL
from tests.domain.checks.changes import beside, booked, both, laden


@pytest.mark.parametrize(
    ("kg", "said"),
    [
        (None, ""),
        # The worked example takes 100.6 kg; derived.
        (Fraction("50.6"), " 151 kg to load; van carries 120 kg: 2 trips."),
    ],
)
def test_the_other_job_is_named_with_hours_and_load_together(
    kg: Fraction | None, said: str
) -> None:
    situation = both(laden(120), beside(LAY_DAY, kg=kg))(FULL)
    told = ANOTHER_JOB.told_of(situation)
    assert told.remedy == (
        f"Wed 24 Jun 2026: 0017 Mill Row too, 14 of 8 h together.{said} "
        "Move one of them, or say how both are done."
    )


def test_each_shared_day_is_told_by_itself() -> None:
    one = both(booked(LAY_DAY, SIGNED), beside(LAY_DAY))(FULL)
    later = replace(one.others[0], day=SIGNED, ref="0018", place="", hours=Decimal("1.5"))
    told = ANOTHER_JOB.told_of(replace(one, others=(*one.others, later))).remedy
    assert "0017 Mill Row too, 14 of 8 h together. Thu 25 Jun 2026: 0018 too, 9½ of 8 h" in told
    assert others_on(one, SIGNED) == ()
