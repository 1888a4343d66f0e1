"""Papers kept as plain text in a folder beside the book."""

import re
import unicodedata
from itertools import count
from pathlib import Path

from domain.errors import HeadlapError

_LONGEST = 60  # characters of a file's name


class PaperNotKept(HeadlapError):
    """The folder of papers cannot be written."""

    def __init__(self, folder: Path, reason: str) -> None:
        super().__init__(f"The paper was not saved, since {folder} cannot be written: {reason}.")


def papers_folder(book: Path) -> Path:
    """Return the folder of the papers that were saved from a book."""
    return book.parent / "papers"


def keep_paper(folder: Path, title: str, text: str) -> Path:
    """Write a paper to a file named after its title, readable by its owner only.

    A file with other words in it is never overwritten: the new one gets a number. Raises
    :class:`PaperNotKept` when the folder cannot be written.
    """
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        for number in count(1):
            path = folder / f"{_file_name(title)}{f'-{number}' if number > 1 else ''}.txt"
            if not path.exists():
                path.touch(mode=0o600)
                path.write_text(text, encoding="utf-8", newline="\n")
                return path
            if path.read_bytes() == text.encode():
                return path
    except OSError as error:
        raise PaperNotKept(folder, error.strerror or "the disk refuses") from error
    raise AssertionError("counting never ends")


def _file_name(title: str) -> str:
    """The title in small letters and figures, joined by hyphens."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain)[:_LONGEST].strip("-") or "paper"
