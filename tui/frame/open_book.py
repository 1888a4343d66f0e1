"""The open book, the calendar on the wall, and the one way a screen reaches either."""

import asyncio
import threading
from collections.abc import Callable, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar
from uuid import uuid4

from domain.days.calendar import bank_holidays, working_day
from domain.errors import HeadlapError
from storage.backups.names import made_at
from storage.backups.second import copy_to_second
from storage.reading import keep_open, let_go
from storage.week_and_jobs import read_trader
from tui.frame.garbage import keep_what_is_loaded
from tui.frame.unhurried import unhurried
from tui.frame.wall_clock import wall_clock

if TYPE_CHECKING:
    from storage.book import Book

T = TypeVar("T")


class OpenBook:
    """Opens the book when it is first needed, and runs what is asked of it away from the screen."""

    def __init__(
        self, path: Path, now: Callable[[], datetime] = wall_clock, *, begin_again: bool = False
    ) -> None:
        """``path`` is the book; ``now`` the clock, passed in so that tests stand still.

        ``begin_again``: a book that is missing beside its backups is begun afresh.
        """
        self.path = path
        self._begin_again = begin_again
        self._window = uuid4().hex
        self.now = now
        self._book: Book | None = None
        self._lock = threading.Lock()
        self.knows_holidays = False
        """Whether what knows the bank holidays is loaded: it takes too long for the first look."""
        self._backed_up_on = self.today
        """The day of the last backup that was tried: the first is tried at the start."""

    @property
    def today(self) -> date:
        """Today, by the clock on the wall."""
        return self.now().date()

    def working_day(self, day: date, by: int) -> date:
        """The trader's working day after a day, or before it for a negative ``by``."""
        trader = read_trader(self.path)
        return working_day(day, by, trader.working_days, trader.nation)

    async def ask(self, question: Callable[["Book"], T]) -> T:
        """Ask the book in a thread: ``await open_book.ask(lambda book: book.job(7))``.

        What the book refuses (:class:`domain.errors.HeadlapError`) is raised here.
        """
        return await asyncio.to_thread(lambda: question(self._opened()))

    async def warm_up(self) -> None:
        """Load what the first action will need while the person is still reading.

        The book is then looked through for damage, which is raised as
        :class:`storage.errors.Damaged`.
        """
        await asyncio.to_thread(self._warm)

    def _warm(self) -> None:
        self._opened().demand_sound()
        bank_holidays(read_trader(self.path).nation, self.today.year)
        self.knows_holidays = True
        keep_what_is_loaded()

    @property
    def is_open(self) -> bool:
        """Whether the book is open by now: to ask it takes no loading."""
        return self._book is not None

    async def back_up(self) -> None:
        """Make the backup of the day, on a connection of its own, while the person goes on.

        Raises :class:`storage.errors.DamagedNotBackedUp`, :class:`storage.errors.NotBackedUp`.
        """
        from storage.backups.daily import back_up_of_the_day  # not needed at the first paint

        self._backed_up_on = self.today
        await asyncio.to_thread(back_up_of_the_day, self.path, self.now())
        await self.copy_to_second()

    async def back_up_of_a_new_day(self) -> None:
        """As :meth:`back_up`, if the day is another than that of the last: midnight is past."""
        if self.today != self._backed_up_on:
            await self.back_up()

    async def back_up_now(self) -> datetime:
        """Make a backup, whatever was made today; returns the time by which it is named.

        Raises as :meth:`back_up` does.
        """
        from storage.backups.daily import back_up  # not needed at the first paint

        made = await asyncio.to_thread(back_up, self.path, self.now())
        return made_at(made.name, self.path) or self.now()

    async def copy_to_second(self) -> bool:
        """Copy the newest backup to the second folder; whether it is there, or none is wanted."""
        return await unhurried(self._copied_to_second)

    def _copied_to_second(self) -> bool:
        folder = self.second_folder
        return not folder or copy_to_second(self.path, folder, self.now())

    @property
    def second_folder(self) -> str:
        """The second folder of backups; empty for none, or if the book cannot be read."""
        try:
            return read_trader(self.path).backup_folder
        except HeadlapError:
            return ""

    async def restore(self, files: Sequence[Path]) -> Path | None:
        """Close the book and put a backup in its place, the first of its files that is sound.

        It is opened again when it is next asked. Returns where the book that was there is kept.
        Raises what :func:`storage.backups.restoring.restore` does; the book is then as it was.
        """
        return await asyncio.to_thread(self._restored, files)

    def _restored(self, files: Sequence[Path]) -> Path | None:
        from storage.backups.restoring import restore_either  # not needed at the first paint

        with self._lock:  # whoever asks meanwhile asks the new one
            self._close()
            return restore_either(self.path, files, self.now())

    async def fold_in(self) -> None:
        """Write every save into the one file; of a book that nobody opened yet there is none."""
        book = self._book
        if book is not None:
            await asyncio.to_thread(book.fold_in)

    def close(self) -> None:
        """Close the book, if it was ever opened."""
        with self._lock:
            self._close()

    def _close(self) -> None:
        if self._book is not None:
            let_go(self.path)
            self._book.close()
            self._book = None

    def _opened(self) -> "Book":
        with self._lock:
            if self._book is None:
                from storage.book import (
                    Book,  # SQLModel takes half a second: not at the first paint
                )

                self._book = Book.open(
                    self.path, self.now, window=self._window, begin_again=self._begin_again
                )
                keep_open(self.path)
            return self._book
