"""The days of a job as they are typed, and what speaks for and against each of them.

What speaks against a day is asked of the checks themselves, as if it alone were booked.
"""

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from domain.checks.before_booked import BEFORE_BOOKED
from domain.checks.check import Situation
from domain.checks.same_day import others_on
from domain.checks.weather import window_of
from domain.days.calendar import WEEKDAYS, bank_holidays, show_date, show_day_from, show_hours
from domain.days.cancellation import right_ended_on, right_ends, right_in_words
from domain.days.dates import read_date
from domain.days.weather import Verdict, room_for_work, too_short, window
from domain.errors import Refused
from domain.estimate.hours import (
    falls_short,
    hours_booked,
    hours_given,
    hours_quoted,
    hours_words,
)
from domain.estimate.weights import load_words, van_load
from domain.job import LAY, TASKS, BookedDay, Job
from domain.quantity import read_number
from domain.signs import Sign
from domain.tone import Tone
from domain.trader import Trader
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, number_typed
from tui.widgets.form import YES_NO
from tui.widgets.kept_lines import kept
from tui.widgets.line_input import Takes

DAYS = (1, 2, 3, 4)
"""The days that can be booked, by number."""
_LONGEST = Decimal(16)  # hours; no day on a roof is longer

IN_HAND = Field("in_hand", "Materials in hand", choices=YES_NO)
FIELDS = (
    IN_HAND,
    *(
        field
        for n in DAYS
        for field in (
            Field(f"day{n}", f"Day {n}", "→", example="thu, 25 Nov", takes=Takes.COMING),
            Field(f"hours{n}", f"Hours, day {n}", "h", hint="rest", takes=Takes.QUARTERS),
            Field(f"task{n}", f"Task, day {n}", choices=TASKS),
        )
    ),
)


@dataclass(frozen=True, slots=True)
class Note:
    """What is written beside a field."""

    words: str
    tone: Tone


def days_typed(job: Job) -> dict[str, str]:
    """Return what stands in the fields."""
    typed = {IN_HAND.id: YES_NO[0] if job.materials_in_hand else YES_NO[1]}
    for n, booked in zip(DAYS, job.days, strict=False):
        typed |= {
            f"day{n}": date_typed(booked.day),
            f"hours{n}": number_typed(booked.hours),
            f"task{n}": booked.task,
        }
    return typed


def days_gone_by(job: Job, values: Mapping[str, str], today: date) -> tuple[int, ...]:
    """The numbers of the booked days before today that nothing was typed over."""
    recorded = days_typed(job)
    return tuple(
        n
        for n, booked in zip(DAYS, job.days, strict=False)
        if booked.day < today and values[f"day{n}"] == recorded[f"day{n}"]
    )


def read_days(
    values: Mapping[str, str], job: Job, trader: Trader, today: date
) -> tuple[BookedDay, ...]:
    """The days as typed, the earliest first.

    Where no hours are given a day takes those of the quote that are left, the trader's hours a day
    at most, and no more than it is long enough for.
    Days booked beyond those that have a field stay. Raises :class:`Refused`.
    """
    before, given = job.days, _given_hours(values, job, trader, today)
    days = list(before[len(DAYS) :])
    for n in DAYS:
        typed = values[f"day{n}"]
        if not typed.strip():
            _refuse_left_over(values, n)
            continue
        day = read_date(f"day{n}", typed, today)
        if any(day == other.day for other in days):
            raise Refused(f"day{n}", typed, "It is booked already: give each day once.")
        was = before[n - 1].task if n <= len(before) else ""
        task = _read_task(values, n, was, LAY if job.stripping else TASKS[0])
        days.append(BookedDay(day, _read_hours(values, n, given), task))
    return tuple(sorted(days, key=lambda booked: booked.day))


