"""Backups: all there are, the newest first, and what restoring the one in front would mean."""

import asyncio
from functools import partial
from pathlib import Path
from typing import ClassVar

from rich.text import Text
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.errors import HeadlapError
from domain.quantity import plural
from domain.signs import Sign
from domain.tone import Tone
from storage.backups.everywhere import Backup, all_backups, holding_of
from storage.backups.holding import Holding, holding_of_book
from storage.backups.lost import Lost, lost_by_restoring
from storage.checking import check_book
from storage.errors import NewerBook
from tui.frame.commands import key_of
from tui.frame.safe_text import one_line, shortened
from tui.frame.screen import BaseScreen
from tui.frame.unhurried import unhurried
from tui.lists.backup_lines import BackupTitles, backup_line
from tui.lists.backup_words import (
    also_holds,
    lost_lines,
    moment,
    numbers_lost,
    others_lost,
)
from tui.lists.restore_dialog import restore_dialog
from tui.widgets.line_list import LineList

_NONE = f"No backups yet. Press {key_of('backups', 'back_up')} to make one."


_TOLD = ("job", "quote", "invoice", "receipt")
"""What a check that finds nothing counts."""
_BESIDE = 118
"""Columns from which what restoring means stands beside the list."""


class BackupsScreen(BaseScreen):
    """Enter asks whether the one under the cursor is to be restored."""

    place: ClassVar[str] = "backups"
    title_words: ClassVar[str] = "backups"
    CSS = """
    BackupsScreen #both { height: 1fr; margin: 0 2; }
    BackupsScreen.-wide #both { layout: horizontal; }
    BackupsScreen #all { height: 1fr; }
    BackupsScreen.-wide #all { width: 78; height: 1fr; }
    BackupsScreen #none { color: $quiet; display: none; }
    BackupsScreen #front { height: auto; max-height: 60%; margin-bottom: 1; }
    BackupsScreen.-narrow #front { border-top: solid $line; }
    BackupsScreen.-wide #front { width: 1fr; max-height: 100%; padding: 0 0 0 3; }
    """

    def __init__(self) -> None:
        super().__init__()
        self.HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (_BESIDE, "-wide")]
        self._backups: tuple[Backup, ...] = ()
        self._holdings: dict[Backup, Holding | str] = {}
        self._lost: dict[Backup, Lost | None] = {}
        self._sought: set[Backup] = set()

    def body(self) -> list[Widget]:
        """Return the list, and beside or below it what the one in front means."""
        rows = Vertical(BackupTitles(), Static(Content(_NONE), id="none"), LineList(), id="all")
        return [Container(rows, Static(id="front"), id="both")]

    def on_mount(self) -> None:
        """Put the cursor on the newest."""
        self.query_one(LineList).focus()

    async def reload(self) -> None:
        """List what lies beside the book; the rest follows as it is read."""
        self._lost.clear()
        self._sought.clear()
        path = self.open_book.path
        self.query_one(BackupTitles).now = await asyncio.to_thread(_holding_now, path)
        self._show(await asyncio.to_thread(all_backups, path, ""))
        self.in_background(self._look_further())

    def action_open(self) -> None:
        """Ask whether to restore the one under the cursor."""
        self.query_one(LineList).action_choose()

    def action_back_up(self) -> None:
        """Back up the book now, here and in the second folder."""
        self.save_in_worker(self._backed_up())

    def action_check(self) -> None:
        """Look through all of the book."""
        self.in_worker(self._checked())

    def on_resize(self) -> None:
        """Have what stands beside or below the list fit."""
        self.call_after_refresh(self._show_front)

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Show what restoring the one in front would mean."""
        event.stop()
        self._show_front()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Ask whether to restore the backup in the row, once it is known what would be lost."""
        event.stop()
        self.in_worker(self._ask(self._backups[event.row]))

    def _show(self, backups: tuple[Backup, ...]) -> None:
        """Show these; the cursor stays on the backup it is on."""
        rows = self.query_one(LineList)
        front = self._front()
        self._backups = backups
        rows.show(len(backups), self._draw)
        if front in backups:
            rows.cursor = backups.index(front)
        self.query_one("#none").display = not backups
        self._show_front()

    def _front(self) -> Backup | None:
        row = self.query_one(LineList).cursor
        return self._backups[row] if row < len(self._backups) else None

    async def _look_further(self) -> None:
        """Read the second folder, which may take its time, and what each backup holds."""
        path = self.open_book.path
        self._show(await unhurried(lambda: all_backups(path, self.open_book.second_folder)))
        for backup in self._backups:
            if backup not in self._holdings:
                self._holdings[backup] = await unhurried(partial(_told_holding, backup))
                self.query_one(LineList).refresh()
                if backup == self._front():
                    self._show_front()

    def _show_front(self) -> None:
        """Show what is lost by restoring the one in front; find it out if it is not known."""
        backup, shown = self._front(), self.query_one("#front", Static)
        shown.display = backup is not None
        if backup is None:
            return
        shown.update(self._meaning(backup))
        if backup not in self._sought:
            self._sought.add(backup)
            self.in_background(self._find_lost(backup))

    async def _find_lost(self, backup: Backup) -> None:
        lost = await unhurried(lambda: _lost(self.open_book.path, backup))
        self._lost[backup] = lost
        if self._front() == backup:
            self.query_one("#front", Static).update(self._meaning(backup))

    def _meaning(self, backup: Backup) -> Content:
        """What restoring it would mean, the numbers that would be used twice first."""
        lost = self._lost.get(backup)
        loses = lost is not None and not lost.is_nothing
        title = ("Restoring it would lose\n" if loses else "Restoring it\n", "bold $ink")
        if isinstance(self._holdings.get(backup), str):
            return Content.assemble(title, ("It cannot be restored: choose another.", "$caution"))
        if backup not in self._lost:
            return Content.assemble(title, ("Looking what would be lost…", "$quiet"))
        numbers = numbers_lost(lost) if lost is not None else ""
        others = lost_lines(lost) if not numbers or lost is None else others_lost(lost)
        parts: list[tuple[str, str]] = [title]
        if numbers:
            parts.append((f"{Sign.CAUTION} {numbers}\n", "$caution"))
        told = (*others, *also_holds(lost))
        parts += [(f"{self._fitting(words)}\n", "$ink") for words in told]
        return Content.assemble(*parts).rstrip()

    def _fitting(self, words: str) -> str:
        """Below the list each sentence has one line; the question shows all of it."""
        if self.size.width >= _BESIDE:
            return one_line(words)
        return shortened(words, self.query_one("#both").size.width)

    async def _ask(self, backup: Backup) -> None:
        if not self.program.may_leave_all():
            return
        lost = await unhurried(lambda: _lost(self.open_book.path, backup))

        async def restore() -> None:
            kept.append(await self.open_book.restore(backup.files))

        def told(restored: bool | None) -> None:
            if restored:
                done = _told_restored(backup, *kept)
                self.app.call_later(self.program.begin_restored, done)

        kept: list[Path | None] = []
        self.app.push_screen(restore_dialog(backup, lost, restore), told)

    async def _backed_up(self) -> None:
        at = await self.open_book.back_up_now()
        await self.reload()
        self.query_one(LineList).cursor = 0
        self.say(f"Backed up: {moment(at)}.")
        self.in_background(self._copied(f"Backed up: {moment(at)}."))

    async def _copied(self, told: str) -> None:
        folder = self.open_book.second_folder
        if not folder:
            return
        if await self.open_book.copy_to_second():
            await self._look_further()
            self.say(f"{told} It lies in the second folder too.")
        else:
            told = f"{told} Not in {folder}: it is not there, or cannot be written."
            self.say(told, Tone.CAUTION)

    async def _checked(self) -> None:
        self.say("Looking through all of the book…", Tone.QUIET)
        found = await asyncio.to_thread(check_book, self.open_book.path)
        if found.faults:
            first, *more = found.faults
            rest = f" {len(more)} more: headlap check tells them all." if more else ""
            self.say(f"{first}{rest}", Tone.STOP)
        else:
            counts = (
                f"{n} {what if n == 1 else plural(what)}"
                for what, n in found.counts
                if what in _TOLD
            )
            self.say(f"Nothing is wrong: {', '.join(counts)}.")

    def _draw(self, row: int, width: int) -> Text:
        backup = self._backups[row]
        return backup_line(backup, self._holdings.get(backup), width, self.palette)


def _holding_now(path: Path) -> Holding | None:
    try:
        return holding_of_book(path)
    except HeadlapError:
        return None


def _told_holding(backup: Backup) -> Holding | str:
    """What it holds, or why that cannot be told."""
    try:
        return holding_of(backup)
    except NewerBook:
        return "written by a newer Headlap"
    except HeadlapError:
        return "cannot be read"


def _lost(path: Path, backup: Backup) -> Lost | None:
    """What would be lost; None if it cannot be told."""
    for file in backup.files:
        try:
            return lost_by_restoring(path, file)
        except HeadlapError:
            continue
    return None


def _told_restored(backup: Backup, kept: Path | None) -> str:
    done = f"Restored: {moment(backup.at)}."
    if kept is None:
        return done
    return f"{done} The book that was there is {kept.parent.name}/{kept.name}."
