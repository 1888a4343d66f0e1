"""Bring a book up to date: a verified copy first, then every step that is missing, or none."""

from datetime import datetime
from pathlib import Path

from sqlalchemy import Engine

from storage.bookfile import State, connect, make_private
from storage.errors import OF_SQLITE, Damaged, in_words
from storage.folders import backups_folder

_MIGRATIONS = Path(__file__).parent / "migrations"


def bring_up_to_date(path: Path, state: State, engine: Engine, now: datetime) -> None:
    """Make a new book, or bring an older one up to date after copying it.

    The steps that are missing are taken in one transaction, each with its record: a fault leaves
    the book as it was. ``engine`` takes the lock when it begins a transaction. Raises
    :class:`storage.errors.Damaged` if the copy is not sound.
    """
    if state is State.OLDER:
        back_up(path, now)
    with engine.begin() as connection:  # waits for another program that does the same
        _run_steps(connection)


def back_up(path: Path, now: datetime) -> Path:
    """Copy a book into its folder of backups and verify the copy; returns where it is."""
    copy = backups_folder(path) / f"{path.stem} {now:%Y-%m-%d %H.%M.%S}{path.suffix}"
    make_private(copy)
    try:
        source, target = connect(path, read_only=True), connect(copy)
        try:
            source.backup(target)
            sound = target.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        finally:
            source.close()
            target.close()
    except OF_SQLITE as error:
        copy.unlink()
        raise in_words(error) from error
    if not sound:
        copy.unlink()
        raise Damaged
    return copy


def _run_steps(connection: object) -> None:
    from alembic import command  # a current book never needs it
    from alembic.config import Config
    from alembic.util import CommandError

    config = Config(attributes={"connection": connection})
    config.set_main_option("script_location", str(_MIGRATIONS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    try:
        command.upgrade(config, "head")
    except CommandError as error:  # the book names a step that there never was
        raise Damaged from error
