"""Enquiries and surveys."""

from dataclasses import replace

from sqlmodel import desc, select

from domain.job import EnquiryRecord, Job, Survey
from storage.database import Database
from storage.mapping.codec import cells_of
from storage.queries import read_job
from storage.rows import CustomerRow, JobRow, SiteRow, SurveyRow
from storage.transaction import Transaction


class EnquiryActions(Database):
    """From the telephone call to the survey."""

    def take_enquiry(self, taken: EnquiryRecord) -> Job:
        """Record an enquiry as a new job, with the reference after the last.

        A customer or a site with an id is the one recorded and becomes what is given; raises
        :class:`storage.errors.Changed` if it was written since it was read.
        """
        with self._acting(f"enquiry of {taken.customer.name} added", None) as work:
            owner = work.keep(CustomerRow, taken.customer)
            place = work.keep(SiteRow, taken.site, customer_id=owner)
            cells = cells_of(taken.enquiry)
            row = JobRow(ref=_next_ref(work), site_id=place, stage="enquiry", **cells)
            return read_job(work.session, work.key_of(row))

    def change_enquiry(self, job: Job, told: EnquiryRecord) -> Job:
        """Correct who, where and what was said; the customer and the site are the job's own.

        Raises :class:`storage.errors.Changed` if either was written since the job was read.
        """
        who, where = job.customer, job.site
        with self._on_job(job, "enquiry saved") as work:
            owner = work.keep(CustomerRow, replace(told.customer, id=who.id, version=who.version))
            same_site = replace(told.site, id=where.id, version=where.version)
            work.keep(SiteRow, same_site, customer_id=owner)
            work.change(work.row, **cells_of(told.enquiry))
            return read_job(work.session, work.job_id)

    def save_survey(self, job: Job, survey: Survey) -> Job:
        """Record the survey."""
        with self._on_job(job, "survey saved") as work:
            work.put(SurveyRow(job_id=work.job_id, **cells_of(survey)), work.job_id)
            return read_job(work.session, work.job_id)


def _next_ref(work: Transaction) -> str:
    """Return the reference after the last."""
    last = work.session.exec(select(JobRow.ref).order_by(desc(JobRow.id))).first()
    return f"{int(last or 0) + 1:04d}"
