"""Undo and redo of the job or the list in front: told, asked where it is not small, and done."""

from typing import Any, ClassVar

from textual.app import App
from textual.binding import BindingType

from domain.errors import NotNow
from domain.estimate.stock import short_words
from domain.history import LastSaved, Scope, Touched
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.frame.screen import BaseScreen
from tui.job.page_tabs import TABS
from tui.widgets.form_dialog import FormDialog, dialog_bindings

_NOWHERE = "Open the job, or the list, whose last save you want to undo or redo."
_TABS = {page.value: words for page, (words, _) in TABS.items()}


class UndoDialog(FormDialog[None]):
    """Says what would be undone; Enter does it, Escape leaves it."""

    BINDINGS: ClassVar[list[BindingType]] = dialog_bindings("undo")


class Undoing:
    """What F8 and ctrl+y do in a program."""

    def __init__(self, app: App[Any]) -> None:
        self._app = app
        self._gone: int | None = None
        """The job whose page was closed, since its enquiry was undone: it can be redone."""

    async def undo(self, screen: BaseScreen) -> None:
        """Undo what was saved last of what is in front, once it was said or asked.

        The first press says what will go, unless the line at the foot says it already.

        Raises :class:`NotNow` with the reason if it cannot be undone.
        """
        of = _of(screen.undo_of)
        last = await screen.open_book.ask(lambda book: book.undoable(of))
        if last.begins_job and not screen.may_leave():
            return
        now = screen.open_book.now()

        async def save(_: None) -> None:
            await screen.open_book.ask(lambda book: book.undo(last))

        def told(saved: bool | None) -> None:
            if saved:
                screen.in_worker(self._undone(screen, last))

        if last.is_undone_unasked(now) and screen.undo_said == last.id:
            await save(None)
            await self._undone(screen, last)
        elif last.is_undone_unasked(now):
            words = f"{key_of('anywhere', 'undo')} again to undo: {last.told(now)}."
            screen.say(words, Tone.QUIET, undoes=last.id)
        else:
            title = f"Undo: {last.told(now)}"
            dialog = UndoDialog(title, (), lambda _: None, save, words=_changes(last))
            self._app.push_screen(dialog, told)

    async def redo(self, screen: BaseScreen) -> None:
        """Do again what was undone last of what is in front, or the job whose page was closed.

        Raises :class:`NotNow` with the reason if it cannot be done again.
        """
        of = screen.undo_of
        if self._gone is not None and not isinstance(of, int):
            of = self._gone
        of = _of(of)
        clause = await screen.open_book.ask(lambda book: book.redo(book.redoable(of)))
        if of == self._gone:
            self._gone = None
            screen.program.open_job(of)
        else:
            await screen.reload()
        self._app.call_later(self._say, f"Done again: {clause}.")

    async def _undone(self, screen: BaseScreen, last: LastSaved) -> None:
        """Show what is left, and say what was undone."""
        told = f"Undone: {last.clause}. {key_of('anywhere', 'redo')} to redo."
        if last.begins_job and isinstance(last.of, int):
            self._gone = last.of
            while getattr(self._app.screen, "undo_of", None) == last.of:
                self._app.pop_screen()
            told = (
                f"Undone: {last.clause}. Its page is closed; {key_of('anywhere', 'redo')} to redo."
            )
        else:
            self._gone = None
            await screen.reload()
        self._say(f"{told} {short_words(last.short)}".rstrip())

    def _say(self, sentence: str) -> None:
        """Say it on the screen that is in front by now."""
        screen = self._app.screen
        if isinstance(screen, BaseScreen):
            screen.say(sentence, Tone.QUIET)


def _of(of: Scope | None) -> Scope:
    if of is None:
        raise NotNow(_NOWHERE)
    return of


def _changes(last: LastSaved) -> str:
    """What it changes, and where stock would be short."""
    touched = ", ".join(map(_words, last.touched))
    changes = f"It changes: {touched}." if touched else ""
    return f"{changes} {short_words(last.short)}".strip()


def _words(touched: Touched) -> str:
    return _TABS.get(touched.value, touched.value)
