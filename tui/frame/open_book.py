"""The open book, the calendar on the wall, and the one way a screen reaches either."""

import asyncio
import threading
from collections.abc import Callable
from contextlib import suppress
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar
from uuid import uuid4

from domain.days.calendar import working_day
from domain.errors import HeadlapError
from storage.backups.daily import back_up_of_the_day
from storage.backups.second import copy_to_second
from storage.week_and_jobs import read_trader
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
        await asyncio.to_thread(lambda: self._opened().demand_sound())

    async def back_up(self) -> None:
        """Make the backup of the day, on a connection of its own, while the person goes on.

        Raises :class:`storage.errors.DamagedNotBackedUp`, :class:`storage.errors.NotBackedUp`.
        """
        await asyncio.to_thread(back_up_of_the_day, self.path, self.now())
        threading.Thread(target=self._copy_to_second, daemon=True).start()

    def _copy_to_second(self) -> None:
        """Copy the backup elsewhere; a folder on a network that hangs holds up nobody."""
        with suppress(HeadlapError):
            folder = read_trader(self.path).backup_folder
            if folder:
                copy_to_second(self.path, folder, self.now())

    async def fold_in(self) -> None:
        """Write every save into the one file; of a book that nobody opened yet there is none."""
        book = self._book
        if book is not None:
            await asyncio.to_thread(book.fold_in)

    def close(self) -> None:
        """Close the book, if it was ever opened."""
        with self._lock:
            if self._book is not None:
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
            return self._book
