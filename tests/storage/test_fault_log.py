"""The log of faults: beside the book, its owner's alone, with all that is known of each."""

from datetime import datetime
from pathlib import Path

from storage.fault_log import fault_log, log_fault


def test_every_fault_is_in_it_with_its_hour_and_where_it_happened(tmp_path: Path) -> None:
    book = tmp_path / "book.headlap"
    for words, hour in (("one [/] thing", 19), ("another", 20)):
        log_fault(book, ValueError(words), datetime(2026, 11, 25, hour, 30))
    told = fault_log(book).read_text(encoding="utf-8")
    assert "2026-11-25T19:30:00\nValueError: one [/] thing" in told
    assert "2026-11-25T20:30:00\nValueError: another" in told
    assert oct(fault_log(book).stat().st_mode & 0o777) == "0o600"
