"""Undo and redo of the job or the list in front: told, asked, and done."""

from contextlib import suppress
from typing import Any

from textual.app import App
from textual.screen import Screen

from domain.errors import HeadlapError, NotNow
from domain.estimate.stock import short_words
from domain.history import LastSaved, of_place
from domain.scope import Scope, Touched
from domain.tone import Tone
from storage.errors import FinalMoney
from tui.frame.commands import key_of
from tui.frame.held_keys import KEYS_WAIT
from tui.frame.screen import BaseScreen
from tui.job.job_screen import JobScreen
from tui.job.page_tabs import TABS
from tui.widgets.question import Question

_NOWHERE = "Open the job, or the list, whose last save you want to undo or redo."
_MOST = 6
"""So many changes are named in the question."""
_TABS = {page.value: words for page, (words, _) in TABS.items()}


class UndoDialog(Question):
    """Says what would be undone."""

    place = "undo"


class Undoing:
    """What F8 and ctrl+y do in a program."""

    def __init__(self, app: App[Any]) -> None:
        self._app = app
        self._deleted: list[Scope] = []
        """The jobs that were deleted, the last at the end: undo brings them back."""
        self._undone: list[Scope] = []
        """What was undone from the week, and the jobs that went by it, the last at the end."""

    async def undo(self, screen: BaseScreen) -> None:
        """Undo what was saved last of what is in front, once the person says yes to it.

        Where nothing is saved, that is the job that was deleted last; in the week, what this
        window saved last of all that was worked on from there.

        Raises :class:`NotNow` with the reason if it cannot be undone.
        """
        if screen.undo_waits:
            screen.say(screen.undo_waits, Tone.QUIET)
            return
        try:
            last = await self._last_saved(screen)
        except FinalMoney as error:
            key = key_of("money", "put_right")
            raise NotNow(f"{str(error).rstrip('.')}: {key} there.") from error
        if last.takes_job and not screen.may_leave():
            return

        async def save() -> None:
            await screen.open_book.ask(lambda book: book.undo(last))

        def told(saved: bool | None) -> None:
            if saved:
                screen.in_worker(self._turned(screen, last, redone=False))

        title = f"Undo: {last.told(screen.open_book.now())}"
        self._app.push_screen(UndoDialog(title, save, _changes(last)), told)

    async def redo(self, screen: BaseScreen) -> None:
        """Do again what was undone last of what is in front.

        Where nothing is saved, that is the job whose enquiry was undone last. Raises
        :class:`NotNow` with the reason if it cannot be done again.
        """
        is_of_none = screen.undo_of is None or bool(screen.worked_on)
        of = _of(self._undone[-1] if self._undone and is_of_none else screen.undo_of)
        last = await screen.open_book.ask(lambda book: book.redoable(of))
        if last.takes_job and not screen.may_leave():
            return
        await screen.open_book.ask(lambda book: book.redo(last))
        await self._turned(screen, last, redone=True)

    def deleted(self, job_id: int, words: str) -> None:
        """Close the pages of a job that was just deleted, and say how it is brought back."""
        self._close(job_id, self._deleted, f"{words} {key_of('anywhere', 'undo')} to undo.")

    async def _last_saved(self, screen: BaseScreen) -> LastSaved:
        """What was saved last of what is in front; in the week, of all that was done from there."""
        if screen.worked_on:
            scopes = {*screen.worked_on, *self._deleted}
            return await screen.open_book.ask(lambda book: book.undoable_here(scopes))
        deleted = self._deleted[-1] if self._deleted and screen.undo_of is None else None
        of = _of(deleted or screen.undo_of)
        return await screen.open_book.ask(lambda book: book.undoable(of))

    async def _turned(self, screen: BaseScreen, last: LastSaved, *, redone: bool) -> None:
        """Show what there is now, and say what was undone or done again."""
        done, other = ("Done again", "undo") if redone else ("Undone", "redo")
        back = f"{key_of('anywhere', other)} to {other}."
        what = of_place(last.clause, last.place) if screen.worked_on else last.clause
        told = f"{done}: {what}." if redone else f"{done}: {what}. {back}"
        if redone:
            self._undone = [each for each in self._undone if each != last.of]
        elif screen.worked_on and not last.takes_job:
            self._undone.append(last.of)
        if last.takes_job:
            told = f"{done}: {last.clause}. Its page is closed; {back}"
            self._close(last.of, self._deleted if redone else self._undone, told)
            return
        if last.brings_job and isinstance(last.of, int):
            self._deleted = [each for each in self._deleted if each != last.of]
            self._app.push_screen(JobScreen(last.of, told=told))
        else:
            await screen.reload()
            self._say(f"{told} {short_words(last.short)}".rstrip())

    def _close(self, of: Scope, gone: list[Scope], sentence: str) -> None:
        """Leave the pages of a job that is gone, keep its number, and say so on what lies below."""
        gone.append(of)
        while _is_of(self._app.screen, of):
            self._app.pop_screen()
        self._app.run_worker(self._told_below(sentence), group=KEYS_WAIT, exit_on_error=False)

    async def _told_below(self, sentence: str) -> None:
        """Say it once the screen in front is read again: that of a customer may have gone too."""
        screen = self._app.screen
        if isinstance(screen, BaseScreen):
            with suppress(HeadlapError):  # it says so itself
                await screen.reload()
        self._say(sentence)

    def _say(self, sentence: str) -> None:
        """Say it on the screen that is in front by now."""
        screen = self._app.screen
        if isinstance(screen, BaseScreen):
            screen.say(sentence, Tone.QUIET)


def _is_of(screen: Screen[Any], of: Scope) -> bool:
    """Whether a screen is of a job alone: the week stays, whatever was worked on from there."""
    return isinstance(screen, BaseScreen) and screen.undo_of == of and not screen.worked_on


def _of(of: Scope | None) -> Scope:
    if of is None:
        raise NotNow(_NOWHERE)
    return of


def _changes(last: LastSaved) -> str:
    """What it changes, and where stock would be short."""
    touched = ", ".join(map(_words, last.touched))
    lines = [f"It changes: {touched}." if touched else "", short_words(last.short)]
    if last.takes_job or last.brings_job:
        pass  # all of a job goes or comes
    elif len(last.changes) > 1 and not any(change.before for change in last.changes):
        lines.append("Nothing stood there before.")
    else:
        lines += [f"{change.told_back()}" for change in last.changes[:_MOST]]
        more = len(last.changes) - _MOST
        lines.append(f"and {more} more" if more > 0 else "")
    return "\n".join(filter(None, lines))


def _words(touched: Touched) -> str:
    return _TABS.get(touched.value, touched.value)
