"""The clock on the wall: the one place where the interface asks what time it is."""

from datetime import datetime


def wall_clock() -> datetime:
    """Now, by the trader's own clock; the book keeps local days."""
    return datetime.now()  # noqa: DTZ005  a job book keeps the local time of its owner
