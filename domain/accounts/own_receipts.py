"""Each payment is recorded with a receipt of its own, that says what of the work it taxed."""

from collections.abc import Iterator
from dataclasses import dataclass

from domain.job import Document, DocumentKind, Job, Payment
from domain.tax import VatTotals


@dataclass(frozen=True, slots=True)
class Registered:
    """What is read here of the seller on a receipt."""

    vat_number: str
    """Empty while the trader was not registered."""


@dataclass(frozen=True, slots=True)
class Brought:
    """What is read here of a receipt."""

    seller: Registered
    brings: VatTotals | None = None
    """The part of the work that the money brought to tax as it came; None for none."""


def with_receipts(job: Job) -> Iterator[tuple[Payment, Document]]:
    """Each payment of a job with its receipt."""
    receipts = (document for document in job.documents if document.kind is DocumentKind.RECEIPT)
    return zip(job.payments, receipts, strict=True)
