"""The folder of a job: whatever the trader puts there. Pictures in it count as its photographs."""

import os
from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Final

from domain.errors import HeadlapError
from domain.job import Job
from storage.folders import book_path, documents_folder, make_own_folder

_PICTURES: Final = (".jpg", ".jpeg", ".png", ".heic", ".heif", ".webp", ".tif", ".tiff", ".dng")
"""How the files end that telephones and cameras write."""
_NOT_IN_A_NAME: Final = frozenset('<>:"/\\|?*')
"""What a name of a folder cannot hold on one system or another."""
_LONGEST: Final = 40


class FolderNotMade(HeadlapError):
    """The folder of a job cannot be made."""

    def __init__(self, folder: Path, reason: str) -> None:
        super().__init__(f"{folder} was not made, as it cannot be written: {reason}.")


def job_folder(book: Path, job: Job) -> Path:
    """The folder of a job, there or not: by its number it is found again when its place changes.

    It lies among the owner's documents; that of another book than their own, the demo for one,
    beside that book.
    """
    folder = _jobs_folder(book)
    there = next(_of_number(folder, job.ref), None)
    place = "".join(" " if sign in _NOT_IN_A_NAME else sign for sign in job.site.place)
    name = " ".join(f"{job.ref} {place}".split())[:_LONGEST].rstrip(" .")
    return there or folder / name


def made_job_folder(book: Path, job: Job) -> Path:
    """The folder of a job, made if it was not there.

    Raises :class:`FolderNotMade` where it cannot be made.
    """
    folder = job_folder(book, job)
    try:
        make_own_folder(folder)
    except OSError as error:
        raise FolderNotMade(folder, error.strerror or "the disk refuses") from error
    with suppress(OSError):  # the names in it tell where customers live
        folder.parent.chmod(0o700)
    return folder


def photographs_of(book: Path, job: Job) -> int:
    """How many pictures lie in the folder of a job; a folder that cannot be read holds none."""
    try:
        with os.scandir(job_folder(book, job)) as found:
            return sum(each.name.lower().endswith(_PICTURES) for each in found)
    except OSError:
        return 0


@cache
def _jobs_folder(book: Path) -> Path:
    """Where the folders of a book's jobs lie: asked once, not at each turn of a job."""
    return documents_folder() / "Jobs" if book == book_path(None) else book.parent / "jobs"


def _of_number(folder: Path, ref: str) -> Iterator[Path]:
    try:
        with os.scandir(folder) as found:
            names = sorted(each.name for each in found if each.name.split(" ")[0] == ref)
    except OSError:
        return
    for name in names:
        yield folder / name
