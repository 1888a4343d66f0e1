"""Enquiries and surveys."""

from dataclasses import replace

from domain.job import EnquiryRecord, Job, Survey
from domain.keeping import demand_deletable, demand_nothing_bought
from storage.books_read import purchases_of
from storage.database import Database, JobTransaction
from storage.mapping.codec import cells_of
from storage.queries import read_job
from storage.rows import (
    BookingRow,
    CautionNoteRow,
    CustomerRow,
    JobRow,
    LineRow,
    NoteRow,
    OptionRow,
    PurchaseRow,
    PutOffRow,
    QuoteRow,
    RungRow,
    SiteRow,
    SurveyRow,
)
from storage.transaction import Transaction


class EnquiryActions(Database):
    """From the telephone call to the survey."""

    def take_enquiry(self, taken: EnquiryRecord) -> Job:
        """Record an enquiry as a new job, with the reference after the last.

        A customer or a site with an id is the one recorded and becomes what is given; raises
        :class:`storage.errors.Changed` if it was written since it was read.
        """
        with self._acting(f"enquiry of {taken.customer.called} added", None) as work:
            owner = work.keep(CustomerRow, taken.customer)
            place = work.keep(SiteRow, taken.site, customer_id=owner)
            cells = cells_of(taken.enquiry)
            row = JobRow(ref=_next_ref(work), site_id=place, stage="enquiry", **cells)
            return read_job(work.tables, work.key_of(row))

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
            return read_job(work.tables, work.job_id)

    def delete_enquiry(self, job: Job) -> None:
        """Delete a job that came to nothing; with the last at a place or of a customer, those too.

        Raises :class:`NotNow` for what has to be kept, with the reason and until when.
        """
        with self._on_job(job, "enquiry deleted") as work:
            today = self._now().date()
            demand_deletable(read_job(work.tables, work.job_id), today)
            bought = work.tables.read(PurchaseRow, job_id=work.job_id)
            demand_nothing_bought(purchases_of(work.tables, bought), today)
            _delete_what_belongs(work)
            site = work.get_one(SiteRow, work.row.site_id)
            work.remove(work.row)
            if not work.rows(JobRow, site_id=site.id):
                owner = work.get_one(CustomerRow, site.customer_id)
                work.remove(site)
                if not work.rows(SiteRow, customer_id=owner.id):
                    work.remove(owner)

    def save_survey(self, job: Job, survey: Survey) -> Job:
        """Record the survey."""
        with self._on_job(job, "survey saved") as work:
            work.put(SurveyRow(job_id=work.job_id, **cells_of(survey)), work.job_id)
            return read_job(work.tables, work.job_id)


def _delete_what_belongs(work: JobTransaction) -> None:
    """Delete what an enquiry may have by now: a survey, drafts of a quote, days, notes."""
    for quote in work.rows(QuoteRow, job_id=work.job_id):
        for option in work.rows(OptionRow, quote_id=quote.id):
            for line in work.rows(LineRow, option_id=option.id):
                work.remove(line)
            work.remove(option)
        work.remove(quote)
    for kind in (SurveyRow, BookingRow, RungRow, CautionNoteRow, NoteRow, PutOffRow):
        for row in work.rows(kind, job_id=work.job_id):
            work.remove(row)


def _next_ref(work: Transaction) -> str:
    """Return the reference after the last."""
    last = work.tables.first("SELECT ref FROM job ORDER BY id DESC LIMIT 1")
    return f"{int(last or 0) + 1:04d}"
