"""Deleting an enquiry that came to nothing: what goes with it is named, and it is asked once."""

from collections.abc import Iterator

from domain.job import Job
from domain.keeping import demand_deletable
from tui.frame.commands import key_of
from tui.frame.safe_text import one_line
from tui.frame.screen import BaseScreen
from tui.widgets.question import Question


class DeleteDialog(Question):
    """Says what would go."""

    place = "delete"


async def ask_to_delete(screen: BaseScreen, job: Job) -> None:
    """Ask whether a job is to be deleted; once it is, its page closes.

    Raises :class:`NotNow` for what has to be kept, with the reason and until when.
    """
    demand_deletable(job, screen.open_book.today)
    key = job.customer.id or 0
    known = await screen.open_book.ask(lambda book: book.known_customer(key))
    others = len(known.jobs) - 1 if known is not None else 0

    async def save() -> None:
        await screen.open_book.ask(lambda book: book.delete_enquiry(job))
        words = f"Deleted: the enquiry of {job.customer.called}."
        # The dialog closes as soon as this returns; only then may the page below it.
        screen.app.call_later(screen.program.close_deleted, job.id or 0, words)

    called = ", ".join(filter(str.strip, (one_line(job.customer.called), one_line(job.site.place))))
    title = f"Delete the enquiry {job.ref} of {called}?"
    words = f"With it goes: {', '.join(_what_goes(job, others))}. {_stays(job, others)}"
    screen.app.push_screen(DeleteDialog(title, save, words))


def _what_goes(job: Job, others: int) -> Iterator[str]:
    """Each thing that is deleted, in a few words."""
    yield "what they said"
    if not others:
        yield "name, telephone and address"
    if job.survey is not None:
        yield "the survey"
    if job.quotes:
        yield "the quote not sent" if len(job.quotes) == 1 else "the quotes not sent"
    if job.days:
        yield "the days booked"
    if job.notes or job.own_notes:
        yield "the notes"


def _stays(job: Job, others: int) -> str:
    undo = key_of("anywhere", "undo")
    back = f"{undo} brings it back; the book's history and the backups keep a copy."
    if not others:
        return back
    jobs = "1 other job" if others == 1 else f"{others} other jobs"
    return f"{one_line(job.customer.called)} stays, with {jobs}. {back}"
