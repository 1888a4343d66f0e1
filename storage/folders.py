"""Where things are kept on this machine."""

from pathlib import Path


def book_path(option: str | Path | None) -> Path:
    """Return the file named on the command line, else the book in the user's own data folder.

    That is ``~/.local/share/headlap`` or ``$XDG_DATA_HOME/headlap`` on Linux, its like on macOS
    and Windows.
    """
    if option is not None:
        return Path(option).expanduser()
    from platformdirs import user_data_path  # not needed when a book is named

    return user_data_path("headlap", appauthor=False) / "headlap.db"


def documents_folder() -> Path:
    """Return the folder ``Headlap`` among the user's documents."""
    from platformdirs import user_documents_path  # only needed once a paper is printed

    return user_documents_path() / "Headlap"


def make_own_folder(folder: Path) -> None:
    """See to it that a folder is there; what is made of it and above it is its owner's alone.

    The system's own way gives those above to everybody. Raises :class:`OSError`.
    """
    missing = [each for each in (folder, *folder.parents) if not each.exists()]
    for each in reversed(missing):
        each.mkdir(mode=0o700, exist_ok=True)
    folder.mkdir(exist_ok=True)  # refused by what is there and no folder
