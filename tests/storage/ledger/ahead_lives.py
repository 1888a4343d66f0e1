"""Deeds for lives of jobs in which money comes before the work, and the work when chance has it."""

from datetime import date, timedelta
from random import Random

from domain.errors import NotNow
from domain.estimate.quoting import option_total
from domain.job import CustomerKind, Job, Received
from storage.book import Book
from tests import builders
from tests.storage.ledger.agreed_jobs import Price, begin, laid, only_agreed
from tests.storage.ledger.money_lives import DEEDS_OF_MONEY, JOBS, Deed, Life

_DAYS_BEFORE = (builders.LAY_DAY - builders.AGREED).days


def agree_jobs(book: Book, chance: Random, *, registered: bool) -> None:
    """Jobs that are agreed and not begun, every other one with a deposit, two of each customer."""
    begin(book, registered=registered)
    before: Job | None = None
    for at in range(JOBS):
        kind = tuple(CustomerKind)[at // 2 % 3]
        deposit = chance.randint(1, 50_00) if at % 2 and kind is not CustomerKind.CONTRACTOR else 0
        net = (chance.randint(50_00, 400_00),)
        price = Price(net=net, deposit=deposit, metre=chance.randint(1, 30_00), kind=kind)
        who = before.customer if before is not None and at % 2 else f"Customer {at}"
        before = only_agreed(book, price, who, registered=registered)


def lays(life: Life, day: date) -> Job:
    """The work is done, with or without extras, in the terms of its quote."""
    job = life.job
    option = job.quote.accepted if job.quote else None
    if job.laying is not None or job.quote is None or option is None:
        raise NotNow("It is laid.")
    price = Price(
        metre=job.quote.deck_rate,
        metres=life.chance.choice(("", "3", "2.5")),
        extra=life.chance.choice((0, life.chance.randint(1, 50_00))),
        kind=job.customer.kind,
    )
    return laid(life.book, job, price, registered=bool(option_total(option).rated))


def pay_before_the_work(life: Life, day: date) -> Job:
    """On account, of a day on which the work was not done; more than the whole at times."""
    on = builders.AGREED + timedelta(life.chance.randint(0, _DAYS_BEFORE))
    pence = life.chance.choice((life.chance.randint(1, 99_99), life.chance.randint(1, 600_00)))
    return life.book.record_payment(life.job, Received(None, pence, on, "bank transfer"))


DEEDS_AHEAD: tuple[Deed, ...] = (*DEEDS_OF_MONEY, lays, lays, pay_before_the_work)
