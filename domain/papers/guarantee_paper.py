"""The trader's own guarantee on the work, for the customer to keep.

A guarantee says in plain words what it covers, for how long, who gives it and how to claim, and
that it leaves the customer's legal rights as they are (Consumer Rights Act 2015 s. 30: memory). It
is of the workmanship: what a maker promises is the maker's own, and nothing is said for one.
"""

from collections.abc import Iterator
from dataclasses import replace

from domain.accounts.invoice import as_seller, buyer_of
from domain.days.calendar import show_date
from domain.errors import NotNow
from domain.estimate.work_in_words import work_in_words
from domain.job import Job
from domain.papers.blocks import Block, Details, Paper, Words
from domain.papers.invoice_paper import seller_lines
from domain.papers.shared_parts import customer_rows, on_one_line, sentence
from domain.papers.work_letters import guarantee_letter
from domain.trader import Trader

_RIGHTS = (
    "This guarantee is in addition to your legal rights, and takes nothing away from them. What a "
    "maker promises of its materials is the maker's own, and no part of this guarantee."
)


def guarantee_paper(job: Job, trader: Trader) -> Paper:
    """What is guaranteed until when, and how to ask for it. Raises :class:`NotNow` for none."""
    done = job.sign_off
    if done is None or done.guarantee_until is None:
        raise NotNow(f"Job {job.ref} has no guarantee yet: give its last day under signed off.")
    seller, place = as_seller(trader), job.site.on_a_line
    until = show_date(done.guarantee_until)
    return Paper(
        title=f"Guarantee, {job.ref}",
        head=seller_lines(seller),
        look=seller.look,
        letter=replace(
            guarantee_letter(seller, buyer_of(job), place, until), to=job.customer.email
        ),
        blocks=(
            Details(customer_rows(buyer_of(job), place, work_in_words(job).roof), "For"),
            Details(tuple(_dates(job, until))),
            Words(f"We guarantee our work on this roof until {until}. Please keep this paper."),
            *_covers(done.guarantee_words),
            Words(_how(job, trader), "If something is not right"),
            Words(_RIGHTS, "Your legal rights"),
        ),
    )


def _dates(job: Job, until: str) -> Iterator[tuple[str, str]]:
    yield "Reference", job.ref
    if job.laying is not None:
        yield "Work done on", show_date(job.laying.on)
    if job.sign_off is not None:
        yield "Signed off on", show_date(job.sign_off.on)
    yield "Until", until


def _covers(words: str) -> Iterator[Block]:
    """What was typed of it; else the workmanship."""
    said = words.strip() or "our workmanship: how the roof was stripped, laid and finished"
    yield Words(sentence(said), "What it covers")


def _how(job: Job, trader: Trader) -> str:
    reach = ", ".join(filter(None, (trader.phone, trader.email, on_one_line(trader.address))))
    return (
        f"Please tell us: {reach}. Say that it is about {job.ref}. If it is our workmanship, we "
        "put it right and charge nothing for it."
    )
