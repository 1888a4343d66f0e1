"""The dialogs about a job's stage: notes for cautions, going back, ending, taking up again."""

from collections.abc import Awaitable, Callable, Sequence
from typing import Any

from domain.checks.check import Check
from domain.checks.questions import Question, noted_together
from domain.errors import Refused
from domain.job import Job, Stage
from domain.signs import Sign
from tui.widgets.field_row import Field
from tui.widgets.form_dialog import FormDialog

PASSED_WITH = "You can go on past a caution if you say why. The note stays with the job."
_WHY = Field("why", "Why")


def notes_dialog(
    to: Stage, cautions: Sequence[Check], save: Callable[[dict[str, str]], Awaitable[Any]]
) -> FormDialog[dict[str, str]]:
    """Ask for a note on each caution that is passed; the notes stay on the job."""
    return FormDialog(
        f"Mark as {to.done} anyway?",
        note_fields(cautions),
        lambda values: read_notes(cautions, values),
        save,
        words=PASSED_WITH,
    )


def note_fields(cautions: Sequence[Check]) -> list[Field]:
    """A field for each note, under the words of the cautions that it passes."""
    return [_note_field(n, asked) for n, asked in enumerate(noted_together(cautions), 1)]


def _note_field(number: int, asked: Question) -> Field:
    first, *others = asked.checks
    title, hint = first.words, first.remedy
    if others and first.part is not None:
        title, hint = first.part.value, " ".join(check.words for check in asked.checks)
    section = f"{Sign.CAUTION} caution  {title}"
    return Field(first.id, f"Note {number}", hint=hint, section=section)


def read_notes(cautions: Sequence[Check], values: dict[str, str]) -> dict[str, str]:
    """The notes by check. Raises :class:`Refused` for the first that is empty."""
    notes: dict[str, str] = {}
    for asked in noted_together(cautions):
        first = asked.checks[0].id
        note = values[first].strip()
        if not note:
            raise Refused(first, values[first], "Say in a few words why it can go on.")
        notes |= dict.fromkeys((check.id for check in asked.checks), note)
    return notes


def back_dialog(
    job: Job, save: Callable[[tuple[Stage, str]], Awaitable[Any]]
) -> FormDialog[tuple[Stage, str]]:
    """Ask for an earlier stage and the reason."""
    before = [stage.value for stage in Stage if stage.rank < job.stage.rank]
    return FormDialog(
        f"{job.ref}: back from {job.stage}",
        (Field("to", "Back to", choices=tuple(before)), _WHY),
        read_back,
        save,
        words="Nothing you recorded is deleted.",
        values={"to": before[-1]},
        begin_at="why",
    )


def read_back(values: dict[str, str]) -> tuple[Stage, str]:
    """The stage to go back to and why. Raises :class:`Refused`."""
    if not values["to"]:
        raise Refused("to", "", "Choose the stage.")
    return Stage(values["to"]), read_why(values)


def reopen_dialog(job: Job, save: Callable[[str], Awaitable[Any]]) -> FormDialog[str]:
    """Ask why an ended job is taken up again."""
    return FormDialog(
        f"Reopen job {job.ref}",
        (_WHY,),
        read_why,
        save,
        words=f"It was {job.ended}: {job.ended_why}",
    )


def read_why(values: dict[str, str]) -> str:
    """The reason. Raises :class:`Refused` if there is none."""
    why = values["why"].strip()
    if not why:
        raise Refused("why", values["why"], "Say why in a few words.")
    return why
