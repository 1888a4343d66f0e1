"""What was typed and not saved, kept beside the book in case the window goes: raw, never checked.

One file a window, for its owner alone; it goes when everything is saved or thrown away on purpose.
"""

import json
import os
import tempfile
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any

from domain.errors import HeadlapError
from domain.page_names import PageName
from storage.marks import mark_of_book, mark_of_job

_MIDDLE = ".typing-"


@dataclass(frozen=True, slots=True)
class KeptTyping:
    """What was typed into one form."""

    form: str
    """What the form is called: "survey", "New enquiry"."""
    called: str
    """The reference and place of its job; empty if it is of none."""
    job_id: int | None
    page: str
    """The page of the job it was typed into or asked for from; empty if it is of none."""
    values: Mapping[str, str]
    """As typed, by the id of the field; only those that were changed."""
    words: str
    """The same as people read it: "Length 2.4 m, Span 6 ft"."""
    is_dialog: bool = False
    """Whether it was a question on top of the page: it cannot be opened by itself."""
    job_mark: str = ""
    """By what its job is known again: the number alone may be another job's by now."""
    book_mark: str = ""
    """By what its book is known again; empty if nothing had been saved in it."""

    @property
    def told(self) -> str:
        """The form and what was typed into it."""
        return f"{self.form}: {self.words}"


def still_belongs(kept: KeptTyping, book: Path) -> bool:
    """Whether the book is the one it was typed in, and its job is still there under its number.

    What cannot be known does not belong: typing is never put into another job.
    """
    try:
        if kept.job_id is None:
            return kept.book_mark in ("", mark_of_book(book))
        job = mark_of_job(book, kept.job_id)
    except HeadlapError:
        return False
    return job is not None and job.mark == kept.job_mark != ""


def keep_typing(book: Path, kept: Sequence[KeptTyping]) -> None:
    """Keep what this window holds unsaved, in place of what it held before; nothing, if nothing.

    Raises :class:`OSError` if it cannot be written; what was kept before then stays.
    """
    path = _file_of(book, os.getpid())
    if not kept:
        path.unlink(missing_ok=True)
        return
    handle, name = tempfile.mkstemp(prefix=".headlap-", dir=path.parent)  # for the owner alone
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            json.dump([asdict(each) for each in kept], file)
        Path(name).replace(path)
    finally:
        Path(name).unlink(missing_ok=True)


def take_over_typing(book: Path) -> tuple[KeptTyping, ...]:
    """Take over what windows that are gone left unsaved; a file that cannot be read is passed by.

    It is kept as this window's before their files go, so that none is lost; where it cannot be
    written, as on a full disk, they stay for the next start.
    """
    found: list[KeptTyping] = []
    files: list[Path] = []
    for path in sorted(book.parent.glob(f"{_escaped(book.name)}{_MIDDLE}*")):
        pid = path.name.rpartition("-")[2]
        if not pid.isdigit() or _is_running(int(pid)):
            continue
        with suppress(OSError, ValueError, TypeError, KeyError, AttributeError):
            found += [_made_from(each) for each in json.loads(path.read_text("utf-8"))]
            files.append(path)
    with suppress(OSError):
        keep_typing(book, found)
        for path in files:
            if path != _file_of(book, os.getpid()):
                path.unlink(missing_ok=True)
    return tuple(found)


def _made_from(plain: Mapping[str, Any]) -> KeptTyping:
    """What a file holds of one form; an error of Python's own if it is something else."""
    kept = KeptTyping(**plain)
    if kept.page:
        PageName(kept.page)
    return replace(
        kept,
        job_id=None if kept.job_id is None else int(kept.job_id),
        values={str(key): str(text) for key, text in kept.values.items()},
    )


def _file_of(book: Path, pid: int) -> Path:
    return book.with_name(f"{book.name}{_MIDDLE}{pid}")


def _escaped(name: str) -> str:
    """The name with nothing in it that a pattern would read."""
    return "".join(f"[{sign}]" if sign in "*?[" else sign for sign in name)


def _is_running(pid: int) -> bool:
    """Whether another window with this number is open; this one's own number says nothing."""
    if pid == os.getpid():
        return False
    if os.name == "nt":  # there the signal below would end it; two windows are then offered both
        return False
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True
