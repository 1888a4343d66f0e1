"""The wall clock: the one place where the interface asks what day and time it is."""

from datetime import datetime


def wall_clock() -> datetime:
    """Return the local date and time, without a time zone: the book keeps the trader's own days."""
    return datetime.now()  # noqa: DTZ005  a job book keeps the local time of its owner
