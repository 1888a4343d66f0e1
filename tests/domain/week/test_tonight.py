"""What needs doing tonight, and in which order."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from domain.job import BookedDay, Cover, Ending, OldCovering, OldKind, Stage, Suspicion
from domain.page_names import PageName
from domain.trader import Trader
from domain.week import (
    Forecast,
    Task,
    TaskKind,
    TaskSign,
    WeekData,
    WeekLine,
    plan_week,
)
from domain.week.tonight_order import TONIGHT
from tests.builders import (
    AGREED,
    DUE,
    LAY_DAY,
    RECEIVED,
    SENT,
    SIGNED,
    VALID_UNTIL,
    VISIT,
    enquiry,
    forecast,
    job_at,
    survey,
    trader,
    week_line,
)

MONDAY = date(2026, 6, 22)
ENQUIRY = week_line(job_at(Stage.SURVEY))
SURVEYED = replace(ENQUIRY, old_covering=survey().old)
DOUBTFUL = OldCovering(OldKind.CEMENT_SHEET, 1, Suspicion.BEFORE)
UNTESTED = replace(ENQUIRY, old_covering=DOUBTFUL)
QUOTED = week_line(job_at(Stage.QUOTED))
BOOKED = week_line(job_at(Stage.BOOKED))
STRIPPED = week_line(job_at(Stage.STRIPPED))
LAID = week_line(job_at(Stage.LAID))
BILLED = week_line(job_at(Stage.SIGNED_OFF))
FOUL = (forecast(typed="r"),)


def tonight(
    *lines: WeekLine,
    today: date,
    forecasts: tuple[Forecast, ...] = (),
    by: Trader | None = None,
) -> tuple[Task, ...]:
    return plan_week(WeekData(lines, forecasts, by or trader()), today).tonight


def words(*lines: WeekLine, today: date, forecasts: tuple[Forecast, ...] = ()) -> list[str]:
    return [task.words for task in tonight(*lines, today=today, forecasts=forecasts)]


def days_on(day: date, count: int) -> date:
    return day + timedelta(days=count)


def test_backups_that_lie_in_one_place_are_spoken_of_last() -> None:
    late = replace(BILLED, open_snags=("trim",))
    *others, last = tonight(late, today=days_on(DUE, 5), by=trader(backup_folder=""))
    assert [task.words for task in others] == ["Overdue 5 days", "Put right: trim"]
    assert (last.words, last.who) == ("Choose a backup folder", "on a stick, or synced")
    assert (last.page, last.job_id) == (PageName.TRADER, None)


@pytest.mark.parametrize(
    ("since", "said"),
    [
        (None, None),
        (days_on(MONDAY, -2), None),
        (days_on(MONDAY, -3), "none since 19 Jun: /nowhere/stick"),
        (days_on(MONDAY, -30), "none since 23 May: /nowhere/stick"),
    ],
)
def test_a_second_folder_out_of_reach_is_spoken_of_from_the_third_day(
    since: date | None, said: str | None
) -> None:
    data = WeekData((), (), trader(), second_backup_on=since)
    tasks = plan_week(data, MONDAY).tonight
    assert [task.who for task in tasks] == ([said] if said else [])


def test_an_open_deck_is_to_be_sheeted() -> None:
    is_open = replace(STRIPPED, cover=Cover.OPEN)
    task = tonight(is_open, today=LAY_DAY)[0]
    assert (task.words, task.sign) == ("Sheet it: roof left open", TaskSign.STOP)
    assert (task.who, task.job_id) == ("Mrs Adeyemi, Birch Lane", 1)
    assert "Sheet it: roof left open" not in words(STRIPPED, today=LAY_DAY)
    assert "Sheet it: roof left open" not in words(replace(is_open, laid_on=SIGNED), today=SIGNED)


@pytest.mark.parametrize(
    ("today", "said"),
    [
        (MONDAY, "Ring: rain on Wednesday"),
        (days_on(LAY_DAY, -1), "Ring: rain tomorrow"),
        (LAY_DAY, "Ring: rain today"),
        (days_on(LAY_DAY, -7), "Ring: rain on 24 Jun"),
    ],
)
def test_a_day_at_risk_is_to_be_rung_about(today: date, said: str) -> None:
    assert words(BOOKED, today=today, forecasts=FOUL)[0] == said


def test_what_stands_in_the_way_is_named() -> None:
    windy = (forecast(typed="d@24"),)
    assert words(BOOKED, today=MONDAY, forecasts=windy) == ["Ring: wind on Wednesday"]
    cold = (forecast(typed="d/3"),)
    assert words(BOOKED, today=MONDAY, forecasts=cold) == ["Ring: cold on Wednesday"]


def test_a_customer_is_rung_once_about_the_first_day() -> None:
    two_days = replace(BOOKED, days=(*BOOKED.days, BookedDay(SIGNED, Decimal(8))))
    foul = (forecast(SIGNED, "r"), forecast(typed="r"))
    assert words(two_days, today=MONDAY, forecasts=foul) == ["Ring: rain on Wednesday"]


def test_nobody_is_rung_about_a_fair_day_or_one_that_has_gone() -> None:
    assert words(BOOKED, today=MONDAY, forecasts=(forecast(),)) == []
    assert words(LAID, today=LAY_DAY, forecasts=FOUL) == ["Send the invoice"]


@pytest.mark.parametrize(("typed", "said"), [("d@17", True), ("dg40", True), ("d@16g20", False)])
@pytest.mark.parametrize("ahead", [0, 1])
def test_a_roof_that_stands_sheeted_into_a_windy_night_is_to_be_tied_down(
    typed: str, said: bool, ahead: int
) -> None:
    sheeted = replace(STRIPPED, cover=Cover.SHEETED, usage_recorded=True)
    told = (forecast(days_on(SIGNED, ahead), typed), forecast(days_on(SIGNED, 2), "w"))
    found = words(sheeted, today=SIGNED, forecasts=told)
    assert ("Tie down: windy night" in found) is said
    laid = replace(sheeted, laid_on=SIGNED)
    assert "Tie down: windy night" not in words(laid, today=SIGNED, forecasts=told)


def test_a_laid_roof_is_to_be_invoiced() -> None:
    (task,) = tonight(LAID, today=LAY_DAY)
    assert (task.words, task.amount, task.page) == ("Send the invoice", 486_00, PageName.MONEY)
    deposit = replace(BILLED.bills[0], deposit=True, owed=0)
    assert words(replace(LAID, bills=(deposit,)), today=LAY_DAY) == ["Send the invoice"]
    assert words(BILLED, today=SIGNED) == []


def test_money_is_overdue_from_the_day_after() -> None:
    assert words(BILLED, today=DUE) == []
    (task,) = tonight(BILLED, today=days_on(DUE, 1))
    assert (task.words, task.amount) == ("Overdue 1 day", 486_00)
    assert words(BILLED, today=days_on(DUE, 12)) == ["Overdue 12 days"]
    paid = replace(BILLED, bills=(replace(BILLED.bills[0], owed=0),))
    assert words(paid, today=days_on(DUE, 12)) == []


def test_a_deposit_of_a_job_called_off_is_owed_all_the_same() -> None:
    called_off = replace(BOOKED, ended=Ending.CALLED_OFF, bills=BILLED.bills)
    assert words(called_off, today=days_on(DUE, 2)) == ["Overdue 2 days"]


def test_materials_are_ordered_within_a_week_of_the_day() -> None:
    not_ordered = replace(BOOKED, materials_in_hand=False)
    assert words(not_ordered, today=days_on(LAY_DAY, -8)) == []
    assert words(not_ordered, today=days_on(LAY_DAY, -7)) == ["Order for 24 Jun"]
    assert words(not_ordered, today=MONDAY) == ["Order for Wednesday"]
    assert words(BOOKED, today=MONDAY) == []


def test_what_was_used_is_recorded_once_the_last_day_has_come() -> None:
    two_days = replace(BOOKED, days=(*BOOKED.days, BookedDay(SIGNED, Decimal(4))))
    assert words(two_days, today=MONDAY) == []
    assert words(two_days, today=LAY_DAY) == ["Record the stripping"]
    stripped = replace(two_days, stripped_on=LAY_DAY, cover=Cover.SHEETED)
    assert words(stripped, today=LAY_DAY) == []
    assert words(stripped, today=SIGNED) == ["Record materials used"]
    assert words(replace(stripped, laid_on=LAY_DAY), today=LAY_DAY) == ["Record materials used"]
    assert words(replace(stripped, usage_recorded=True), today=SIGNED) == []


def test_a_roof_that_is_surveyed_is_to_be_quoted() -> None:
    assert words(SURVEYED, today=VISIT) == ["Send the quote"]
    assert words(QUOTED, today=SENT) == []


def test_a_roof_that_may_hold_asbestos_is_tested_and_not_quoted() -> None:
    (task,) = tonight(UNTESTED, today=VISIT)
    assert (task.words, task.sign) == ("Get it tested: asbestos?", TaskSign.STOP)
    assert (task.page, task.since) == (PageName.SURVEY, VISIT)
    cleared = replace(DOUBTFUL, suspicion=Suspicion.CLEARED, cleared_by="A Tester")
    assert words(replace(UNTESTED, old_covering=cleared), today=VISIT) == ["Send the quote"]


def test_a_roof_found_doubtful_later_is_tested_until_it_is_stripped() -> None:
    said = ["Get it tested: asbestos?"]
    assert words(replace(QUOTED, old_covering=DOUBTFUL), today=SENT) == said
    assert words(replace(BOOKED, old_covering=DOUBTFUL), today=MONDAY) == said
    stripped = replace(STRIPPED, usage_recorded=True, old_covering=DOUBTFUL)
    assert words(stripped, today=LAY_DAY) == []
    assert words(replace(BILLED, stripped_on=None, old_covering=DOUBTFUL), today=SIGNED) == []


@pytest.mark.parametrize(
    ("left", "said"),
    [
        (4, []),
        (3, ["Quote runs out on Saturday"]),
        (1, ["Quote runs out tomorrow"]),
        (0, ["Quote runs out today"]),
        (-1, ["Ring: quote has run out"]),
        (-14, ["Ring: quote has run out"]),
        (-15, []),
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
    assert words(SURVEYED, today=VISIT) == ["Send the quote"]


def test_a_visit_is_to_be_arranged_from_the_day_after_the_enquiry() -> None:
    unseen = week_line(job_at(Stage.ENQUIRY, enquiry=enquiry(visit_on=None, visit_at=None)))
    assert words(unseen, today=RECEIVED) == []
    (task,) = tonight(unseen, today=days_on(RECEIVED, 1))
    assert (task.words, task.page) == ("Arrange the visit", PageName.ENQUIRY)
    called_survey = replace(unseen, stage=Stage.SURVEY)
    assert words(called_survey, today=DUE) == ["Arrange the visit"]
    assert words(replace(called_survey, old_covering=survey().old), today=DUE) == ["Send the quote"]


def test_a_quote_that_is_accepted_wants_a_day() -> None:
    agreed = replace(QUOTED, accepted_on=AGREED)
    (task,) = tonight(agreed, today=AGREED)
    assert (task.words, task.amount, task.page) == ("Book a day", 486_00, PageName.BOOKING)
    assert words(replace(BOOKED, days=()), today=AGREED) == ["Book a day"]
    assert words(BOOKED, today=AGREED) == []
    assert words(replace(STRIPPED, days=()), today=SIGNED) == []


def test_a_deposit_that_was_agreed_is_asked_for_until_the_work_begins() -> None:
    agreed = replace(BOOKED, deposit=100_00)
    (task,) = tonight(agreed, today=AGREED)
    assert (task.words, task.amount) == ("Send the deposit invoice", 100_00)
    assert task.page is PageName.MONEY
    sent = replace(BILLED.bills[0], deposit=True)
    assert words(replace(agreed, bills=(sent,)), today=AGREED) == []
    assert words(replace(QUOTED, deposit=100_00), today=SENT) == []
    begun = replace(STRIPPED, deposit=100_00, usage_recorded=True)
    assert words(begun, today=LAY_DAY) == []


def test_extras_still_to_agree_are_spoken_of() -> None:
    open_one = replace(STRIPPED, extras_open=1, usage_recorded=True)
    (task,) = tonight(open_one, today=LAY_DAY)
    assert (task.words, task.page) == ("Agree the extra", PageName.STRIP)
    assert words(replace(open_one, extras_open=2), today=LAY_DAY) == ["Agree 2 extras"]


def test_a_roof_that_is_recorded_is_to_be_called_laid() -> None:
    recorded = replace(LAID, stage=Stage.STRIPPED)
    (task,) = tonight(recorded, today=LAY_DAY)
    assert (task.words, task.amount) == ("Mark as laid", 486_00)
    assert words(replace(recorded, usage_recorded=False), today=LAY_DAY) == [
        "Record materials used"
    ]
    assert words(replace(recorded, laid_on=None), today=LAY_DAY) == []


def test_every_open_snag_is_to_be_put_right_even_when_all_is_paid() -> None:
    paid = replace(BILLED.bills[0], owed=0)
    done = replace(BILLED, bills=(paid,), open_snags=("trim loose", "nail proud"))
    assert [task.words for task in tonight(done, today=DUE)] == [
        "Put right: trim loose",
        "Put right: nail proud",
    ]
    assert words(replace(done, ended=Ending.CALLED_OFF), today=DUE) == []


@pytest.mark.parametrize(
    ("today", "who"),
    [
        (date(2027, 2, 27), []),
        (date(2027, 2, 28), ["policy runs out 31 Mar"]),
        (date(2027, 3, 30), ["policy runs out tomorrow"]),
        (date(2027, 4, 2), ["policy expired 31 Mar"]),
    ],
)
def test_the_traders_own_papers_are_told_a_month_before(today: date, who: list[str]) -> None:
    tasks = tonight(today=today)
    assert [task.who for task in tasks] == who
    for task in tasks:
        assert (task.words, task.job_id, task.page) == (
            "Renew insurance",
            None,
            PageName.TRADER,
        )


def test_a_paper_without_an_expiry_is_not_told() -> None:
    bare = Trader(backup_folder="/nowhere/stick")
    assert tonight(today=date(2099, 1, 1), by=bare) == ()


def test_an_ended_job_asks_for_nothing_else() -> None:
    for line in (ENQUIRY, SURVEYED, UNTESTED, QUOTED, BOOKED, replace(STRIPPED, cover=Cover.OPEN)):
        ended = replace(line, ended=Ending.CALLED_OFF)
        assert words(ended, today=VALID_UNTIL, forecasts=FOUL) == []


def test_the_dearest_to_leave_comes_first_and_of_a_kind_the_earliest() -> None:
    today = days_on(LAY_DAY, 20)
    later = replace(BILLED.bills[0], due_on=days_on(DUE, 2))
    lines = [
        replace(ENQUIRY, visit_on=days_on(today, 1)),
        ENQUIRY,
        replace(ENQUIRY, visit_on=None),
        replace(QUOTED, valid_until=days_on(today, 2)),
        SURVEYED,
        UNTESTED,
        replace(BILLED, bills=(replace(later, owed=0),), open_snags=("trim loose",)),
        replace(STRIPPED, usage_recorded=False, laid_on=LAY_DAY),
        replace(BOOKED, materials_in_hand=False, days=(BookedDay(days_on(today, 2), Decimal(8)),)),
        replace(BOOKED, days=()),
        replace(BILLED, bills=(later,)),
        BILLED,
        replace(BOOKED, deposit=100_00, days=(BookedDay(days_on(today, 9), Decimal(8)),)),
        replace(LAID, stage=Stage.STRIPPED),
        replace(STRIPPED, extras_open=1, usage_recorded=True),
        LAID,
        replace(BOOKED, days=(BookedDay(days_on(today, 1), Decimal(8)),)),
        replace(STRIPPED, cover=Cover.SHEETED, usage_recorded=True),
        replace(STRIPPED, cover=Cover.OPEN, usage_recorded=True),
    ]
    foul = (forecast(days_on(today, 1), "w"),)
    by = trader(liability_expires=today, backup_folder="")
    tasks = tonight(*lines, today=today, forecasts=foul, by=by)
    kinds = [task.kind for task in tasks]
    assert list(dict.fromkeys(kinds)) == [row.kind for row in TONIGHT]
    assert [t.words for t in tasks if t.kind is TaskKind.OVERDUE] == [
        "Overdue 5 days",
        "Overdue 3 days",
    ]


def test_every_kind_has_one_row_in_the_order_of_tonight() -> None:
    assert sorted(row.kind for row in TONIGHT) == sorted(TaskKind)


def test_the_order_of_tonight_is_what_costs_most_to_leave() -> None:
    assert [row.kind.name for row in TONIGHT] == [
        "SHEET", "TARPAULIN", "RING", "INVOICE", "EXTRA", "LAID", "DEPOSIT", "OVERDUE", "BOOK",
        "ORDER", "USED",
        "SNAG", "TEST", "QUOTE", "QUOTE_RUNS_OUT", "ARRANGE", "SURVEY", "VISIT", "PAPERS",
        "BACKUP",
    ]  # fmt: skip
