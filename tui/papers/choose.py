"""The paper of a job that a name on the command line asks for."""

from domain.accounts.invoice import Invoice
from domain.errors import NotNow
from domain.estimate.counted import supplied, takeoff_of
from domain.estimate.loading import old_of, weigh
from domain.estimate.supplies import Sources
from domain.job import Job
from domain.papers.blocks import Paper
from domain.papers.invoice import invoice_paper
from domain.papers.materials import materials_paper
from domain.papers.quote import quote_paper
from domain.papers.site_sheet import site_sheet
from domain.papers.takeoff import takeoff_paper
from domain.snapshot import from_json
from domain.takeoff.take_off import TakeOff
from domain.trader import Trader


def paper_of(kind: str, job: Job, trader: Trader, sources: Sources) -> Paper:
    """Return the paper of that name of a job. Raises :class:`NotNow` if there is none yet.

    Take-off and site sheet are counted at the prices and the store of ``sources``.
    """
    if kind == "takeoff":
        return takeoff_in_full(takeoff_of(job, sources), job, sources, trader)
    if kind == "site-sheet":
        return site_sheet(job, takeoff_of(job, sources), trader)
    if job.quote is None:
        raise NotNow(f"Job {job.ref} has no quote yet.")
    if kind == "quote":
        return quote_paper(job, job.quote, trader)
    if kind == "materials":
        return materials_paper(job)
    if job.invoice is None:
        raise NotNow(f"Job {job.ref} is not invoiced yet.")
    return invoice_paper(from_json(Invoice, job.invoice.snapshot))


def takeoff_in_full(takeoff: TakeOff, job: Job, sources: Sources, trader: Trader) -> Paper:
    """The take-off of a job with its weights, bought as ``sources`` have it."""
    weights = weigh(takeoff, sources, old_of(job), trader.van)
    return takeoff_paper(takeoff, job, weights, supplied(job, takeoff, sources))
