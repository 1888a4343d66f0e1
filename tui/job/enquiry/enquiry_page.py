"""The enquiry: who, where, what they say it is, and the time of the visit."""

from collections.abc import Iterable
from typing import ClassVar

from textual.widget import Widget

from domain.checks.check import Situation
from domain.job import Job
from domain.page_names import PageName
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.job.enquiry.enquiry_dialog import note_rough
from tui.job.enquiry.enquiry_fields import WHOLE, enquiry_of, enquiry_typed, read_enquiry
from tui.job.page import JobPage
from tui.widgets.form import Form


class EnquiryPage(JobPage):
    """Corrects and completes what was taken down on the telephone."""

    page: ClassVar[PageName] = PageName.ENQUIRY

    def body(self) -> Iterable[Widget]:
        """Yield the one form of the page."""
        yield Form(WHOLE)

    def fill(self, situation: Situation) -> None:
        """Put what is recorded into the fields."""
        self._form.fill(enquiry_typed(enquiry_of(situation.job)))

    def follow(self, situation: Situation) -> None:  # noqa: ARG002  a price may have changed
        """Show the rough price at today's prices."""
        self.job_screen.in_background(note_rough(self._form, self.open_book))

    def part(self, job: Job) -> object:
        """Return what this page keeps of the job: who, where and what was said."""
        return enquiry_of(job)

    def on_form_changed(self) -> None:
        """The rough price follows what is typed; the screen hears of the change too."""
        self.job_screen.in_background(self._noted())

    async def save(self) -> None:
        """Write what was typed. Raises :class:`domain.errors.HeadlapError`."""
        job = self.job
        asked = read_enquiry(self._form.values, enquiry_of(job), self.open_book.today)
        await self.record(
            lambda book: book.change_enquiry(job, asked),
            "Saved: the enquiry.",
        )

    async def _noted(self) -> None:
        lacking = await note_rough(self._form, self.open_book)
        if lacking:
            prices = key_of("anywhere", "go('prices')")
            self.job_screen.say(f"{lacking}. Prices are under {prices}.", Tone.CAUTION)

    @property
    def _form(self) -> Form:
        return self.query_one(Form)
