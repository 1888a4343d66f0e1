"""What is asked together is one question, and a plain shed meets few of them."""

from collections.abc import Iterator
from dataclasses import replace

from domain.checks.check import Part, Severity, Situation
from domain.checks.questions import questions_of
from domain.checks.stages import CHECKS, missing
from domain.job import AccessPlan, Around, Deck, Edges, Job, OldCovering, Stage
from tests import builders
from tests.builders import trader

MOST = 12
"""Questions of a plain apex shed up to booked, beside its measures: what the trade asked for."""


def on_the_way() -> Iterator[Job]:
    """A plain apex shed from its first measures until it is booked, answered step by step."""
    whole = builders.survey()
    measured = replace(
        whole, deck=Deck(), old=OldCovering(), edges=Edges(), around=Around(), access=AccessPlan()
    )
    new = builders.ready_for(
        Stage.SURVEY,
        customer=builders.customer(kind_asked=False),
        enquiry=builders.enquiry(visit_at=None),
        survey=measured,
    )
    yield new
    answered = replace(new, survey=whole, customer=builders.customer(), enquiry=builders.enquiry())
    yield answered
    sent = replace(answered, quotes=(builders.sent(acceptance=None),))
    yield sent
    accepted = builders.sent(acceptance=builders.acceptance(notice_on=None))
    yield replace(answered, quotes=(accepted,))
    yield replace(builders.ready_for(Stage.BOOKED), materials_in_hand=False)


def test_a_plain_shed_meets_at_most_twelve_questions_up_to_booked() -> None:
    met: dict[str, None] = {}
    for job in on_the_way():
        situation = Situation(job, trader(), builders.VISIT, {})
        for question in questions_of(missing(situation, Stage.BOOKED)):
            first = question.checks[0]
            met[f"{first.page} {first.part or first.id}"] = None
    assert len(met) <= MOST, list(met)
    assert len(met) >= 9  # it walks all the way


def test_folding_drops_no_check_and_no_stop() -> None:
    first = next(on_the_way())
    checks = missing(Situation(first, trader(), builders.VISIT, {}), Stage.BOOKED)
    folded = questions_of(checks)
    assert sorted(c.id for q in folded for c in q.checks) == sorted(c.id for c in checks)
    for question in folded:
        stops = [check.severity is Severity.STOP for check in question.checks]
        assert (question.severity is Severity.STOP) is any(stops)
        assert len({check.page for check in question.checks}) == 1


def test_asbestos_is_asked_by_itself() -> None:
    together = {c.id for c in CHECKS if c.part is Part.ASBESTOS}
    assert together == {"old-age", "asbestos", "suspect"}
