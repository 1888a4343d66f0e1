"""What is killed: a book being made, brought up to date, backed up, or restored."""

import shutil
import sqlite3
from contextlib import closing
from datetime import timedelta
from pathlib import Path

from domain.errors import HeadlapError
from storage.backups.daily import back_up
from storage.backups.names import HALF, backups_folder, backups_in
from storage.backups.restoring import restore
from storage.bookfile import SCHEMA
from storage.errors import NotCurrent
from storage.week_and_jobs import find_jobs
from tests.storage.books import NOW, enquired, open_book, opened, query
from tests.storage.test_older_books import book_of_version
from tests.torture.kills import Trial


def _open(path: Path) -> None:
    open_book(path).close()


def _fault(path: Path, jobs: int) -> str:
    """Look at it as the first screen does, then open it and go on with it."""
    try:
        try:
            found = len(find_jobs(path, ""))
        except NotCurrent:
            found = jobs
        with opened(path) as book:
            ref = enquired(book).ref
    except HeadlapError as error:
        return f"{type(error).__name__}: {error}"
    wrong = []
    if found != jobs or ref != f"{jobs + 1:04d}":
        wrong.append(f"{found} jobs, the next one {ref}")
    if query(path, "PRAGMA integrity_check") != [("ok",)]:
        wrong.append("damaged")
    if query(path, "PRAGMA user_version") != [(SCHEMA,)]:
        wrong.append("not brought up to date")
    return ", ".join(wrong)


def making() -> Trial:
    """A new book."""
    return Trial("making", lambda path: None, _open, lambda path: _fault(path, 0))


def backed_up(folder: Path) -> Path:
    """Make, once, a folder with a book of two jobs and a backup of it from when it had one."""
    path = folder / "book.headlap"
    folder.mkdir()
    with opened(path) as book:
        enquired(book)
        back_up(path, NOW - timedelta(days=1))
        enquired(book)
    return folder


def backing_up(template: Path) -> Trial:
    """A book with a backup of the day before; ``template`` is what :func:`backed_up` made."""

    def lay_out(path: Path) -> None:
        shutil.copytree(template, path.parent, dirs_exist_ok=True)

    def fault(path: Path) -> str:
        return _fault_of_backups(path) or _fault(path, 2)

    def act(path: Path) -> None:
        back_up(path, NOW)

    return Trial("backing up", lay_out, act, fault)


def restoring(template: Path, *, damaged: bool) -> Trial:
    """A book, sound or damaged, and the backup; ``template`` is what :func:`backed_up` made."""

    def lay_out(path: Path) -> None:
        shutil.copytree(template, path.parent, dirs_exist_ok=True)
        if damaged:
            path.write_bytes(path.read_bytes()[:5000])

    def act(path: Path) -> None:
        (backup,) = backups_in(backups_folder(path), path).values()
        restore(path, backup, NOW)

    def fault(path: Path) -> str:
        found = _fault_of_backups(path)
        kept = [*backups_folder(path).iterdir()]
        if damaged and path.stat().st_size == 5000:
            return found
        jobs = query(path, "SELECT count(*) FROM job")[0][0]
        if jobs == 1 and len([each for each in kept if not each.name.startswith(HALF)]) < 2:
            found += ", the book that was there is lost"
        return found or _fault(path, jobs)

    return Trial(f"restoring over a {'damaged' if damaged else 'sound'} book", lay_out, act, fault)


def _fault_of_backups(path: Path) -> str:
    """Look at every file that has the name of a backup."""
    for backup in backups_in(backups_folder(path), path).values():
        if query(backup, "PRAGMA integrity_check") != [("ok",)]:
            return f"{backup.name} is damaged"
        if query(backup, "SELECT count(*) FROM job")[0][0] not in {1, 2}:
            return f"{backup.name} holds other jobs"
    return ""


def upgrading(template: Path, journal: str) -> Trial:
    """A book of the first version, in either way of journalling; ``template`` is made once."""
    book_of_version(template, 1)
    with closing(sqlite3.connect(template, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA journal_mode = {journal}")

    def lay_out(path: Path) -> None:
        shutil.copy(template, path)

    return Trial(
        f"upgrading {journal}",
        lay_out,
        _open,
        lambda path: _fault(path, 1),
    )
