"""The page about the book names every table, every system, and the ways back."""

import re
from pathlib import Path

from sqlmodel import SQLModel

from storage.backups.names import backup_name, backups_folder
from storage.rows import TableRow
from tests.architecture.sources import ROOT
from tests.storage.books import NOW

PAGE = (ROOT / "docs" / "book.md").read_text(encoding="utf-8")


def test_every_table_is_on_the_page_once_and_no_other() -> None:
    assert TableRow.__subclasses__()
    named = re.findall(r"^\| `(\w+)` \| \w", PAGE, re.MULTILINE)
    assert sorted(named) == sorted(SQLModel.metadata.tables)


def test_the_page_says_where_backups_lie_and_how_they_are_named() -> None:
    book = Path("share") / "headlap.db"
    assert f"`{backups_folder(book).name}`" in PAGE
    assert f"`{backup_name(book, NOW)}`" in PAGE
