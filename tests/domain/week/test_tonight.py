"""What needs doing tonight, and in which order."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from domain.job import BookedDay, Cover, Ending, Stage
from domain.page_names import PageName
from domain.starting_rates import CHARGES, WORK_RATES, with_confirmed
from domain.trader import Rates, Trader
from domain.week import (
    Delivery,
    TaskKind,
    WeekData,
    plan_week,
)
from domain.week.tonight_order import TONIGHT
from tests.builders import (
    DUE,
    LAY_DAY,
    SIGNED,
    VALID_UNTIL,
    forecast,
    trader,
)
from tests.domain.week.lines import (
    BILLED,
    BOOKED,
    ENQUIRY,
    FOUL,
    LAID,
    MONDAY,
    QUOTED,
    STRIPPED,
    SURVEYED,
    UNTESTED,
    days_on,
    tonight,
    words,
)


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


@pytest.mark.parametrize(
    ("today", "said"),
    [
        (MONDAY, "Ring: rain on Wednesday"),
        (days_on(LAY_DAY, -1), "Ring: rain tomorrow"),
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


def test_what_has_run_out_stops_the_next_booked_day() -> None:
    by = trader(liability_expires=days_on(MONDAY, -1))
    assert tonight(BOOKED, today=MONDAY, by=by)[0].kind is TaskKind.EXPIRED
    assert tonight(today=MONDAY, by=by)[0].kind is TaskKind.RENEW
    for last, kind in ((days_on(LAY_DAY, -1), TaskKind.EXPIRED), (LAY_DAY, TaskKind.RENEW)):
        (task,) = tonight(BOOKED, today=MONDAY, by=trader(waste_expires=last))
        assert (task.kind, task.words) == (kind, "Renew waste carrier")


def test_starting_rates_are_named_until_all_are_changed_or_confirmed() -> None:
    new = trader(rates=Rates())
    (task,) = tonight(today=MONDAY, by=new)
    count = len(CHARGES) + len(WORK_RATES)
    assert (task.kind, task.words, task.who) == (
        TaskKind.RATES,
        "Confirm your rates",
        f"{count} starting figures",
    )
    assert (task.page, task.field) == (PageName.TRADER, CHARGES[0])
    charges = with_confirmed(new.rates, CHARGES)
    (task,) = tonight(today=MONDAY, by=replace(new, rates=charges))
    assert task.field == WORK_RATES[0]
    assert tonight(today=MONDAY, by=replace(new, rates=with_confirmed(charges, WORK_RATES))) == ()
    assert tonight(today=MONDAY, by=replace(new, name="")) == ()  # set-up speaks of them


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


def test_an_ended_job_asks_for_nothing_else() -> None:
    for line in (ENQUIRY, SURVEYED, UNTESTED, QUOTED, BOOKED, STRIPPED):
        ended = replace(line, ended=Ending.CALLED_OFF)
        assert words(ended, today=VALID_UNTIL, forecasts=FOUL) == []


def test_the_dearest_to_leave_comes_first_and_of_a_kind_the_larger_sum() -> None:
    today = days_on(LAY_DAY, 20)
    later = replace(BILLED.bills[0], due_on=days_on(DUE, 2), owed=500_00)
    soon = (BookedDay(days_on(today, 2), Decimal(8)),)
    settled = replace(BILLED.bills[0], owed=0)
    sheeted = replace(STRIPPED, cover=Cover.SHEETED)
    lines = [
        replace(ENQUIRY, visit_on=days_on(today, 1)),
        ENQUIRY,
        replace(ENQUIRY, visit_on=None),
        replace(QUOTED, valid_until=days_on(today, -2)),
        replace(QUOTED, valid_until=days_on(today, 2)),
        SURVEYED,
        UNTESTED,
        replace(BILLED, bills=(settled,), open_snags=("trim loose",)),
        replace(BILLED, bills=(settled,), statements=((days_on(today, -60), 50_04),)),
        replace(BILLED, bills=(settled,), credit=25_00),
        replace(BILLED, bills=(settled,), stage=Stage.LAID),
        replace(STRIPPED, usage_recorded=False, laid_on=LAY_DAY),
        replace(BOOKED, materials_in_hand=False, days=soon),
        replace(BOOKED, accepted_on=today, early_request_on=None, days=soon),
        replace(BOOKED, stage=Stage.QUOTED, days=soon),
        replace(BOOKED, days=()),
        BOOKED,
        replace(BOOKED, days=(BookedDay(today, Decimal(8)),)),
        sheeted,
        BILLED,
        replace(BOOKED, ended=Ending.CALLED_OFF, told_on=today, credit=100_00),
        replace(BILLED, bills=(later,)),
        replace(BOOKED, deposit=100_00, days=(BookedDay(days_on(today, 9), Decimal(8)),)),
        replace(LAID, stage=Stage.STRIPPED),
        replace(sheeted, extras_open=1, days=soon),
        LAID,
        replace(BOOKED, days=(BookedDay(days_on(today, 1), Decimal(8)),)),
        replace(STRIPPED, cover=Cover.OPEN, usage_recorded=True),
    ]
    foul = (forecast(days_on(today, 1), "w"),)
    run_out = days_on(today, -1)
    papers = {"liability_expires": run_out, "waste_expires": days_on(today, 9)}
    by = trader(**papers, backup_folder="", rates=Rates())
    late = (Delivery("Sarn Bridge Timber", today, 1, part=True),)
    tasks = tonight(*lines, today=today, forecasts=foul, by=by, deliveries=late)
    kinds = [task.kind for task in tasks]
    assert list(dict.fromkeys(kinds)) == [row.kind for row in TONIGHT]
    overdue = [(t.words, t.amount) for t in tasks if t.kind is TaskKind.OVERDUE]
    assert overdue == [("Overdue 3 days", 500_00), ("Overdue 5 days", 486_00)]


def test_every_kind_has_one_row_in_the_order_of_tonight() -> None:
    assert sorted(row.kind for row in TONIGHT) == sorted(TaskKind)


def test_the_order_of_tonight_is_what_costs_most_to_leave() -> None:
    assert [row.kind.name for row in TONIGHT] == [
        "SHEET", "TARPAULIN", "CLOSED", "TEST", "RING", "ORDER", "DELIVERY", "SHORT", "REQUEST",
        "EXPIRED", "LAID", "INVOICE", "EXTRA", "DEPOSIT", "PAY_BACK", "CREDIT", "OVERDUE",
        "WENT_AHEAD", "USED", "BOOKED", "BOOK", "LAYING", "SIGN_OFF", "SNAG", "QUOTE", "RUNS_OUT",
        "RAN_OUT", "STATEMENT", "SURVEY", "ARRANGE", "VISIT", "RENEW", "RATES", "BACKUP",
    ]  # fmt: skip


def test_a_day_that_no_weather_makes_long_enough_is_named_once_with_the_longest_job() -> None:
    longer = replace(BOOKED, job_id=7, days=(BookedDay(LAY_DAY, Decimal(9), "strip, lay"),))
    alone = replace(BOOKED, days=(BookedDay(LAY_DAY, Decimal(6), "strip, lay"),))
    today = days_on(LAY_DAY, -2)
    assert TaskKind.SHORT not in {task.kind for task in tonight(alone, today=today)}
    (short,) = (t for t in tonight(alone, longer, today=today) if t.kind is TaskKind.SHORT)
    assert (short.job_id, short.field) == (7, "day1")
    assert short.about == "too short: 15 h of 10½ h: split the work or move a day"
    assert TaskKind.SHORT not in {t.kind for t in tonight(longer, today=days_on(today, -9))}
