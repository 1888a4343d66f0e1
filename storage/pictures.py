"""A picture from a file of the user's, looked at before the book keeps a copy of it."""

from pathlib import Path
from typing import Final

from domain.errors import Refused
from domain.look import Picture
from storage.users_file import read_users_file

MOST_BYTES: Final = 300_000
MOST_PIXELS: Final = 4_000
"""Each way: a small file can hold a picture that no memory does."""

_PNG = b"\x89PNG\r\n\x1a\n"
_PNG_HEAD = len(_PNG) + 16
"""Bytes up to the end of what says how wide and high a PNG is."""


def read_picture(field: str, typed: str) -> Picture:
    """Read a picture, a PNG or an SVG, from the file that was named.

    Raises :class:`Refused` for one that is not there, is too large or is of another kind; whether
    it can be drawn is for whoever draws it to say.
    """
    path = Path(typed.strip()).expanduser()
    if not path.is_absolute():
        raise Refused(field, typed, "Give all of its path, such as /home/ann/logo.png.")
    content = _content(field, typed, path)
    if content.startswith(_PNG):
        _check_pixels(field, typed, content)
    elif b"<svg" not in content:
        raise Refused(field, typed, "It is neither PNG nor SVG: save the picture as one of them.")
    return Picture(path.name, content)


def _content(field: str, typed: str, path: Path) -> bytes:
    content = read_users_file(field, path, MOST_BYTES, "a picture", typed)
    if len(content) > MOST_BYTES:
        remedy = f"Save the picture smaller: {MOST_BYTES // 1000} kB at most."
        raise Refused(field, typed, remedy)
    return content


def _check_pixels(field: str, typed: str, content: bytes) -> None:
    """Refuse what takes too much memory to draw; PNG (W3C, third edition) §11.2.1, from memory."""
    head = content[len(_PNG) + 8 : _PNG_HEAD]
    wide, high = int.from_bytes(head[:4]), int.from_bytes(head[4:])
    if max(wide, high) > MOST_PIXELS:
        remedy = f"Save the picture smaller: {MOST_PIXELS:,} pixels each way at most."
        raise Refused(field, typed, remedy)
