"""What is still to do on the roof, and for its day."""

from dataclasses import replace
from decimal import Decimal

from domain.job import BookedDay, Cover, Ending, Sample, Stage, Suspicion
from domain.page_names import PageName
from domain.week import (
    TaskSign,
)
from tests.builders import (
    AGREED,
    DUE,
    LAY_DAY,
    SENT,
    SIGNED,
    VISIT,
)
from tests.domain.week.lines import (
    BILLED,
    BOOKED,
    DOUBTFUL,
    FOUL,
    LAID,
    MONDAY,
    QUOTED,
    STRIPPED,
    UNTESTED,
    days_on,
    tonight,
    words,
)


def test_an_open_deck_is_to_be_sheeted() -> None:
    is_open = replace(STRIPPED, cover=Cover.OPEN)
    task = tonight(is_open, today=LAY_DAY)[0]
    assert (task.words, task.sign) == ("Sheet it: roof left open", TaskSign.STOP)
    assert (task.who, task.job_id) == ("Mrs Adeyemi, Birch Lane", 1)
    assert "Sheet it: roof left open" not in words(STRIPPED, today=LAY_DAY)
    assert "Sheet it: roof left open" not in words(replace(is_open, laid_on=SIGNED), today=SIGNED)


def test_on_the_evening_of_the_day_it_is_asked_whether_the_deck_is_closed() -> None:
    (task,) = tonight(BOOKED, today=LAY_DAY)
    assert (task.words, task.sign, task.page) == (
        "Is the deck closed?",
        TaskSign.STOP,
        PageName.STRIP,
    )
    said = ["Rain: is the deck closed?", "Ring: rain today"]
    assert words(BOOKED, today=LAY_DAY, forecasts=FOUL) == said
    assert words(STRIPPED, today=LAY_DAY) == ["Record the laying"]


def test_materials_are_ordered_within_a_week_of_the_day() -> None:
    not_ordered = replace(BOOKED, materials_in_hand=False)
    assert words(not_ordered, today=days_on(LAY_DAY, -8)) == []
    assert words(not_ordered, today=days_on(LAY_DAY, -7)) == ["Order for 24 Jun"]
    assert words(not_ordered, today=MONDAY) == ["Order for Wednesday"]
    assert words(BOOKED, today=MONDAY) == []


def test_a_day_that_came_is_asked_about_until_something_is_recorded_of_it() -> None:
    two_days = replace(BOOKED, days=(*BOOKED.days, BookedDay(SIGNED, Decimal(4))))
    assert words(two_days, today=MONDAY) == []
    assert words(two_days, today=SIGNED) == ["Is the deck closed?"]
    (task,) = tonight(two_days, today=days_on(SIGNED, 1))
    assert (task.words, task.page, task.about) == (
        "Did it go ahead?",
        PageName.STRIP,
        "booked for 24 Jun",
    )
    sheeted = replace(two_days, stripped_on=LAY_DAY, cover=Cover.SHEETED)
    assert words(sheeted, today=LAY_DAY) == []
    (task,) = tonight(sheeted, today=SIGNED)
    assert (task.words, task.page) == ("Did the laying go ahead?", PageName.LAYING)
    still_quoted = replace(BOOKED, stage=Stage.QUOTED)
    assert words(still_quoted, today=days_on(LAY_DAY, 1)) == ["Did it go ahead?"]
    assert words(still_quoted, today=MONDAY) == ["Mark as booked"]


def test_a_roof_under_a_sheet_wants_a_day_to_lay() -> None:
    sheeted = replace(STRIPPED, cover=Cover.SHEETED)
    (task,) = tonight(sheeted, today=SIGNED)
    assert (task.words, task.page) == ("Book the laying", PageName.BOOKING)
    assert task.about == "sheeted since 24 Jun"
    assert words(replace(sheeted, days=()), today=SIGNED) == ["Book the laying"]


def test_what_was_used_is_asked_for_once_the_laying_is_on_record() -> None:
    sheeted = replace(STRIPPED, cover=Cover.SHEETED)
    laid = replace(sheeted, laid_on=LAY_DAY)
    later = (BookedDay(days_on(LAY_DAY, 3), Decimal(4)),)
    for days in ((), sheeted.days, later):
        assert words(replace(laid, days=days), today=LAY_DAY) == ["Record materials used"]
    assert words(STRIPPED, today=SIGNED) == ["Record the laying"]


