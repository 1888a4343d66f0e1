"""Random lives of jobs, from their first invoice on, driven by what the book can do with money."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from random import Random
from typing import TypeAlias

from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited, lines_left
from domain.accounts.transfer import shared_out
from domain.accounts.write_off import GivenUp
from domain.errors import NotNow, Refused
from domain.job import (
    CustomerKind,
    Document,
    DocumentKind,
    EnquiryRecord,
    Job,
    Received,
    VatTerms,
)
from domain.trader import VatStanding
from storage.book import Book
from tests import builders
from tests.storage.ledger.agreed_jobs import Price, agreed_job, begin

JOBS = 10
_CONTRACTOR = CustomerKind.CONTRACTOR
DEEDS = 10
"""Done, or refused, with each job."""


def lay_jobs(book: Book, chance: Random, *, registered: bool) -> None:
    """Jobs at prices of chance, two of each kind of customer in a row."""
    begin(book, registered=registered)
    before: Job | None = None
    for at in range(JOBS):
        kind = tuple(CustomerKind)[at // 2 % 3]
        price = Price(
            net=tuple(chance.randint(50_00, 400_00) for _ in range(chance.randint(1, 3))),
            deposit=chance.randint(1, 50_00) if at % 2 and kind is not _CONTRACTOR else 0,
            metre=chance.randint(1, 30_00),
            metres=chance.choice(("", "3", "2.5", "0.75")),
            extra=chance.choice((0, chance.randint(1, 50_00))),
            kind=kind,
        )
        who = before.customer if before is not None and at % 2 else f"Customer {at}"
        before = agreed_job(book, price, who, registered=registered)


@dataclass
class Life:
    """One job and what happens to it."""

    book: Book
    job: Job
    chance: Random
    done: list[str]
    """What was done, for whoever reads of a fault."""
    deeds: "tuple[Deed, ...] | None" = None
    """What can be; None for that of jobs which are laid."""

    def live(self) -> None:
        """Do one thing of chance; what the rules refuse leaves no row."""
        deed = self.chance.choice(self.deeds or DEEDS_OF_MONEY)
        self.job = self.book.job(self.job.id or 0)
        try:
            self.job = deed(self, self._day())
            self.done.append(deed.__name__)
        except (NotNow, Refused) as refused:
            self.done.append(f"not {deed.__name__}: {refused}")

    def _day(self) -> date:
        return builders.SIGNED + timedelta(self.chance.randint(0, 300))


def deposit(life: Life, day: date) -> Job:
    return life.book.issue_deposit_invoice(life.job, day)


def invoice(life: Life, day: date) -> Job:
    return life.book.issue_invoice(life.job, day)


def pay(life: Life, day: date) -> Job:
    """Part of it, all of it, or too much."""
    owing = [each for each in life.job.documents if each.owed] or list(life.job.documents)
    if not owing:
        return invoice(life, day)
    of = life.chance.choice(owing)
    pence = life.chance.choice((of.owed, life.chance.randint(1, 300_00), of.owed + 25_00))
    cis = life.chance.choice((of.to_deduct, life.chance.randint(0, of.to_deduct)))
    return life.book.record_payment(life.job, Received(of.id or 0, pence, day, "cheque", cis))


def transfer(life: Life, day: date) -> Job:
    """One for all that the customer owes, or for part of it, shared by age or as typed."""
    owing = life.book.owing(life.job.customer.id or 0)
    if not owing:
        return invoice(life, day)
    whole = sum(each.document.owed for each in owing)
    money = life.chance.choice((whole, life.chance.randint(1, whole), whole + 25_00))
    cis = life.chance.choice((0, sum(each.document.to_deduct for each in owing)))
    typed = {}
    if life.chance.random() < 0.3:  # the newest first, against the rule
        of = owing[-1].document
        typed[of.id or 0] = min(money + cis, of.unsettled)
    shares = shared_out(owing, money + cis, cis, typed)
    received = Received(None, money, day, "bank transfer", cis, shares)
    return life.book.record_payment(life.job, received)


def give_up(life: Life, day: date) -> Job:
    """Write off what is owed, within six months of its day or after."""
    of = _one(life, [each for each in life.job.documents if each.kind.asks])
    on = max(day, of.issued_on) + timedelta(life.chance.choice((0, 200)))
    return life.book.write_off(life.job, GivenUp(of.id or 0, on, "moved away"))


def owed_again(life: Life, day: date) -> Job:
    """Take a write-off back."""
    of = _one(life, [each for each in life.job.documents if each.written_off])
    on = max(day, *(each.on for each in life.job.write_offs))
    return life.book.take_back_write_off(life.job, GivenUp(of.id or 0, on, "paid after all"))


def _one(life: Life, among: list[Document]) -> Document:
    if not among:
        raise NotNow("There is none.")
    return life.chance.choice(among)


def registers(life: Life, day: date) -> Job:
    """The trader registers for VAT, whatever was agreed and invoiced before."""
    trader = life.book.trader()
    if trader.vat_registered:
        raise NotNow("Registered already.")
    now = replace(trader, vat_standing=VatStanding.STANDARD, vat_number="980780684")
    life.book.save_trader(now)
    return life.job


def says_vat(life: Life, day: date) -> Job:
    """How VAT stands to a price agreed without it."""
    terms = life.chance.choice(tuple(VatTerms))
    on = builders.AGREED if terms is VatTerms.ADDED else None
    return life.book.say_vat_terms(life.job, terms, on)


def pay_ahead(life: Life, day: date) -> Job:
    """For no invoice: before the first, or twice."""
    on = day - timedelta(life.chance.choice((0, 10)))
    inside = life.job.customer.kind is _CONTRACTOR
    cis = life.chance.choice((0, life.chance.randint(0, 20_00))) if inside else 0
    received = Received(None, life.chance.randint(1, 99_99), on, "bank transfer", cis)
    return life.book.record_payment(life.job, received)


def of_another_kind(life: Life, day: date) -> Job:
    """They were taken for what they are not; what was issued stays as it was.

    A contractor is asked for no deposit.
    """
    now, jobs = life.job.customer, (life.book.job(at + 1) for at in range(JOBS))
    theirs = [each for each in jobs if each.customer.id == now.id]
    asked = any(quote.deposit for job in theirs for quote in job.quotes)
    kinds = [each for each in CustomerKind if each is not _CONTRACTOR or not asked]
    kind = life.chance.choice([each for each in kinds if each is not now.kind])
    who = replace(now, kind=kind, end_user_on=builders.SENT)
    return life.book.change_enquiry(life.job, EnquiryRecord(who, life.job.site, life.job.enquiry))


def take_back(life: Life, day: date) -> Job:
    """Typed wrongly, or a cheque that was returned."""
    return _back(life, day, DocumentKind.MISTAKE)


def refund(life: Life, day: date) -> Job:
    return _back(life, day, DocumentKind.REFUND)


def credit(life: Life, day: date) -> Job:
    """In part or whole."""
    asking = [each for each in life.job.documents if each.kind.asks]
    if not asking:
        return deposit(life, day)
    of = life.chance.choice(asking)
    left = of.gross - of.credited
    pence = life.chance.choice((left, life.chance.randint(1, 50_00), life.chance.randint(1, 9)))
    materials = bool(of.cis) and life.chance.random() < 0.5
    on, line, lines = max(day, of.issued_on), None, lines_left(life.job, of)
    if lines and not of.cis and life.chance.random() < 0.4:  # a line of it, or part of one
        chosen = life.chance.choice(lines)
        line = chosen.at
        pence = life.chance.choice((chosen.left, life.chance.randint(1, chosen.left)))
    return life.book.credit(life.job, Credited(of.id or 0, pence, "agreed", materials, line), on)


def _back(life: Life, day: date, kind: DocumentKind) -> Job:
    if not life.job.payments:
        return pay(life, day)
    payment = life.chance.choice(life.job.payments)
    whole = payment.pence if kind is DocumentKind.MISTAKE else payment.unallocated
    on = max(day, payment.received_on)
    back = GivenBack(kind, payment.id or 0, whole, on, "came back")
    return life.book.give_back(life.job, back, on)


Deed: TypeAlias = Callable[[Life, date], Job]

DEEDS_OF_MONEY: tuple[Deed, ...] = (
    *(deposit, invoice, invoice, pay, pay, pay),
    *(pay_ahead, take_back, refund, credit, credit),
    *(transfer, give_up, owed_again, of_another_kind),
    *(registers, says_vat, says_vat),
)
