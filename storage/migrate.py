"""Bring a book up to date: a verified copy first, then every step that is missing, or none."""

from datetime import datetime
from pathlib import Path

from sqlalchemy import Engine

from storage.backups.copying import back_up_into, make_folder
from storage.backups.names import backups_folder
from storage.bookfile import State
from storage.errors import Damaged

_MIGRATIONS = Path(__file__).parent / "migrations"


def bring_up_to_date(path: Path, state: State, engine: Engine, now: datetime) -> None:
    """Make a new book, or bring an older one up to date after copying it.

    The steps that are missing are taken in one transaction, each with its record: a fault leaves
    the book as it was. ``engine`` takes the lock when it begins a transaction. Raises
    :class:`storage.errors.Damaged` if the book is not sound, :class:`storage.errors.NotBackedUp`.
    """
    if state is State.OLDER:
        _back_up(path, now)
    with engine.begin() as connection:  # waits for another program that does the same
        _run_steps(connection)


def _back_up(path: Path, now: datetime) -> None:
    folder = backups_folder(path)
    make_folder(folder)
    back_up_into(folder, path, now)


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
