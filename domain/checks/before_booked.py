"""What must be so before a job is marked as booked: accepted, within the law, on days that suit."""

from collections.abc import Callable
from datetime import date
from functools import partial

from domain.checks.check import Check, Holds, Part, Severity, Situation
from domain.checks.safe_to_strip import INSURED, WASTE_BY, WILDLIFE_ASKED
from domain.checks.same_day import ANOTHER_JOB
from domain.checks.weather import FORECAST, NIGHTS_BOOKED, window_of
from domain.days.calendar import bank_holidays, show_date
from domain.days.cancellation import asked_before, between_the_two, right_applies, service_ends
from domain.days.dates import read_ruled_out
from domain.days.weather import too_short
from domain.errors import Refused
from domain.estimate.hours import falls_short, hours_booked, hours_quoted, hours_words
from domain.estimate.weights import load_words, van_load
from domain.job import Acceptance, BookedDay, Job, Means, Quote, Stage
from domain.page_names import PageName

_stop = partial(Check, stage=Stage.BOOKED, severity=Severity.STOP, page=PageName.BOOKING)
_caution = partial(Check, stage=Stage.BOOKED, severity=Severity.CAUTION, page=PageName.BOOKING)


def _accepted(job: Job) -> tuple[Quote, Acceptance] | None:
    """Return the quote that was accepted and its acceptance, if there is one."""
    quote = job.quote
    return (quote, quote.acceptance) if quote and quote.acceptance else None


def _unless_accepted(test: Callable[[Quote, Acceptance], bool]) -> Holds:
    """Make what holds unless there is an acceptance and ``test`` is true of it."""

    def holds(situation: Situation) -> bool:
        accepted = _accepted(situation.job)
        return accepted is None or not test(*accepted)

    return holds


def _no_day(test: Callable[[Situation, BookedDay], bool]) -> Holds:
    """Make what holds if ``test`` is true of none of the booked days."""
    return lambda s: not any(test(s, booked) for booked in s.job.days)


def _days_to_cancel(job: Job) -> list[date]:
    """Return the booked days before the first of the two last days to cancel."""
    accepted = _accepted(job)
    ends = service_ends(job.customer, accepted[1]) if accepted else None
    return [booked.day for booked in job.days if ends is not None and booked.day <= ends]


def _named_acceptance(situation: Situation) -> bool:
    accepted = _accepted(situation.job)
    return accepted is not None and bool(accepted[1].who.strip())


def _notice_given(situation: Situation) -> bool:
    accepted = _accepted(situation.job)
    if accepted is None or not right_applies(situation.job.customer, accepted[1]):
        return True
    notice_on = accepted[1].notice_on
    return notice_on is not None and notice_on <= situation.today


def _early_request(situation: Situation) -> bool:
    """Tell whether early days have the request in writing, made no later than they are."""
    early, accepted = _days_to_cancel(situation.job), _accepted(situation.job)
    return not early or accepted is None or asked_before(accepted[1], min(early))


def _asked_or_clear(situation: Situation) -> bool:
    """Tell whether days between the two last days to cancel have the request in writing."""
    job, accepted = situation.job, _accepted(situation.job)
    if accepted is None or not between_the_two(job, accepted[1]):
        return True
    return asked_before(accepted[1], min(booked.day for booked in job.days))


def _knows_right_ends(situation: Situation) -> bool:
    early, accepted = _days_to_cancel(situation.job), _accepted(situation.job)
    return not early or accepted is None or accepted[1].knows_right_ends


def _ran_out(quote: Quote, acceptance: Acceptance) -> bool:
    return quote.valid_until is not None and acceptance.on > quote.valid_until


def _hours_enough(situation: Situation) -> bool:
    """Tell whether the days booked give the quote's hours; a roof that is laid needs none."""
    job = situation.job
    short = falls_short(hours_booked(job.days), hours_quoted(job))
    return not job.days or job.laying is not None or not short


def _within_payload(situation: Situation) -> bool:
    """Tell whether the van carries it all at once; once the roof is stripped, it is there."""
    load = van_load(situation.job, situation.trader.van)
    return load is None or situation.job.stripping is not None or not load.oversteps


def _load_words(situation: Situation) -> str:
    load = van_load(situation.job, situation.trader.van)
    return load_words(load, "to load") if load else ""


def _bank_holiday(situation: Situation, booked: BookedDay) -> bool:
    return booked.day in bank_holidays(situation.trader.nation, booked.day.year)


def _ruled_out(situation: Situation, booked: BookedDay) -> bool:
    """Tell whether the customer ruled the day out; what cannot be read may rule out any day."""
    try:
        return booked.day in read_ruled_out("ruled_out", situation.job.site.ruled_out)
    except Refused:
        return True


def _too_short(situation: Situation, booked: BookedDay) -> str:
    """Say by how much a day is too short; empty if it is not."""
    return too_short(window_of(situation, booked.day), (booked,), situation.trader.limits)


