"""Where papers are kept, and that none is lost under another."""

from pathlib import Path

import pytest

from storage.folders import book_path
from storage.saved_papers import keep_paper, papers_folder, prints_folder


def test_what_is_printed_from_ones_own_book_lies_among_ones_documents(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platformdirs.user_documents_path", lambda: tmp_path / "Documents")
    assert prints_folder(book_path(None)) == tmp_path / "Documents" / "Headlap"
    other = tmp_path / "other.db"
    assert prints_folder(other) == papers_folder(other) == tmp_path / "papers"


def test_a_paper_never_takes_the_place_of_another(tmp_path: Path) -> None:
    folder = tmp_path / "Documents" / "Headlap"
    contents = [b"one", b"two", b"one", b"three"]
    kept = [keep_paper(folder, "Site sheet 0421", each, ".pdf").name for each in contents]
    numbered = ["site-sheet-0421.pdf", "site-sheet-0421-2.pdf", "site-sheet-0421-3.pdf"]
    assert kept == [numbered[0], numbered[1], numbered[0], numbered[2]]
    assert [(folder / name).read_bytes() for name in numbered] == [b"one", b"two", b"three"]
