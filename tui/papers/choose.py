"""The paper of a job that a name on the command line asks for."""

from domain.accounts.invoice import Invoice
from domain.errors import NotNow
from domain.job import Job
from domain.papers.blocks import Paper
from domain.papers.invoice import invoice_paper
from domain.papers.materials import materials_paper
from domain.papers.quote import quote_paper
from domain.snapshot import from_json
from domain.trader import Trader


def paper_of(kind: str, job: Job, trader: Trader) -> Paper:
    """Return the quote, invoice or materials paper of a job. Raises :class:`NotNow` if none is."""
    if job.quote is None:
        raise NotNow(f"Job {job.ref} has no quote yet.")
    if kind == "quote":
        return quote_paper(job, job.quote, trader)
    if kind == "materials":
        return materials_paper(job)
    if job.invoice is None:
        raise NotNow(f"Job {job.ref} is not invoiced yet.")
    return invoice_paper(from_json(Invoice, job.invoice.snapshot))
