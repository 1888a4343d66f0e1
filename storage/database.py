"""The open book underneath its actions: one connection, one transaction an action, faults told."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path
from threading import RLock
from typing import Any, Self

from sqlalchemy import ColumnElement, Engine, create_engine, event
from sqlalchemy.engine import Connection
from sqlalchemy.exc import DBAPIError, SQLAlchemyError
from sqlalchemy.pool import StaticPool
from sqlmodel import Session, col

from domain.job import Job
from domain.scope import ListName, Scope
from storage import bookfile
from storage.backups.names import has_backups
from storage.bookfile import State, connect, look_at, make_private
from storage.errors import OF_SQLITE, Changed, Damaged, Gone, NoBook, NotKept, in_words
from storage.mapping.codec import Record
from storage.migrate import bring_up_to_date
from storage.remembered_rows import RememberedRows
from storage.rows import ActionRow, JobRow, TableRow
from storage.same_file import Found, SameFile
from storage.soundness import Soundness
from storage.tables import Tables
from storage.texts import without_control
from storage.transaction import Transaction

_WRITES = {"writes": True}


class JobTransaction(Transaction):
    """An action on one job, whose row was found as it was read."""

    def __init__(self, work: Transaction, row: JobRow, job_id: int) -> None:
        super().__init__(work.tables, work.action_id)
        self._work = work
        self.row = row
        self.job_id = job_id

    def _note(self, row: TableRow, before: Record | None, after: Record | None) -> None:
        """The job gets its version with the first thing written, and is read back with it."""
        if not self.has_written:
            self.has_written = self._work.has_written = True
            self.touch(self.row)
        super()._note(row, before, after)


class Database:
    """What the actions of the book stand on. Any thread may ask; one is served at a time."""

    def __init__(
        self, path: Path, engine: Engine, now: Callable[[], datetime], window: str
    ) -> None:
        """``engine`` has the file at ``path`` open, and brought up to date."""
        self._path = path
        self._engine = engine
        self._now = now
        self._window = window
        self._lock = RLock()
        self._unfolded = True
        with engine.connect() as connection:
            connection.exec_driver_sql("SELECT 1 FROM sqlite_master")  # all its files are there
            last = connection.exec_driver_sql("SELECT coalesce(max(id), 0) FROM action")
            self._done_before: int = last.scalar_one()
            driver: Any = connection.connection.dbapi_connection
            self._driver: sqlite3.Connection = driver
        self._remembered = RememberedRows(self._driver)
        self._file = SameFile(path, self._saves_of_others)
        self._soundness = Soundness(path)

    @classmethod
    def open(
        cls,
        path: Path,
        now: Callable[[], datetime],
        *,
        window: str = "",
        begin_again: bool = False,
    ) -> Self:
        """Open the book of a file, make it if it is not there, bring it up to date if it is old.

        ``now`` is the clock by which the journal is kept, ``window`` a name that no other window
        has: one never undoes what another did since it opened the book. Raises what
        :mod:`storage.errors` names, with the file left as it was: :class:`NoBook` for a file that
        is not there, or empty, beside backups of it, unless the person chose to ``begin_again``
        at number 1.
        """
        with faults_in_words():
            state = look_at(path)
            if state is State.NEW and not begin_again and has_backups(path):
                raise NoBook(path)
            make_private(path)
            engine = _engine(path)
            try:
                if state is not State.CURRENT:
                    bring_up_to_date(path, state, engine.execution_options(**_WRITES), now())
                _read_while_others_write(engine)
                book = cls(path, engine, now, window)
            except BaseException:
                engine.dispose()
                raise
        book.fold_in()
        return book

    def close(self) -> None:
        """Close the file; what was saved stays saved."""
        with self._lock:
            self.fold_in()
            self._unfolded = False  # nobody is to open it again for that
            self._file.let_go()
            self._engine.dispose()

    def fold_in(self) -> None:
        """Write every save into the one file, so that a plain copy of it holds them all.

        Nothing is waited for: while another window reads or writes, or the disk refuses, the saves
        stay where they are safe as well, and it is done the next time.
        """
        with self._lock, suppress(DBAPIError, *OF_SQLITE):
            if not self._unfolded:
                return
            found = self._file.look()
            if found is not Found.OVERWRITTEN:
                self._unfolded = not _folded(self._engine)
            if found is Found.SAME:
                self._file.note()

    def demand_sound(self) -> None:
        """Look at all of the book, once. Raises :class:`Damaged`; nothing is saved from then on."""
        self._soundness.demand()

    @contextmanager
    def _told(self) -> Iterator[None]:
        """Turn faults into sentences, and remember damage."""
        try:
            with faults_in_words():
                yield
        except Damaged:
            self._soundness.is_lost()
            raise

    @contextmanager
    def _reading(self) -> Iterator[Session]:
        """Read, all of it as it stood at one moment."""
        with self._lock, self._told(), Session(self._engine) as session:
            yield session

    @contextmanager
    def _acting(self, words: str, of: Scope | None) -> Iterator[Transaction]:
        """Write one action of the person, in one transaction: all of it is saved or nothing.

        ``words`` say in the journal what was done, ``of`` to what: None begins a new job. What
        changes nothing is no action: nothing is written, and there is nothing to undo.
        """
        with self._saving(), _all_or_nothing(self._driver, self._remembered):
            tables = Tables(self._driver, self._remembered)
            whose = next_job_id(tables) if of is None else of
            action = {
                "id": None,
                "at": self._now().isoformat(timespec="seconds"),
                "words": without_control(words),
                "undone_at": None,
                "job_id": None if isinstance(whose, ListName) else whose,
                "list_name": whose.value if isinstance(whose, ListName) else None,
                "made_in": self._window,
                "follows": _last_standing(tables, whose),
            }
            number = tables.add(ActionRow, action)
            work = Transaction(tables, number)
            yield work
            if not work.has_written:
                self._driver.rollback()
                self._remembered.forget_all()
                return
        self._file.saved((number, str(action["at"]), str(action["words"])))

    def _is_of_another_window(self, action: ActionRow) -> bool:
        """Whether another window made it since this one opened the book."""
        return action.made_in != self._window and (action.id or 0) > self._done_before

    @contextmanager
    def _writing(self) -> Iterator[Session]:
        """Write through the mapper, in one transaction that takes the lock at once."""
        engine = self._engine.execution_options(**_WRITES)
        with self._saving(), Session(engine, autoflush=False) as session:
            yield session
            session.commit()

    @contextmanager
    def _saving(self) -> Iterator[None]:
        """See to it that the book can be saved into, and do so alone."""
        with self._lock, self._told():
            self._see_that_it_is_there()
            self._soundness.demand()
            yield
            self._unfolded = True

    def _saves_of_others(self) -> int:
        """A number that changes when another program has saved into the book, and only then."""
        with self._engine.connect() as connection:
            return int(connection.exec_driver_sql("PRAGMA data_version").scalar_one())

    def _see_that_it_is_there(self) -> None:
        """Raise :class:`Gone` if the file is no longer the one that was opened."""
        if self._file.look() is not Found.SAME:
            self.fold_in()  # what was saved goes with the file, wherever it is now
            raise Gone(self._path)

    @contextmanager
    def _on_job(self, job: Job, what: str) -> Iterator[JobTransaction]:
        """Write one action on a job as it was read.

        ``what`` is a clause, such as "survey saved". Raises :class:`Changed` if anything recorded
        of the job was written since.
        """
        with self._acting(_on_what(job, what), job.id or 0) as work:
            row = work.get(JobRow, job.id)
            if row is None or row.id is None or row.version != job.version:
                raise Changed
            yield JobTransaction(work, row, row.id)


def is_of(of: Scope) -> ColumnElement[bool]:
    """The condition that an action is of a job or a list."""
    if isinstance(of, ListName):
        return col(ActionRow.list_name) == of.value
    return col(ActionRow.job_id) == of


def next_job_id(tables: Tables) -> int:
    """Return the number that the next new job gets: one that no job ever had."""
    return int(tables.first("SELECT seq FROM sqlite_sequence WHERE name = 'job'") or 0) + 1


def _last_standing(tables: Tables, of: Scope) -> int:
    """Return the last action of a job or a list that is not undone; 0 if there is none."""
    column, whose = ("list_name", of.value) if isinstance(of, ListName) else ("job_id", of)
    wanted = f"SELECT max(id) FROM action WHERE {column} = ? AND undone_at IS NULL"  # noqa: S608 -- ours
    return int(tables.first(wanted, whose) or 0)


def _on_what(job: Job, what: str) -> str:
    """What was done, as undo and the journal tell it: ``0041 Birch Lane, survey saved``."""
    return f"{job.ref} {job.site.place}".rstrip() + f", {what}"


@contextmanager
def _all_or_nothing(driver: sqlite3.Connection, remembered: RememberedRows) -> Iterator[None]:
    """One transaction that takes the lock at once; rolled back by the user, it stays so."""
    driver.execute("BEGIN IMMEDIATE")
    try:
        remembered.begin()
        yield
        remembered.end()  # while nobody else can write: after the commit another may have
        driver.commit()
    except BaseException:
        driver.rollback()
        remembered.forget_all()
        raise


def _read_while_others_write(engine: Engine) -> None:
    """Keep the journal of the file beside it, outside of any transaction.

    SQLite waits for nobody here: while another program opens the same new book it is locked, and
    that program does the same for all.
    """
    with engine.connect() as connection:
        try:
            connection.connection.execute("PRAGMA journal_mode = WAL")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_BUSY:
                raise


def _folded(engine: Engine) -> bool:
    """Fold the -wal file in; whether nothing is left in it."""
    with engine.connect() as connection:
        driver = connection.connection
        driver.execute("PRAGMA busy_timeout = 0")
        try:
            busy, _, _ = driver.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        finally:
            driver.execute(f"PRAGMA busy_timeout = {int(bookfile.BUSY_SECONDS * 1000)}")
    return not busy


@contextmanager
def faults_in_words() -> Iterator[None]:
    """Turn every fault of the database into a sentence, here and nowhere else."""
    try:
        yield
    except DBAPIError as error:
        raise in_words(error.orig or error) from error
    except OF_SQLITE as error:
        raise in_words(error) from error
    except SQLAlchemyError as error:  # a row is missing, or is there twice
        raise Damaged from error
    except OverflowError as error:
        raise NotKept("a number is too large") from error
    except UnicodeEncodeError as error:
        raise NotKept("a text holds half a character") from error


def _engine(path: Path) -> Engine:
    engine = create_engine("sqlite://", creator=lambda: connect(path), poolclass=StaticPool)

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        # Left to itself the driver begins late and lets CREATE TABLE outlive a rollback. A writer
        # takes the lock at once, so that what it reads first is still so when it writes.
        writes = connection.get_execution_options().get("writes")
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine
