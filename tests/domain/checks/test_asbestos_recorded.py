"""What is said of asbestos goes by what is recorded: of a test only what is missing."""

from dataclasses import replace
from itertools import product
from typing import Any

import pytest

from domain.checks.safe_to_strip import RULED_OUT, asbestos_stop
from domain.job import OldCovering, OldKind, Sample, Suspicion
from tests.builders import VISIT, survey
from tests.domain.checks.cases import FULL

OLD = OldCovering(OldKind.FELT, 1, Suspicion.BEFORE)
FACTS: dict[str, Any] = {
    "cleared_by": "A Laboratory",
    "sample_number": "S 117",
    "tested_on": VISIT,
    "removed_by": "A Remover",
    "removed_on": VISIT,
    "consignment_note": "C 42",
}
TESTED = replace(OLD, sample=Sample.CLEAR, **FACTS)
GONE = replace(OLD, sample=Sample.FOUND, **FACTS)


@pytest.mark.parametrize(
    ("old", "missing"),
    [
        (replace(TESTED, sample_number=""), "record the sample’s number."),
        (replace(TESTED, cleared_by=" ", tested_on=None), "record the laboratory and the day of"),
        (replace(TESTED, suspicion=None), "record how old the covering is."),
        (replace(GONE, consignment_note=""), "record: the number of the consignment note."),
        (replace(GONE, removed_by="", removed_on=None), "record: who removed it and the day."),
        (replace(GONE, suspicion=None), "record: how old the covering is."),
        (replace(OLD, suspicion=Suspicion.CLEARED), "record the laboratory."),
    ],
)
def test_of_what_was_tested_or_removed_it_says_what_is_not_recorded(
    old: OldCovering, missing: str
) -> None:
    said = asbestos_stop(old)
    assert missing in said
    assert "Have a sample tested" not in said
    shown = replace(FULL, job=replace(FULL.job, survey=survey(old=old)))
    assert RULED_OUT.told_of(shown).remedy in said


def test_whatever_is_recorded_there_is_something_to_say_or_nothing_stops() -> None:
    for sample, suspicion in product((None, *Sample), (None, *Suspicion)):
        for given in product((False, True), repeat=len(FACTS)):
            said = {
                name: FACTS[name] for name, is_given in zip(FACTS, given, strict=True) if is_given
            }
            old = OldCovering(OldKind.FELT, 1, suspicion, sample=sample, **said)
            assert old.may_hold_asbestos <= bool(asbestos_stop(old))
