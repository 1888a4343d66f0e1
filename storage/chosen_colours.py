"""The colours chosen last, in a small file beside the book: known before the book is opened."""

from pathlib import Path


def kept_colours(book: Path) -> str:
    """Return the name of the colours; empty if none were chosen or they cannot be read."""
    try:
        return _file_beside(book).read_text(encoding="utf-8").strip()
    except (OSError, UnicodeDecodeError):
        return ""


def keep_colours(book: Path, name: str) -> None:
    """Write the name down. Raises :class:`OSError` where that cannot be done."""
    path = _file_beside(book)
    path.touch(mode=0o600)
    path.write_text(f"{name}\n", encoding="utf-8")


def _file_beside(book: Path) -> Path:
    return book.with_name(f"{book.name}-colours")
