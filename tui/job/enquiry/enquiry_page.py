"""The enquiry: who, where, what they say it is, and the time of the visit."""

from collections.abc import Iterable
from typing import ClassVar

from textual.widget import Widget

from domain.checks.check import Situation
from domain.job import EnquiryRecord, Job
from domain.page_names import PageName
from tui.job.enquiry.enquiry_dialog import note_rough, note_visit
from tui.job.enquiry.enquiry_fields import WHOLE, enquiry_of, enquiry_typed, read_enquiry
from tui.job.page import JobPage
from tui.widgets.form import Form

_NAMED = 3  # other jobs of the customer that are named; of the rest their number is said


class EnquiryPage(JobPage):
    """Corrects and completes what was taken down on the telephone."""

    page: ClassVar[PageName] = PageName.ENQUIRY
    place: ClassVar[str] = "enquired"

    def body(self) -> Iterable[Widget]:
        """Yield the one form of the page."""
        yield Form(WHOLE)

    def fill(self, situation: Situation) -> None:
        """Put what is recorded into the fields."""
        self._form.fill(enquiry_typed(enquiry_of(situation.job)))

    def follow(self, situation: Situation) -> None:  # noqa: ARG002  a price may have changed
        """Show the rough price at today's prices."""
        self._note_rough()

    def part(self, job: Job) -> object:
        """Return what this page keeps of the job: who, where and what was said."""
        return enquiry_of(job)

    def on_form_changed(self) -> None:
        """The rough price follows what is typed; the screen hears of the change too."""
        self._note_rough()

    async def save(self) -> None:
        """Write what was typed. Raises :class:`domain.errors.HeadlapError`."""
        job = self.job
        asked = read_enquiry(self._form.values, enquiry_of(job), self.open_book.today)
        await self.record(
            lambda book: book.change_enquiry(job, asked),
            f"Saved: the enquiry.{await self._changed_too(asked)}",
        )

    async def _changed_too(self, asked: EnquiryRecord) -> str:
        """The customer's other jobs that have in common what was changed, in a sentence."""
        job, key = self.job, self.job.customer.id
        who, where = asked.customer != job.customer, asked.site != job.site
        if key is None or not (who or where):
            return ""
        known = await self.open_book.ask(lambda book: book.known_customer(key))
        refs = [
            other.ref
            for other in (known.jobs if known else ())
            if other.ref != job.ref and (who or other.site_id == job.site.id)
        ]
        more = f" and {len(refs) - _NAMED} more" if len(refs) > _NAMED else ""
        return f" Changed on {', '.join(refs[:_NAMED])}{more} too." if refs else ""

    def _note_rough(self) -> None:
        note_visit(self._form)
        self.job_screen.in_background(note_rough(self._form, self.open_book, "Add them in Prices"))

    @property
    def _form(self) -> Form:
        return self.query_one(Form)
