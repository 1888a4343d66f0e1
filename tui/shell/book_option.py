"""The option ``--book``: the book that a command works on."""

from pathlib import Path
from typing import TYPE_CHECKING

from domain.errors import Refused

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_book(parser: "ArgumentParser", default: object) -> None:
    """Give a command the option; ``default`` is :class:`Path` for the program itself."""
    parser.add_argument(
        "--book",
        type=Path,
        metavar="FILE",
        default=None if default is Path else default,
        help="work on this book instead of your own",
    )


def book_of(options: "Namespace") -> Path:
    """Return the file of the book that a command names, as :func:`book_at` does."""
    return book_at(options.book)


def book_at(given: Path | None) -> Path:
    """Return the file of the book: the one given, or the trader's own.

    Raises :class:`Refused` for a home that is not there.
    """
    from storage.folders import book_path

    try:
        path = book_path(given)
    except RuntimeError as error:
        raise Refused("book", given, "There is no home folder of that name.") from error
    return path if path.name else path.absolute()


def must_exist(book: Path) -> None:
    """Raise :class:`Refused` if there is no book, :class:`NoBook` if there are backups of one."""
    if not book.exists():
        from storage.backups.names import has_backups
        from storage.errors import NoBook

        if has_backups(book):
            raise NoBook(book)
        raise Refused("book", book, "There is no book there yet; start headlap once to begin one.")
