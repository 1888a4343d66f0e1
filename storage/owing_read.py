"""What a customer owes on all of their jobs, read from the book."""

from domain.accounts.transfer import OpenInvoice
from storage.queries import read_job
from storage.tables import Tables

_JOBS_OWING = """
    SELECT job.id FROM site JOIN job ON job.site_id = site.id JOIN listed ON listed.job_id = job.id
    WHERE customer_id = ? AND under_way ORDER BY job.id
"""
"""Whatever owes something is under way."""


def read_owing(tables: Tables, customer_id: int | None) -> tuple[OpenInvoice, ...]:
    """Return every invoice of a customer's on which something is owed, of whichever job."""
    jobs = (read_job(tables, key) for (key,) in tables.found(_JOBS_OWING, customer_id))
    return tuple(
        OpenInvoice(job.id or 0, job.ref, job.site.place, document)
        for job in jobs
        for document in job.documents
        if document.owed > 0
    )