def test_work_that_starts_before_the_right_to_cancel_ends_wants_the_request() -> None:
    inside = replace(BOOKED, accepted_on=days_on(LAY_DAY, -10), early_request_on=None)
    assert BOOKED.may_cancel
    (task,) = tonight(inside, today=MONDAY)
    assert (task.words, task.page) == ("Get request in writing", PageName.QUOTE)
    assert task.about.startswith("or move the day: they can cancel until Sunday, ")
    asked = replace(inside, early_request_on=SENT)
    assert words(asked, today=MONDAY) == ["Ask: right ends when done"]
    assert words(replace(asked, knows_right_ends=True), today=MONDAY) == []
    too_late = replace(asked, early_request_on=SIGNED, knows_right_ends=True)
    assert words(too_late, today=MONDAY) == ["Get request in writing"]
    assert words(replace(inside, may_cancel=False), today=MONDAY) == []
    # reg. 31: not told of the right, they have 12 months more
    untold = replace(BOOKED, accepted_on=days_on(LAY_DAY, -40), notice_on=None)
    assert words(replace(untold, early_request_on=None), today=MONDAY) == ["Get request in writing"]
    after = replace(inside, accepted_on=days_on(LAY_DAY, -15), notice_on=days_on(LAY_DAY, -15))
    assert words(after, today=MONDAY) == []


def test_an_open_deck_of_a_job_called_off_is_still_to_be_sheeted() -> None:
    called_off = replace(STRIPPED, cover=Cover.OPEN, ended=Ending.CALLED_OFF)
    assert words(called_off, today=SIGNED) == ["Sheet it: roof left open"]


def test_a_roof_invoiced_and_paid_is_still_to_be_signed_off() -> None:
    paid = replace(BILLED, stage=Stage.LAID, bills=(replace(BILLED.bills[0], owed=0),))
    (task,) = tonight(paid, today=DUE)
    assert (task.words, task.page) == ("Get it signed off", PageName.SIGN_OFF)


def test_a_roof_that_may_hold_asbestos_is_tested_and_not_quoted() -> None:
    (task,) = tonight(UNTESTED, today=VISIT)
    assert (task.words, task.sign) == ("Get it tested: asbestos?", TaskSign.STOP)
    assert (task.page, task.since) == (PageName.SURVEY, VISIT)
    assert task.field == "sample"  # how old it is was said
    unsaid = replace(UNTESTED, old_covering=replace(DOUBTFUL, suspicion=None))
    assert [each.field for each in tonight(unsaid, today=VISIT)] == ["suspicion"]
    cleared = replace(DOUBTFUL, suspicion=Suspicion.CLEARED, cleared_by="A Tester")
    assert words(replace(UNTESTED, old_covering=cleared), today=VISIT) == ["Price it and quote"]


def test_a_sample_that_was_tested_is_not_to_be_tested_again() -> None:
    clear, found = (replace(DOUBTFUL, sample=sample) for sample in Sample)
    assert words(replace(UNTESTED, old_covering=clear), today=VISIT) == ["Record sample: asbestos?"]
    assert words(replace(UNTESTED, old_covering=found), today=VISIT) == ["Record removal: asbestos"]


def test_a_roof_found_doubtful_later_is_tested_until_it_is_stripped() -> None:
    said = ["Get it tested: asbestos?"]
    assert words(replace(QUOTED, old_covering=DOUBTFUL), today=SENT) == said
    assert words(replace(BOOKED, old_covering=DOUBTFUL), today=MONDAY) == said
    stripped = replace(STRIPPED, usage_recorded=True, old_covering=DOUBTFUL)
    assert words(stripped, today=LAY_DAY) == ["Record the laying"]
    assert words(replace(BILLED, stripped_on=None, old_covering=DOUBTFUL), today=SIGNED) == []


def test_a_quote_that_is_accepted_wants_a_day() -> None:
    agreed = replace(QUOTED, accepted_on=AGREED)
    (task,) = tonight(agreed, today=AGREED)
    assert (task.words, task.amount, task.page) == ("Book a day", 486_00, PageName.BOOKING)
    assert words(replace(BOOKED, days=()), today=AGREED) == ["Book a day"]
    only_lay = replace(BOOKED, days=(BookedDay(SIGNED, Decimal(6), "lay"),))
    assert words(only_lay, today=MONDAY) == ["Book the stripping"]
    assert words(BOOKED, today=AGREED) == []


def test_a_roof_that_is_recorded_is_to_be_called_laid() -> None:
    recorded = replace(LAID, stage=Stage.STRIPPED)
    (task,) = tonight(recorded, today=LAY_DAY)
    assert (task.words, task.amount) == ("Mark as laid", 486_00)
    assert words(replace(recorded, usage_recorded=False), today=LAY_DAY) == [
        "Record materials used"
    ]
    assert words(replace(recorded, laid_on=None), today=LAY_DAY) == ["Record the laying"]
