"""A new enquiry, taken down while the customer is on the telephone."""

import asyncio
from collections.abc import Callable
from typing import TYPE_CHECKING, cast

from domain.errors import HeadlapError
from domain.estimate.supplies import PricesAndStock, Unpriced
from domain.job import EnquiryRecord
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.job.enquiry.enquiry_fields import (
    NOMINAL,
    ON_THE_PHONE,
    enquiry_typed,
    new_enquiry,
    read_enquiry,
    rough_words,
)
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog

if TYPE_CHECKING:
    from storage.book import Book
    from tui.frame.open_book import OpenBook
    from tui.frame.program import Program

_PAUSE_S = 0.15
"""Seconds without a key before anything is worked out."""


class EnquiryDialog(FormDialog[EnquiryRecord]):
    """The dialog, with the rough price beside the nominal size as it is typed."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    EnquiryDialog #title { padding-bottom: 1; }
    EnquiryDialog FieldRow > Input { width: 26; }
    EnquiryDialog FieldRow > Input.-wide { width: 1fr; }
    """

    def worked_out(self, form: Form) -> None:
        """Return the rough price of what is typed so far."""
        self.run_worker(self._priced(form), exit_on_error=False)

    async def _priced(self, form: Form) -> None:
        program = cast("Program", self.app)
        try:
            lacking = await note_rough(form, program.open_book)
            if lacking:
                prices = key_of("anywhere", "go('prices')")
                words = f"{lacking}. Save the enquiry first, then go to Prices ({prices})."
                self.say(words, Tone.CAUTION)
        except HeadlapError as error:
            self.say(str(error), Tone.CAUTION)
        except Exception as error:  # the enquiry can be taken down without a price
            self.say(program.note_unforeseen(error), Tone.CAUTION)


def enquiry_dialog(
    open_book: "OpenBook", opened: Callable[[int], None]
) -> FormDialog[EnquiryRecord]:
    """Ask for a new enquiry; ``opened`` is called with the id of the new job once it is saved."""
    today = open_book.today
    before = new_enquiry(today)

    async def save(asked: EnquiryRecord) -> None:
        job = await open_book.ask(lambda book: book.take_enquiry(asked))
        if job.id is not None:
            # The dialog closes as soon as this returns; only then may a screen come on top.
            dialog.app.call_later(opened, job.id)

    dialog = EnquiryDialog(
        "New enquiry",
        ON_THE_PHONE,
        lambda values: read_enquiry(values, before, today),
        save,
        values=enquiry_typed(before),
    )
    return dialog


async def note_rough(form: Form, open_book: "OpenBook") -> str:
    """Write the rough price beside the nominal size, once typing pauses.

    Returns which prices are missing, in a clause; empty if none is. Raises :class:`HeadlapError`
    if the book cannot be read.
    """
    typed = form.values[NOMINAL.id]
    await asyncio.sleep(_PAUSE_S)
    if not form.is_attached or form.values[NOMINAL.id] != typed:
        return ""
    today = open_book.today

    def words(book: "Book") -> tuple[str, Tone]:
        return rough_words(
            typed, book.trader(), PricesAndStock(book.prices(), book.free_stock(None), today)
        )

    lacking = ""
    try:
        said, tone = await open_book.ask(words)
    except Unpriced as error:
        said, tone, lacking = "prices missing", Tone.CAUTION, error.lacking
    if form.is_attached and form.values[NOMINAL.id] == typed:
        form.note(NOMINAL.id, said, tone)
    return lacking
