"""The log of faults, beside the book: for its owner alone, there only once there is one to tell."""

import logging
from datetime import datetime
from pathlib import Path


def fault_log(book: Path) -> Path:
    """Where the faults that happened while a book was open are told."""
    return book.with_name("headlap-faults.log")


def log_fault(book: Path, error: Exception, now: datetime) -> None:
    """Write a fault down with all that is known of it. Raises :class:`OSError`."""
    path = fault_log(book)
    path.touch(mode=0o600)
    logger = logging.Logger("headlap")  # of its own: no library's messages reach the file
    handler = logging.FileHandler(path, encoding="utf-8")
    logger.addHandler(handler)
    try:
        logger.error(now.isoformat(timespec="seconds"), exc_info=error)
    finally:
        handler.close()
