"""Books to begin with. Those with jobs in them are made once, and copied for each test."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from storage.book import Book
from tests.storage import books
from tests.storage.all_sorts import fill


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where a book can be made: the folder is there, the file is not."""
    return tmp_path / "book.headlap"


@pytest.fixture(scope="session")
def _settled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("settled") / "book.headlap"
    with books.opened(path) as book:
        books.settle(book)
    return path


@pytest.fixture
def book(_settled: Path, path: Path) -> Iterator[Book]:
    """A book with the trader's details and the prices, and no jobs."""
    shutil.copy(_settled, path)
    with books.opened(path) as book:
        yield book


@pytest.fixture(scope="session")
def _three_laid(_settled: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("three laid") / "book.headlap"
    shutil.copy(_settled, path)
    with books.opened(path) as book:
        for place in ("Birch Lane", "The Green", "Priory Gardens"):
            books.laid(book, place)
    return path


@pytest.fixture
def three_laid(_three_laid: Path, path: Path) -> Path:
    """A book of three jobs that are laid and can be invoiced; it is closed."""
    shutil.copy(_three_laid, path)
    return path


@pytest.fixture(scope="session")
def all_sorts(_settled: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book of jobs of every kind, to copy or to read; it is closed."""
    path = tmp_path_factory.mktemp("all sorts") / "book.headlap"
    shutil.copy(_settled, path)
    with books.opened(path) as book:
        fill(book)
    return path
