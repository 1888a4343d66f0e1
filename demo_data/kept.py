"""The book laid out today, kept in the checkout's own virtual environment and copied from there.

Laying it out takes seconds, since it goes through every action of the user. It is kept only where
``make`` put the environment into the checkout; a program that was installed leaves nothing behind.
"""

import hashlib
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from datetime import date, datetime
from pathlib import Path

_ROOT = Path(__file__).resolve().parents[1]
_MADE_FROM = ("demo_data", "domain", "storage")
"""The folders whose code or story a laid-out book depends on."""


def keeping_place(root: Path = _ROOT) -> Path | None:
    """The folder that books are kept in; None unless the environment is inside the checkout."""
    prefix = Path(sys.prefix).resolve()
    if sys.prefix == sys.base_prefix or root not in prefix.parents:
        return None
    return prefix / "share" / "headlap"


def kept_name(day: date, root: Path = _ROOT) -> str:
    """A file name that another day, or a change in what the book is made from, makes another."""
    seen = hashlib.sha256()
    for path in sorted(_sources(root)):
        found = path.stat()
        seen.update(f"{path.relative_to(root)} {found.st_size} {found.st_mtime_ns}\n".encode())
    return f"demo-{day.isoformat()}-{seen.hexdigest()[:16]}.db"


def fetch(kept: Path, book: Path) -> bool:
    """Copy the kept book to ``book``; False, and nothing there, if it cannot be."""
    try:
        shutil.copyfile(kept, book)
    except OSError:
        book.unlink(missing_ok=True)
        return False
    return True


def keep(book: Path, kept: Path) -> None:
    """Keep a copy of a closed book, whole or not at all, in the stead of all kept before.

    It is written under another name first. A folder that cannot be written or a full disk only
    means that the next demo is laid out again.
    """
    with suppress(OSError):
        kept.parent.mkdir(parents=True, exist_ok=True)
        for old in kept.parent.glob("demo-*.db*"):
            old.unlink(missing_ok=True)
        handle, half = tempfile.mkstemp(prefix=f"{kept.name}.", dir=kept.parent)
        try:
            with os.fdopen(handle, "wb") as copy:
                copy.write(book.read_bytes())
                copy.flush()
                os.fsync(copy.fileno())
            Path(half).replace(kept)
        finally:
            Path(half).unlink(missing_ok=True)


def open_demo(book: Path, now: datetime, place: Path | None) -> None:
    """Make the demo's book at ``book``: from the one kept at ``place`` today, or laid out now."""
    kept = place / kept_name(now.date()) if place else None
    if kept and fetch(kept, book):
        return
    from demo_data.layout import lay_out_book
    from demo_data.story import Story

    lay_out_book(book, Story.read(), now)
    if kept:
        keep(book, kept)


def _sources(root: Path) -> Iterator[Path]:
    for folder in _MADE_FROM:
        for path in (root / folder).rglob("*"):
            if path.suffix in {".py", ".toml"}:
                yield path
