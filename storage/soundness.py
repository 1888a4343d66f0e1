"""Whether the book still reads as it was written; one that does not is never written to."""

from contextlib import closing
from pathlib import Path
from threading import Lock

from storage.bookfile import connect
from storage.errors import OF_SQLITE, Damaged, in_words


class Soundness:
    """Looks once, when it is first asked: before the first save at the latest.

    On a connection of its own, so that it can be asked in a thread while the book is read.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._sound: bool | None = None
        self._lock = Lock()

    def demand(self) -> None:
        """Raise :class:`Damaged` if the book is damaged; look at all of it if nobody did."""
        with self._lock:
            if self._sound is None:
                self._sound = is_sound(self._path, "quick_check")
        if not self._sound:
            raise Damaged

    def is_lost(self) -> None:
        """Damage was met by somebody who read."""
        self._sound = False


def is_sound(path: Path, check: str) -> bool:
    """Run one of SQLite's checks: ``quick_check``, or ``integrity_check`` with every index too.

    It says nothing of a file cut short within a page that is not in use, nor of a view whose words
    are spoilt: those are looked at here.
    Raises what :func:`in_words` makes of a fault that is no damage.
    """
    try:
        with closing(connect(path, read_only=True)) as connection:
            found: object = connection.execute(f"PRAGMA {check}(1)").fetchone()
            (page,) = connection.execute("PRAGMA page_size").fetchone()
            views = connection.execute("SELECT name FROM sqlite_master WHERE type = 'view'")
            for (view,) in views.fetchall():
                connection.execute(f'SELECT 1 FROM "{view}" LIMIT 0')  # noqa: S608 -- ours
            return found == ("ok",) and path.stat().st_size % int(page) == 0
    except OF_SQLITE as error:
        told = in_words(error)
        if isinstance(told, Damaged):
            return False
        raise told from error
