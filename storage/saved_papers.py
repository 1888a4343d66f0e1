"""Papers kept as files in one folder, whichever key made them."""

import errno
import os
import re
import tempfile
import unicodedata
from itertools import count
from pathlib import Path

from domain.errors import HeadlapError, Refused
from storage.folders import book_path, documents_folder, make_own_folder

_NO_LINKS = (errno.EPERM, errno.EOPNOTSUPP, errno.ENOSYS, errno.EMLINK)
"""What a disk says that gives a file no second name, such as most sticks."""

_LONGEST = 60  # characters of a file's name


class PaperNotKept(HeadlapError):
    """The folder of papers cannot be written."""

    def __init__(self, folder: Path, reason: str) -> None:
        super().__init__(f"The paper was not saved, as {folder} cannot be written: {reason}.")


def papers_folder(book: Path) -> Path:
    """Return the folder of the papers that are saved from a book: among the owner's documents.

    What comes from any other book than their own, the demo for one, stays beside that book.
    """
    return documents_folder() if book == book_path(None) else book.parent / "papers"


def keep_paper(folder: Path, title: str, content: bytes, ending: str) -> Path:
    """Write a paper to a file named after its title, readable by its owner only.

    A file with anything else in it is never overwritten: the new one gets a number. Raises
    :class:`PaperNotKept` when the folder cannot be written.
    """
    try:
        make_own_folder(folder)
        for number in count(1):
            path = folder / f"{_file_name(title)}{f'-{number}' if number > 1 else ''}{ending}"
            if not path.exists():
                _write_all_or_nothing(path, content)
                return path
            if path.read_bytes() == content:
                return path
    except OSError as error:
        raise PaperNotKept(folder, error.strerror or "the disk refuses") from error
    raise AssertionError("counting never ends")


def write_new(what: str, path: Path, content: bytes) -> None:
    """Write a paper to a file that was named for it; ``what`` says of which kind: "PDF".

    Raises :class:`Refused` if there is one already, or if it cannot be written.
    """
    try:
        _write_all_or_nothing(path, content)
    except FileExistsError as error:
        raise Refused(
            what, path, "There is already a file of that name: choose another."
        ) from error
    except OSError as error:
        raise Refused(what, path, f"It cannot be written: {error.strerror}.") from error


def _write_all_or_nothing(path: Path, content: bytes) -> None:
    """Write a new file that its owner alone reads, all of it or, if the disk refuses, nothing.

    It is written under another name in the same folder first. Raises :class:`FileExistsError` for
    one that is there, else :class:`OSError`.
    """
    handle, name = tempfile.mkstemp(prefix=".headlap-", dir=path.parent)  # for the owner alone
    half = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        try:
            path.hardlink_to(half)  # never in place of a file that is there
        except OSError as error:
            if error.errno not in _NO_LINKS:
                raise
            path.touch(mode=0o600, exist_ok=False)
            half.replace(path)
    finally:
        half.unlink(missing_ok=True)


def _file_name(title: str) -> str:
    """The title in small letters and figures, joined by hyphens."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain)[:_LONGEST].strip("-") or "paper"
