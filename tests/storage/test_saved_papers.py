"""Where papers are kept, and that none is lost under another."""

import errno
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from domain.errors import HeadlapError, Refused
from storage.folders import book_path
from storage.saved_papers import keep_paper, papers_folder, write_new
from tests.storage.test_faults import no_room


def test_what_is_saved_from_ones_own_book_lies_among_ones_documents(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platformdirs.user_documents_path", lambda: tmp_path / "Documents")
    assert papers_folder(book_path(None)) == tmp_path / "Documents" / "Headlap"
    other = tmp_path / "other.db"
    assert papers_folder(other) == tmp_path / "papers"


def test_a_paper_never_takes_the_place_of_another(tmp_path: Path) -> None:
    folder = tmp_path / "Documents" / "Headlap"
    contents = [b"one", b"two", b"one", b"three"]
    kept = [keep_paper(folder, "Site sheet 0421", each, ".pdf").name for each in contents]
    numbered = ["site-sheet-0421.pdf", "site-sheet-0421-2.pdf", "site-sheet-0421-3.pdf"]
    assert kept == [numbered[0], numbered[1], numbered[0], numbered[2]]
    assert [(folder / name).read_bytes() for name in numbered] == [b"one", b"two", b"three"]


@pytest.mark.parametrize(
    "keep",
    [
        lambda folder: write_new("PDF", folder / "quote.pdf", bytes(5000)),
        lambda folder: keep_paper(folder, "Quote", bytes(5000), ".pdf"),
    ],
)
def test_a_paper_half_written_on_a_full_disk_leaves_nothing(
    tmp_path: Path, keep: Callable[[Path], object]
) -> None:
    with no_room(1000), pytest.raises(HeadlapError):
        keep(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_paper_that_was_named_is_its_owners_alone(tmp_path: Path) -> None:
    usual = os.umask(0)
    try:
        write_new("PDF", tmp_path / "quote.pdf", b"the quote")
    finally:
        os.umask(usual)
    (only,) = tmp_path.iterdir()
    assert oct(only.stat().st_mode & 0o777) == "0o600"
    assert only.read_bytes() == b"the quote"


def test_a_disk_without_second_names_keeps_a_paper_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(Path, "hardlink_to", refuse)
    write_new("PDF", tmp_path / "quote.pdf", b"the quote")
    with pytest.raises(Refused, match="already a file of that name"):
        write_new("PDF", tmp_path / "quote.pdf", b"another")
    (only,) = tmp_path.iterdir()
    assert only.read_bytes() == b"the quote"
