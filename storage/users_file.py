"""A file that the user names: read as far as it may go, and never waited for."""

import stat
from pathlib import Path

from domain.errors import Refused


def read_users_file(field: str, path: Path, most: int, of: str, typed: object) -> bytes:
    """Return the content of a regular file, a byte more than ``most`` of one that is larger.

    ``of`` is what it should hold: "a survey". Raises :class:`Refused`, with what was ``typed``, for
    a folder, a pipe or a device, and for what cannot be read.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):  # a pipe would be waited for, a device has no end
            raise Refused(field, typed, f"It is not a file: name the file of {of}.")
        with path.open("rb") as file:
            return file.read(most + 1)
    except OSError as error:
        raise Refused(field, typed, f"It cannot be read: {error.strerror}.") from error
    except (ValueError, RuntimeError):  # no path can be so
        raise Refused(field, typed, "Give the path of a file that can be read.") from None
