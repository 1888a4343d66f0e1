"""The book of all sorts, to spoil copies of."""

from pathlib import Path

import pytest

from tests.storage.all_sorts import fill
from tests.storage.books import opened, settle


@pytest.fixture(scope="session")
def all_sorts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book of jobs of every kind; it is closed."""
    path = tmp_path_factory.mktemp("all sorts") / "book.headlap"
    with opened(path) as book:
        settle(book)
        fill(book)
    return path
