"""The right to cancel an agreement made away from business premises or at a distance.

Consumer Contracts (Information, Cancellation and Additional Charges) Regulations 2013, reg. 30
(14 days after the day of the agreement), reg. 31 (not told of the right: up to 12 months more,
and 14 days from being told), reg. 36 (work inside the period only at the express request, on a
durable medium: from memory). Trading standards count home repair with materials as goods with
fitting, whose 14 days start when the last materials come (Herefordshire Council: read). Whether it
is that or a service is a legal question that no program settles: both days are kept, and the later
one is told.
"""

from dataclasses import replace
from datetime import date

from domain.days.calendar import right_to_cancel_ends, show_date
from domain.job import Acceptance, Customer, Job, MadeAt, Quote, Stage


def right_applies(customer: Customer, acceptance: Acceptance) -> bool:
    """Tell whether the customer may cancel: a householder who did not come to the trader.

    An urgent repair that they asked the trader to visit for has no such right (Regulations 2013
    reg. 28(1)(e), from memory: a caution says so).
    """
    away = acceptance.made_at is not MadeAt.PREMISES
    return customer.is_householder and away and not acceptance.urgent_why


def notice_sent_on(customer: Customer, quote: Quote) -> date | None:
    """Return the day on which a quote brought the customer the notice of the right to cancel.

    Every quote sent to a householder carries it; None for a draft and where there is no right.
    """
    return quote.sent_on if customer.is_householder else None


def service_ends(customer: Customer, acceptance: Acceptance) -> date | None:
    """Return the last day to cancel reckoned from the agreement; None if there is no right."""
    if not right_applies(customer, acceptance):
        return None
    return right_to_cancel_ends(acceptance.on, acceptance.notice_on)


def goods_end(customer: Customer, acceptance: Acceptance) -> date | None:
    """Return the last day to cancel reckoned from the last materials; None until they came."""
    came = acceptance.materials_on
    if came is None or not right_applies(customer, acceptance):
        return None
    return right_to_cancel_ends(max(acceptance.on, came), acceptance.notice_on)


def right_ends(customer: Customer, acceptance: Acceptance) -> date | None:
    """Return the later of both days, as far as it is known; None if there is no such right."""
    service, goods = service_ends(customer, acceptance), goods_end(customer, acceptance)
    return service if service is None or goods is None else max(service, goods)


def between_the_two(job: Job, acceptance: Acceptance) -> bool:
    """Tell whether a booked day lies after the first of the two last days, and not the second.

    Materials that are not recorded come with the van, on the first day that is booked.
    """
    days = [booked.day for booked in job.days]
    came = acceptance.materials_on or min(days, default=None)
    service = service_ends(job.customer, acceptance)
    goods = goods_end(job.customer, replace(acceptance, materials_on=came))
    if service is None or goods is None:
        return False
    return any(service < day <= goods for day in days)


def asked_before(acceptance: Acceptance, day: date) -> bool:
    """Tell whether they asked in writing for work to start early, no later than a day."""
    asked_on = acceptance.asked_in_writing_on
    return asked_on is not None and asked_on <= day


def right_ended_on(job: Job, acceptance: Acceptance, today: date) -> date | None:
    """The day on which the right to cancel ended; None while it lasts, and if there is none.

    It ends with the work where they asked for an early start and know that it does (reg. 36).
    """
    ends = right_ends(job.customer, acceptance)
    if ends is None:
        return None
    early = acceptance.asked_in_writing_on is not None and acceptance.knows_right_ends
    laid = job.laying.on if job.laying is not None and job.stage.rank >= Stage.LAID.rank else ends
    last = min(laid, ends) if early else ends
    return last if last < today or (early and laid < ends) else None


def right_lasts(job: Job, acceptance: Acceptance, today: date) -> bool:
    """Whether the customer can still cancel today."""
    ends = right_ends(job.customer, acceptance)
    return ends is not None and today <= ends and right_ended_on(job, acceptance, today) is None


def right_in_words(job: Job, acceptance: Acceptance, today: date) -> str:
    """Until when the customer may cancel, or when that ended; empty if there is no such right."""
    ended = right_ended_on(job, acceptance, today)
    if ended is not None:
        return f"Their right to cancel ended on {show_date(ended)}."
    ends = right_ends(job.customer, acceptance)
    if ends is None:
        return ""
    words = f"They can cancel until the end of {show_date(ends)}"
    if acceptance.materials_on is None:
        return f"{words}, or 14 days after the last materials if later."
    return f"{words}."
