"""The dialogs of a quote: its sending, with a note on each caution that is passed, and the yes."""

from collections.abc import Awaitable, Callable, Sequence
from datetime import date
from typing import Any

from domain.checks.check import Check
from domain.days.cancellation import right_in_words
from domain.job import Acceptance, Job, Means, Quote, Sending
from tui.frame.commands import key_of
from tui.job.quote.quote_fields import (
    SENDING,
    acceptance_fields,
    acceptance_typed,
    read_acceptance,
    read_sending,
)
from tui.job.stage_dialogs import PASSED_WITH, note_fields, read_notes
from tui.widgets.field_values import date_typed, number_typed
from tui.widgets.form_dialog import FormDialog


def send_dialog(
    quote: Quote,
    cautions: Sequence[Check],
    days: int,
    today: date,
    save: Callable[[Sending], Awaitable[Any]],
) -> FormDialog[Sending]:
    """Ask when it was sent, for how many days it is valid (usually ``days``), and for the notes."""
    notes = note_fields(cautions)
    return FormDialog(
        f"Mark quote {quote.number} as sent",
        (*SENDING, *notes),
        lambda values: read_sending(values, read_notes(cautions, values), quote.drafted_on, today),
        save,
        words=f"A final quote cannot be changed. {PASSED_WITH if notes else ''}".rstrip(),
        values={"sent_on": date_typed(today), "valid_days": number_typed(days)},
    )


def final_dialog(
    quote: Quote,
    cautions: Sequence[Check],
    days: int,
    today: date,
    save: Callable[[Sending], Awaitable[Any]],
    told: str,
) -> FormDialog[Sending]:
    """Ask for how many days a quote is valid that is to be sent, and for the notes.

    It is dated today. ``told`` is whom it is for, and what it comes to.
    """
    notes = note_fields(cautions)
    valid = next(field for field in SENDING if field.id == "valid_days")

    def read(values: dict[str, str]) -> Sending:
        dated = {**values, "sent_on": date_typed(today)}
        return read_sending(dated, read_notes(cautions, values), quote.drafted_on, today)

    return FormDialog(
        f"Make quote {quote.number} final",
        (valid, *notes),
        read,
        save,
        words=f"{told}\nA final quote cannot be changed. {PASSED_WITH if notes else ''}".rstrip(),
        values={valid.id: number_typed(days)},
    )


def accept_dialog(
    job: Job, quote: Quote, today: date, save: Callable[[Acceptance], Awaitable[Any]]
) -> FormDialog[Acceptance]:
    """Ask who said yes to a quote that was sent, when, how and where."""
    dialog = FormDialog(
        f"Record quote {quote.number} as accepted",
        acceptance_fields(job, quote),
        lambda values: read_acceptance(values, quote, today),
        save,
        words="You can fill in the rest later.",
        values=acceptance_typed(job, quote),
    )
    dialog.add_class("-long-labels")  # what the law asks about is read to its end
    return dialog


def agreed(job: Job, acceptance: Acceptance, today: date) -> str:
    """What to say of a yes: how long it can be taken back."""
    said = f"Accepted by {acceptance.who}. {right_in_words(job, acceptance, today)}".rstrip()
    if acceptance.means is Means.SPOKEN and not acceptance.asked_in_writing_on:
        return f"{said} {key_of('quote', 'confirmation')} has the text to send them."
    return said