def day_note(values: Mapping[str, str], n: int, situation: Situation) -> Note:
    """What kind of day it is: its date, then what the law, the calendar and the customer say.

    Nothing while it cannot be read.
    """
    day = _day(values, n, situation.today)
    if day is None:
        return Note("", Tone.PLAIN)
    against = _against(situation, BookedDay(day, situation.trader.hours_a_day))
    ends = right_ends_on(situation.job)
    inside = ends is not None and day <= ends
    stopped = inside and bool(against & {"early-request", "right-ends"})
    odd = [
        ("may still cancel" if stopped else "early, as asked", inside),
        (_holiday(situation, day), "bank-holiday" in against),
        ("Sunday", "sunday" in against),
        ("does not suit them", "ruled-out" in against),
        (f"also {_named(situation, day)}", "another-job" in against),
        ("gone by", day < situation.today),
    ]
    said = [words for words, so in odd if so]
    named = f"{WEEKDAYS[day.weekday()][:3]} {show_day_from(day, situation.today)}"
    words = " · ".join([named, *said])
    if stopped:
        return Note(f"{Sign.STOP} {words}", Tone.STOP)
    return Note(f"{Sign.CAUTION} {words}", Tone.CAUTION) if said else Note(words, Tone.PLAIN)


def hours_note(values: Mapping[str, str], n: int, situation: Situation) -> Note:
    """What forecast and length of day say to the hours; nothing while they cannot be read."""
    booked = _booked(values, n, situation)
    if booked is None:
        return Note("", Tone.PLAIN)
    found, limits = window_of(situation, booked.day), situation.trader.limits
    words, against = found.words or str(found.verdict), _against(situation, booked)
    if not values[f"hours{n}"].strip():
        words = f"{show_hours(booked.hours)} h · {words}"
    if "daylight" in against:
        return Note(f"{Sign.CAUTION} {too_short(found, (booked,), limits)} · {words}", Tone.CAUTION)
    if "forecast" in against:
        return Note(f"{Sign.CAUTION} {words}", Tone.CAUTION)
    if found.verdict is Verdict.GOOD:
        return Note(f"{Sign.GOOD} {words}", Tone.GOOD)
    return Note(words, Tone.QUIET)


def right_words(job: Job, today: date) -> Note:
    """Whether and until when the customer may cancel, or when that ended."""
    acceptance = job.quote.acceptance if job.quote else None
    if acceptance is None:
        return Note(f"{Sign.CAUTION} Not accepted yet: pencil it in only.", Tone.CAUTION)
    if right_ends_on(job) is None:
        why = "urgent repair" if acceptance.urgent_why else "a business, or agreed at your premises"
        return Note(f"No right to cancel: {why}.", Tone.QUIET)
    words = right_in_words(job, acceptance, today)
    if right_ended_on(job, acceptance, today):
        return Note(words, Tone.QUIET)
    told = "" if acceptance.notice_on else " They have not been told of the right."
    asked = acceptance.asked_in_writing_on
    early = f" Asked on {show_date(asked)} to start early." if asked else ""
    words += f"{told}{early}"
    return Note(f"{Sign.CAUTION} {words}", Tone.CAUTION) if told else Note(words, Tone.PLAIN)


def whole_note(values: Mapping[str, str], situation: Situation) -> Note:
    """The hours booked as typed, beside those of the quote; nothing if neither is known."""
    job = situation.job
    found = [day for n in DAYS if (day := _booked(values, n, situation)) is not None]
    booked, quoted = hours_booked((*found, *job.days[len(DAYS) :])), hours_quoted(job)
    if not booked and not quoted:
        return Note("", Tone.QUIET)
    words = hours_words(booked, quoted)
    if found and falls_short(booked, quoted):
        return Note(f"{Sign.CAUTION} {words}", Tone.CAUTION)
    return Note(words, Tone.QUIET)


