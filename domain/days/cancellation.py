"""The right to cancel an agreement made away from business premises or at a distance.

Consumer Contracts (Information, Cancellation and Additional Charges) Regulations 2013, reg. 30
(14 days after the day of the agreement), reg. 31 (not told of the right: up to 12 months more,
and 14 days from being told), reg. 36 (work inside the period only at the express request).
Assumed throughout: stripping and re-covering with the materials supplied is a service contract.
Whether it is that or a sales contract is a legal question that no program settles.
"""

from datetime import date

from domain.days.calendar import right_to_cancel_ends, show_date
from domain.job import Acceptance, Customer, Job, MadeAt, Quote, Stage

ASSUMPTION = "We treat this as a service contract; take advice if unsure."
"""For the trader alone, once, where days are booked."""


def right_applies(customer: Customer, acceptance: Acceptance) -> bool:
    """Tell whether the customer may cancel: a householder who did not come to the trader."""
    return customer.is_householder and acceptance.made_at is not MadeAt.PREMISES


def notice_sent_on(customer: Customer, quote: Quote) -> date | None:
    """Return the day on which a quote brought the customer the notice of the right to cancel.

    Every quote sent to a householder carries it; None for a draft and where there is no right.
    """
    return quote.sent_on if customer.is_householder else None


def right_ends(customer: Customer, acceptance: Acceptance) -> date | None:
    """Return the last day on which the customer may cancel; None if there is no such right."""
    if not right_applies(customer, acceptance):
        return None
    return right_to_cancel_ends(acceptance.on, acceptance.notice_on)


def right_ended_on(job: Job, acceptance: Acceptance, today: date) -> date | None:
    """The day on which the right to cancel ended; None while it lasts, and if there is none.

    It ends with the work where they asked for an early start and know that it does (reg. 36).
    """
    ends = right_ends(job.customer, acceptance)
    if ends is None:
        return None
    early = acceptance.early_request_on is not None and acceptance.knows_right_ends
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
    return f"They can cancel until the end of {show_date(ends)}." if ends else ""
