"""A customer with all that is recorded of them: where their roofs are, their jobs, the money."""

from dataclasses import dataclass

from domain.job import Customer, Document, DocumentKind, Job, Site
from domain.money import Pence


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
        """What the invoices ask for, VAT included."""
        return sum(
            document.gross
            for _, document in self.papers
            if document.kind is not DocumentKind.RECEIPT
        )

    @property
    def received(self) -> Pence:
        """What was paid."""
        return sum(payment.pence for job in self.jobs for payment in job.payments)

    @property
    def owed(self) -> Pence:
        """What they still owe on their invoices."""
        return sum(job.owed for job in self.jobs)

    @property
    def credit(self) -> Pence:
        """What they paid over."""
        return sum(payment.unallocated for job in self.jobs for payment in job.payments)