def load_note(situation: Situation) -> Note:
    """What goes on the van as quoted, held against its payload; nothing without a quote."""
    load = van_load(situation.job, situation.trader.van)
    if load is None or not load.kg:
        return Note("", Tone.QUIET)
    words = load_words(load, "to load")
    return (
        Note(f"{Sign.CAUTION} {words}", Tone.CAUTION) if load.oversteps else Note(words, Tone.QUIET)
    )


def right_ends_on(job: Job) -> date | None:
    """The last day on which the customer may cancel; None if there is no such right."""
    acceptance = job.quote.acceptance if job.quote else None
    return right_ends(job.customer, acceptance) if acceptance else None


def _booked(values: Mapping[str, str], n: int, situation: Situation) -> BookedDay | None:
    """One day with its hours as typed, None if there is none or it cannot be read yet."""
    job, trader = situation.job, situation.trader
    day = _day(values, n, situation.today)
    try:
        hours = _read_hours(values, n, _given_hours(values, job, trader, situation.today))
    except Refused:
        return None
    return BookedDay(day, hours) if day else None


def _given_hours(
    values: Mapping[str, str], job: Job, trader: Trader, today: date
) -> Mapping[int, Decimal]:
    """The hours of each day that has none typed; what cannot be read yet counts for nothing."""
    silent = [n for n in DAYS if not values[f"hours{n}"].strip()]
    left = hours_quoted(job) - hours_booked(job.days[len(DAYS) :])
    for n in DAYS:
        if n not in silent and _day(values, n, today):
            with suppress(Refused):
                left -= _read_hours(values, n, {})
    days = {n: _day(values, n, today) for n in silent}
    room = {n: None if day is None else _room(day, trader) for n, day in days.items()}
    return hours_given(left, trader.hours_a_day, room)


def _room(day: date, trader: Trader) -> Decimal:
    return room_for_work(window(day, None, trader), trader.limits)


def _read_hours(values: Mapping[str, str], n: int, given: Mapping[int, Decimal]) -> Decimal:
    """The hours of day ``n``, those given to it if none are typed. Raises :class:`Refused`."""
    if n in given:
        return given[n]
    typed, least = values[f"hours{n}"], Decimal("0.25")
    return read_number(
        f"hours{n}", typed, "hours such as 8", unit="hour", least=least, most=_LONGEST
    )


def _read_task(values: Mapping[str, str], n: int, was: str, usual: str) -> str:
    """What day ``n`` is for: a choice, or what was recorded of it before there was one.

    Of a day of which nothing is said, the ``usual``.
    """
    typed = values[f"task{n}"]
    task = kept(typed, was) or usual
    if task not in (*TASKS, was):
        raise Refused(f"task{n}", typed, "Choose one with the arrow keys.")
    return task


def _day(values: Mapping[str, str], n: int, today: date) -> date | None:
    """The date of one day as typed, None if there is none or it cannot be read yet."""
    try:
        return read_date(f"day{n}", values[f"day{n}"], today)
    except Refused:
        return None


def _against(situation: Situation, booked: BookedDay) -> set[str]:
    """The checks that would not hold, were this the one day booked."""
    trial = replace(situation, job=replace(situation.job, days=(booked,)))
    return {check.id for check in BEFORE_BOOKED if not check.holds(trial)}


def _holiday(situation: Situation, day: date) -> str:
    """The name of a bank holiday, empty if it is none."""
    return bank_holidays(situation.trader.nation, day.year).get(day, "")


def _named(situation: Situation, day: date) -> str:
    """The other jobs of a day, each with its hours."""
    others = others_on(situation, day)
    return ", ".join(f"{other.place} {show_hours(other.hours)} h".lstrip() for other in others)


def _refuse_left_over(values: Mapping[str, str], n: int) -> None:
    """Refuse hours or a task without a day: they would be lost unseen."""
    if values[f"hours{n}"].strip() or values[f"task{n}"].strip():
        raise Refused(f"day{n}", "", "Give the day, or empty its hours and its task too.")
