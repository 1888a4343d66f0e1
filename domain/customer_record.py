"""A customer with all that is recorded of them: where their roofs are, their jobs, the money."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from domain.job import Customer, Document, DocumentKind, Job, Payment, Site
from domain.money import Pence, show_money


@dataclass(frozen=True, slots=True)
class Happened:
    """One thing that happened in a job."""

    on: date
    job: Job
    words: str
    """What it was, in a clause: "quote 1 sent"."""


@dataclass(frozen=True, slots=True)
class CustomerRecord:
    """A customer, and every job of theirs."""

    customer: Customer
    jobs: tuple[Job, ...]
    """The newest first."""

    @property
    def sites(self) -> tuple[Site, ...]:
        """Where their roofs are, that of the newest job first, each once."""
        return tuple({job.site.id: job.site for job in self.jobs}.values())

    @property
    def papers(self) -> tuple[tuple[Job, Document], ...]:
        """Every invoice and receipt with its job, the newest first."""
        of_all = [(job, document) for job in self.jobs for document in job.documents]
        return tuple(
            sorted(of_all, key=lambda each: (each[1].issued_on, each[1].id or 0), reverse=True)
        )

    @property
    def asked(self) -> Pence:
        """What the invoices ask for, VAT included, less what is credited or written off."""
        return sum(
            document.gross - document.credited - document.written_off
            for _, document in self.papers
            if document.kind.asks
        )

    @property
    def received(self) -> Pence:
        """The money that came and is still with the trader."""
        return sum(
            payment.held - (0 if payment.is_mistake else payment.cis)
            for job in self.jobs
            for payment in job.payments
        )

    @property
    def deducted(self) -> Pence:
        """What contractors deduct, made or to be made: with what came and is owed it is asked."""
        of_credit = sum(payment.cis_left for job in self.jobs for payment in job.payments)
        return of_credit + sum(document.deduction for _, document in self.papers)

    @property
    def owed(self) -> Pence:
        """What they still owe on their invoices."""
        return sum(job.owed for job in self.jobs)

    @property
    def refundable(self) -> Pence:
        """The money that they paid over, which can be paid back: what was deducted is at HMRC."""
        return sum(job.refundable for job in self.jobs)

    @property
    def happened(self) -> tuple[Happened, ...]:
        """What happened in all their jobs, the latest first."""
        all_of_it = [
            Happened(on, job, words)
            for job in reversed(self.jobs)
            for on, words in _in_order(job)
            if on is not None
        ]
        all_of_it.sort(key=lambda each: each.on)
        return tuple(all_of_it[::-1])


def _in_order(job: Job) -> Iterator[tuple[date | None, str]]:
    """What happened in a job, in the order of the work, each with its day if it has one."""
    yield job.enquiry.received_on, "asked"
    yield job.survey.visited_on if job.survey else None, "visited"
    for quote in job.quotes:
        yield quote.sent_on, f"quote {quote.number} sent"
        if quote.acceptance is not None:
            yield quote.acceptance.on, f"accepted by {quote.acceptance.who}"
    yield job.stripping.on if job.stripping else None, "stripped"
    yield job.laying.on if job.laying else None, "laid"
    for document in job.documents:
        if document.kind is not DocumentKind.RECEIPT:
            yield document.issued_on, _issued(document)
    for payment in job.payments:
        yield payment.received_on, _came(payment)
    yield job.sign_off.on if job.sign_off else None, "signed off"
    for snag in job.snags:
        yield snag.done_on, f"put right: {snag.words}"


def _came(payment: Payment) -> str:
    less = f" after {show_money(payment.cis)} deducted" if payment.cis else ""
    gone = "; cancelled since" if payment.is_mistake else ""
    return f"{show_money(payment.money)} received{less}, {payment.method}{gone}"


def _issued(document: Document) -> str:
    sum_of_it = show_money(document.gross)
    if document.kind.asks:
        return f"{document.label} issued, {sum_of_it}"
    return f"{document.label}, {document.kind}, {sum_of_it}"
