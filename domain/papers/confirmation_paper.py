"""What was agreed, for the customer to keep: the work, its price, the day, and how to change it.

An agreement made away from business premises is confirmed on paper or by e-mail (Consumer Contracts
Regulations 2013 reg. 12 and 16: from memory).
"""

from collections.abc import Iterator
from dataclasses import replace

from domain.accounts.as_sent import AsSent, as_sent
from domain.days.calendar import show_date
from domain.days.cancellation import asked_before, right_applies, right_ends
from domain.errors import NotNow
from domain.job import Acceptance, Job, Quote
from domain.papers.blocks import Block, Details, Paper, Words
from domain.papers.cancel_notice import BY_WHEN, reach_of
from domain.papers.invoice_paper import seller_lines
from domain.papers.letters import confirmation_letter
from domain.papers.quote_paper import (
    offers_of,
    paying_words,
    rights_words,
    when_words,
    work_steps,
)
from domain.papers.shared_parts import customer_rows
from domain.trader import Trader


def confirmation_paper(job: Job, trader: Trader) -> Paper:
    """What was agreed, on one page. Raises :class:`NotNow` before anything was."""
    quote = job.quote
    if quote is None or quote.acceptance is None or quote.accepted is None:
        raise NotNow(f"Job {job.ref} has no accepted quote yet.")
    yes, says = quote.acceptance, as_sent(job, quote, trader)
    agreed = replace(quote, options=(quote.accepted,))
    return Paper(
        title=f"What we agreed, {job.ref}",
        head=seller_lines(says.seller),
        look=says.seller.look,
        letter=replace(
            confirmation_letter(agreed, says, job.ref, show_date(yes.on), _to_say(job, yes)),
            to=job.customer.email,
        ),
        blocks=tuple(_blocks(job, agreed, yes, says)),
    )


def _blocks(job: Job, agreed: Quote, yes: Acceptance, says: AsSent) -> Iterator[Block]:
    yield Details(customer_rows(says.buyer, says.place, says.work.roof), "For")
    yield Details((("Reference", job.ref), ("Accepted", show_date(yes.on)), ("By", yes.who)))
    yield Words("Thank you for accepting our quote. Please keep this: it is what we agreed.")
    yield work_steps(agreed, says)
    yield offers_of(agreed, says.is_householder)
    yield paying_words(agreed, says, job.ref)
    yield Words(_day_words(job, says), "When")
    yield Words(rights_words(says), "If something is not right")
    if says.is_householder:
        yield Words(_right_words(job, yes, says), "Your right to cancel")


def _day_words(job: Job, says: AsSent) -> str:
    """The days that are booked, or that they are still to be agreed; and how long it takes."""
    days = [show_date(booked.day) for booked in job.days]
    if not days:
        return when_words(says)
    named = f"{', '.join(days[:-1])} and {days[-1]}" if len(days) > 1 else days[0]
    return f"Booked for {named}. {when_words(replace(says, work_days=0))}"


def _right_words(job: Job, yes: Acceptance, says: AsSent) -> str:
    """Until when they can cancel, how, and what they asked for; or why there is no such right."""
    if yes.urgent_why:
        return (
            f"You asked us to come for an urgent repair ({yes.urgent_why}): there is no right to "
            "cancel that. You can cancel anything we supply beyond it, as the notice says."
        )
    if not right_applies(job.customer, yes):
        return "We agreed at our own premises, so there is no right to cancel."
    words = f"You can cancel {_until(job, yes)}. To cancel, just tell us: {reach_of(says.seller)}."
    if asked_before(yes, yes.asked_in_writing_on or yes.on):
        return (
            f"{words} You asked us in writing to start before then: if you then cancel you pay "
            "for the work done up to then, and the right ends when the work is complete."
        )
    return f"{words} We start sooner only if you ask us to in writing."


def _until(job: Job, yes: Acceptance) -> str:
    """The day, once the materials came; until then how it is reckoned."""
    ends = right_ends(job.customer, yes)
    if ends is None or yes.materials_on is None:
        return f"until {BY_WHEN}"
    return f"until the end of {show_date(ends)}"


def _to_say(job: Job, yes: Acceptance) -> str:
    """What the message says of the right to cancel, and the words that ask for an early start."""
    if not right_applies(job.customer, yes):
        return ""
    words = f"You can cancel {_until(job, yes)}."
    if yes.asked_in_writing_on is not None:
        return words
    return (
        f"{words} If you would like us to start before that, please reply: “Please start before "
        "my right to cancel ends. I know that if I then cancel I pay for the work done, and that "
        "the right ends when the work is complete.”"
    )
