"""Enquiries and surveys."""

from sqlmodel import col, func, select

from domain.job import Customer, Enquiry, Job, Site, Survey
from storage.errors import Changed
from storage.mapping.codec import cells_of
from storage.mapping.job import survey_row
from storage.reading import read_job
from storage.rows import CustomerRow, JobRow, SiteRow
from storage.store import Store
from storage.work import Work


class EnquiryActions(Store):
    """From the telephone call to the survey."""

    def take_enquiry(self, customer: Customer, site: Site, enquiry: Enquiry) -> Job:
        """Write down an enquiry as a new job; a customer with an id is the one on record."""
        with self._acting(f"the enquiry of {customer.name}") as work:
            owner = customer.id or work.key_of(_customer_row(customer))
            place = work.key_of(SiteRow(customer_id=owner, **cells_of(site, "id", "version")))
            cells = cells_of(enquiry)
            row = JobRow(ref=_next_ref(work), site_id=place, stage="enquiry", **cells)
            return read_job(work.session, work.key_of(row))

    def change_enquiry(self, job: Job, customer: Customer, site: Site, enquiry: Enquiry) -> Job:
        """Correct who, where and what was said. Raises :class:`Changed`."""
        with self._on_job(job, "the enquiry") as work:
            owner = work.get(CustomerRow, job.customer.id)
            place = work.get(SiteRow, job.site.id)
            if owner is None or place is None or owner.version != job.customer.version:
                raise Changed
            work.change(owner, **cells_of(customer, "id", "version"))
            work.change(place, **cells_of(site, "id", "version"))
            work.change(work.row, **cells_of(enquiry))
            return read_job(work.session, work.job_id)

    def save_survey(self, job: Job, survey: Survey) -> Job:
        """Write up the survey."""
        with self._on_job(job, "the survey") as work:
            work.put(survey_row(work.job_id, survey), work.job_id)
            return read_job(work.session, work.job_id)


def _customer_row(customer: Customer) -> CustomerRow:
    return CustomerRow(**cells_of(customer, "id", "version"))


def _next_ref(work: Work) -> str:
    """Return the reference after the highest."""
    highest = work.session.exec(select(func.max(col(JobRow.id)))).one()
    return f"{(highest or 0) + 1:04d}"
