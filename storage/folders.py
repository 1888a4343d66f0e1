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