def _too_short_words(situation: Situation) -> str:
    found = ((booked.day, _too_short(situation, booked)) for booked in situation.job.days)
    return " ".join(f"{show_date(day)} is {words}." for day, words in found if words)


_ACCEPTANCE = (
    _stop(
        id="accepted",
        part=Part.AGREED,
        holds=_named_acceptance,
        words="Accepted, and by whom?",
        remedy="Record who accepted, on which day and how.",
        page=PageName.QUOTE,
    ),
    _stop(
        id="day-booked",
        part=Part.DAY,
        holds=lambda s: bool(s.job.days),
        words="Is a day booked?",
        remedy="Agree a day and type it.",
    ),
    _stop(
        id="cancellation-notice",
        part=Part.AGREED,
        holds=_notice_given,
        words="Told of the right to cancel?",
        remedy=(
            "Give them the notice and record its date. You agreed away from your premises "
            "or at a distance; a customer who is not told has up to 12 months more to "
            "cancel."
        ),
        page=PageName.QUOTE,
    ),
    _stop(
        id="early-request",
        part=Part.AGREED,
        holds=_early_request,
        words="Starting before the right to cancel ends: asked for in writing?",
        remedy=(
            "Book a later day, or record when they asked (signed, e-mail or text): "
            "what is not asked for in writing cannot be charged."
        ),
        page=PageName.QUOTE,
    ),
    _stop(
        id="right-ends",
        part=Part.AGREED,
        holds=_knows_right_ends,
        words="Starting early: told they cannot cancel once it is done?",
        remedy=(
            "Book a later day, or get the customer's word that they know the right to "
            "cancel ends when the work is done."
        ),
        page=PageName.QUOTE,
    ),
    _caution(
        id="early-goods",
        part=Part.AGREED,
        holds=_asked_or_clear,
        words="Starting within 14 days of the materials: asked for in writing?",
        remedy=(
            "Get the request to start early: home repair with materials may count as goods "
            "with fitting, and their 14 days start when the last of them come."
        ),
        page=PageName.QUOTE,
    ),
    _caution(
        id="urgent-repair",
        part=Part.AGREED,
        holds=_unless_accepted(lambda _, acceptance: bool(acceptance.urgent_why)),
        words="Urgent repair, no right to cancel: did they ask you to come?",
        remedy="Say what they asked you to come for; anything beyond it they can still cancel.",
        page=PageName.QUOTE,
    ),
    _caution(
        id="accepted-late",
        part=Part.AGREED,
        holds=_unless_accepted(_ran_out),
        words="Accepted while still valid?",
        remedy="Check your prices; say why they still stand, or send a new version.",
        page=PageName.QUOTE,
    ),
    _caution(
        id="accepted-spoken",
        part=Part.AGREED,
        holds=_unless_accepted(lambda _, acceptance: acceptance.means is Means.SPOKEN),
        words="Accepted in writing?",
        remedy="Ask for a line by text or e-mail.",
        page=PageName.QUOTE,
    ),
)

_DAYS = (
    _caution(
        id="hours-booked",
        part=Part.DAY,
        holds=_hours_enough,
        words="Enough hours booked for the quote?",
        remedy="Book another day or longer hours, or say why it takes less.",
        figures=lambda s: hours_words(hours_booked(s.job.days), hours_quoted(s.job)),
    ),
    ANOTHER_JOB,
    FORECAST,
    NIGHTS_BOOKED,
    _caution(
        id="materials",
        holds=lambda s: s.job.materials_in_hand,
        words="Materials in hand?",
        remedy="Order them, and say so when they are here.",
    ),
    _caution(
        id="payload",
        holds=_within_payload,
        words="Load within the van's payload?",
        remedy="Make two trips or have some delivered; say which.",
        figures=_load_words,
    ),
    _caution(
        id="bank-holiday",
        part=Part.DAY,
        holds=_no_day(_bank_holiday),
        words="Not a bank holiday?",
        remedy="Move the day, or ask the customer and the neighbours.",
    ),
    _caution(
        id="sunday",
        part=Part.DAY,
        holds=_no_day(lambda _, booked: booked.day.weekday() == 6),
        words="Not a Sunday?",
        remedy="Move the day, or ask the customer and the neighbours.",
    ),
    _caution(
        id="ruled-out",
        part=Part.DAY,
        holds=_no_day(_ruled_out),
        words="Clear of days the customer cannot do?",
        remedy="Move the day, or ask the customer.",
    ),
    _caution(
        id="daylight",
        part=Part.DAY,
        holds=_no_day(lambda s, booked: bool(_too_short(s, booked))),
        words="Day long enough for the hours?",
        remedy="Book fewer hours on the day, and another day.",
        figures=_too_short_words,
    ),
)

BEFORE_BOOKED = (*_ACCEPTANCE, WASTE_BY, *_DAYS, *INSURED, WILDLIFE_ASKED)
"""In the order they are asked."""
