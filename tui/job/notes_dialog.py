"""The notes of a job: a new one is typed at once, those there are stand below it."""

from collections.abc import Iterable
from typing import ClassVar

from rich.text import Text
from textual.binding import BindingType
from textual.widget import Widget

from domain.checks.check import Situation
from domain.days.calendar import show_date
from domain.errors import HeadlapError
from domain.job import Job, Note
from domain.tone import Tone
from tui.frame.commands import bindings
from tui.frame.held_keys import KEYS_WAIT
from tui.frame.safe_text import one_line, shortened
from tui.frame.theme import PALETTES
from tui.job.page_host import PageHost
from tui.widgets.field_row import Field
from tui.widgets.field_values import read_text
from tui.widgets.form_dialog import FormDialog, dialog_bindings
from tui.widgets.line_list import LineList

_NOTE = Field("words", "Note", example="gate code 4417; no work before 9")
_WHOSE = "Yours alone: on no paper for the customer, unless they ask what you hold on them."
_MOST = 8
"""Notes in sight; the list scrolls."""


class NotesDialog(FormDialog[Note]):
    """A note bears today's date; one that is changed keeps its own."""

    BINDINGS: ClassVar[list[BindingType]] = [*dialog_bindings("dialog"), *bindings("notes")]
    places = ("notes", "dialog")
    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    NotesDialog FieldRow > .label { width: 8; }
    NotesDialog LineList { height: auto; margin: 1 2 0 2; }
    """

    def __init__(self, screen: PageHost, situation: Situation, called: str) -> None:
        """``called`` is what the heading calls the job."""
        self._job_screen, self._shown, today = screen, situation, situation.today
        self._changing: Note | None = None

        def read(values: dict[str, str]) -> Note:
            words = read_text("words", values["words"], "Say what is to be kept in mind.")
            was = self._changing
            return Note(words, today) if was is None else Note(words, was.on, was.id)

        super().__init__(
            f"Notes on {called}",
            (_NOTE,),
            read,
            self._keep,
            words="" if situation.job.own_notes else _WHOSE,
        )

    def below(self) -> Iterable[Widget]:
        """The notes, the latest first."""
        yield LineList()

    def on_mount(self) -> None:
        """Show what was noted before."""
        super().on_mount()
        self._list()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's own names
        """There must be a note under the cursor to take away."""
        return action != "delete_note" or isinstance(self.focused, LineList)

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Change the note that was chosen."""
        event.stop()
        note = self._newest[event.row]
        self._changing = note
        form = self._form
        form.fill({_NOTE.id: note.words})
        form.focus_first(_NOTE.id)
        self.say(f"Changing the note of {show_date(note.on)}.", Tone.QUIET)

    def action_delete_note(self) -> None:
        """Take the note under the cursor away."""
        self.run_worker(self._delete(), group=KEYS_WAIT, exit_on_error=False)

    @property
    def _job(self) -> Job:
        """The job as the screen below read it last."""
        return (self._job_screen.situation or self._shown).job

    @property
    def _newest(self) -> tuple[Note, ...]:
        return self._job.own_notes[::-1]

    async def _keep(self, note: Note) -> None:
        job, screen = self._job, self._job_screen
        await screen.open_book.ask(lambda book: book.write_note(job, note))
        await screen.reload_job()
        await screen.say_saved("Saved: the note.")

    async def _delete(self) -> None:
        job, screen = self._job, self._job_screen
        note = self._newest[self.query_one(LineList).cursor]
        try:
            await screen.open_book.ask(lambda book: book.delete_note(job, note.id or 0))
        except HeadlapError as error:
            self.say(str(error), Tone.STOP)
            return
        await screen.reload_job()
        if self._changing is not None and self._changing.id == note.id:
            self._changing = None
        self._list()
        self.say("Deleted: the note.", Tone.GOOD)

    def _list(self) -> None:
        notes, lines = self._newest, self.query_one(LineList)
        lines.show(len(notes), self._draw)
        lines.display = bool(notes)
        lines.styles.height = min(_MOST, len(notes))
        if not notes:
            self._form.focus_first(_NOTE.id)

    def _draw(self, row: int, width: int) -> Text:
        note, p = self._newest[row], PALETTES[self.app.theme]
        text = Text(f"{show_date(note.on):<17}", style=p.quiet, end="")
        return text.append(shortened(one_line(note.words), width - text.cell_len), style=p.ink)
