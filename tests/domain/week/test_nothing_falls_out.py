"""No job that is not over falls out of Tonight without a day ahead on which it comes back."""

from dataclasses import replace
from datetime import date, time, timedelta
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from domain.job import BookedDay, Cover, OldCovering, OldKind, Stage, Suspicion
from domain.week import Bill, WeekData, WeekLine, plan_week
from domain.week.tonight import RULES
from tests import builders

TODAY = date(2026, 6, 24)
DOUBTFUL = OldCovering(OldKind.CEMENT_SHEET, 1, Suspicion.BEFORE)
PLAIN = builders.week_line(builders.job_at(Stage.ENQUIRY))

near = (st.integers(-1, 1) | st.integers(-40, 40)).map(lambda days: TODAY + timedelta(days=days))
gone = (st.integers(0, 2) | st.integers(0, 40)).map(lambda days: TODAY - timedelta(days=days))


@st.composite
def lines(draw: st.DrawFn) -> WeekLine:
    """A job that has not ended: what its stage asks for is recorded, and perhaps more."""
    stage = draw(st.sampled_from(Stage))

    def so(by: Stage, *, after: bool = True) -> bool:
        """Whether it is recorded: the stage asks for it, or somebody was early."""
        return after and (stage.rank >= by.rank or draw(st.booleans()))

    surveyed = so(Stage.QUOTED)
    old = draw(st.sampled_from((OldCovering(OldKind.FELT, 1, Suspicion.AFTER), DOUBTFUL)))
    priced = so(Stage.QUOTED, after=surveyed)
    sent = so(Stage.QUOTED, after=priced)
    accepted = so(Stage.BOOKED, after=sent)
    stripped = so(Stage.STRIPPED, after=accepted)
    laid = so(Stage.LAID, after=stripped)
    paid = draw(st.sampled_from((0, 100_00)))
    bills = [
        Bill(
            1,
            "0001",
            TODAY,
            draw(near),
            100_00,
            paid,
            deposit=draw(st.booleans()),
            number=1,
            unsent=draw(st.booleans()),
        )
    ]
    return replace(
        PLAIN,
        stage=stage,
        visit_on=draw(st.none() | near),
        old_covering=old if surveyed else None,
        visit_at=draw(st.none() | st.just(time(9))),
        survey_answered=surveyed and (priced or draw(st.booleans())),
        knows_right_ends=draw(st.booleans()),
        quote_gross=486_00 if priced else None,
        deposit=draw(st.sampled_from((0, 50_00))),
        extras_open=draw(st.sampled_from((0, 1))),
        quote_sent_on=draw(gone) if sent else None,
        quote_unsent=sent and draw(st.booleans()),
        valid_until=draw(st.none() | near) if sent else None,
        accepted_on=draw(gone) if accepted else None,
        may_cancel=accepted and draw(st.booleans()),
        days=tuple(BookedDay(day, Decimal(8)) for day in draw(st.sets(near, max_size=3)))
        if accepted
        else (),
        materials_in_hand=draw(st.booleans()),
        stripped_on=draw(gone) if stripped else None,
        cover=draw(st.sampled_from(Cover)) if stripped else None,
        laid_on=draw(gone) if laid else None,
        usage_recorded=so(Stage.LAID, after=laid),
        bills=tuple(bills) if draw(st.booleans()) else (),
        credit=draw(st.sampled_from((0, 25_00))),
        open_snags=draw(st.sampled_from(((), ("trim",)))),
    )


def _is_over(line: WeekLine) -> bool:
    invoiced = any(not bill.deposit for bill in line.bills)
    owed = any(bill.owed for bill in line.bills)
    return line.stage is Stage.SIGNED_OFF and invoiced and not owed and not line.open_snags


def _has_a_day_ahead(line: WeekLine) -> bool:
    """Whether there is a day from which on something is to be done, or asked for, all the same."""
    waits = line.stage.rank < Stage.LAID.rank and line.laid_on is None
    work = [d.day for d in line.days if waits and line.accepted_on and d.day != line.stripped_on]
    visit = [line.visit_on] if line.visit_on and not line.surveyed else []
    answer = [line.valid_until] if line.valid_until and line.accepted_on is None else []
    money = [bill.due_on for bill in line.bills if bill.owed]
    return any(day >= TODAY for day in (*work, *visit, *answer, *money))


@given(lines())
def test_a_job_that_is_not_over_stands_in_tonight_or_has_a_day_ahead(line: WeekLine) -> None:
    tasks = plan_week(WeekData((line,), (), builders.trader()), TODAY).tonight
    assert _is_over(line) or _has_a_day_ahead(line) or any(t.job_id for t in tasks)


def test_every_rule_is_met_by_a_job_that_is_drawn() -> None:
    """Were they all alike, the test above could not fail."""
    met: set[object] = set()

    @settings(max_examples=400, database=None, derandomize=True)
    @given(lines())
    def look(line: WeekLine) -> None:
        met.update(rule for rule in RULES if rule(line, TODAY) is not None)

    look()
    assert met == set(RULES)
