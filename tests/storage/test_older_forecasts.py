"""Forecasts of an older book: they mean what they meant, and what was saved can be undone."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from domain.days.forecast_line import show_token
from domain.days.weather import Verdict, window
from domain.scope import ListName
from domain.trader import Trader
from storage.book import Book
from tests.storage.books import opened, query, undo
from tests.storage.test_older_books import book_of_version

DAY = date(2026, 6, 24)
WITH_ONE_SPELL = 8
"""The last version in which a day had one dry spell at most."""


def row(**cells: Any) -> dict[str, Any]:
    """A row as that version wrote it; nothing is known but the cells given."""
    unknown = {"dry_from": None, "dry_until": None, "rain_all_day": 0}
    figures = dict.fromkeys(("low_c", "wind_mph", "gust_mph"))
    return {"day": DAY.isoformat(), **unknown, **figures, "version": 1} | cells


def typed(path: Path, *rows: dict[str, Any]) -> Path:
    """A book in which these rows were saved one after the other, by an action each."""
    book_of_version(path, WITH_ONE_SPELL)
    before = None
    for n, now in enumerate(rows, start=1):
        query(
            path,
            f"INSERT INTO action VALUES ({n}, '2026-06-20T19:00:00', 'forecast saved', NULL, NULL,"  # noqa: S608 -- no one's words
            f" 'forecasts', '', {n - 1})",
        )
        images = ", ".join(f"'{json.dumps(each)}'" if each else "NULL" for each in (before, now))
        query(path, f"INSERT INTO journal VALUES ({n}, {n}, 'outlook', {images})")  # noqa: S608
        before = now
    cells = ", ".join(json.dumps(each).replace('"', "'") for each in rows[-1].values())
    names = ", ".join(rows[-1])
    query(path, f"INSERT INTO outlook ({names}) VALUES ({cells})")  # noqa: S608 -- no one's words
    return path


def of_the_day(book: Book) -> str:
    return "".join(show_token(each) for each in book.forecasts(DAY, DAY))


@pytest.mark.parametrize(
    ("cells", "token", "words"),
    [
        ({}, "?", ""),
        ({"rain_all_day": 1, "gust_mph": "21.5"}, "rg21.5", "rain"),
        ({"dry_from": 0, "dry_until": 24, "low_c": "7"}, "d/7", "dry 7½–18"),
        ({"dry_from": 9, "dry_until": 16}, "d9-16", "dry 9–16"),
        ({"dry_until": 11}, "r11", "dry 7½–11"),
        ({"dry_from": 11, "wind_mph": "14.5"}, "d11-24@14.5", "dry 11–18"),
        ({"dry_from": 9, "dry_until": 16, "low_c": "3"}, "c/3", "cold 3 °C"),
        ({"dry_from": 9, "dry_until": 9}, "r", "rain"),
    ],
)
def test_an_older_forecast_means_what_it_meant(
    path: Path, cells: dict[str, Any], token: str, words: str
) -> None:
    typed(path, row(**cells))
    with opened(path) as book:
        assert of_the_day(book) == token
        (kept,) = book.forecasts(DAY, DAY)
        found = window(DAY, kept, Trader())
        assert found.words == words
        assert (found.verdict is Verdict.POOR) == (words in ("rain", "cold 3 °C"))


def test_what_was_saved_before_can_be_undone(path: Path) -> None:
    typed(path, row(dry_from=9, dry_until=16), row(rain_all_day=1, version=2))
    with opened(path) as book:
        assert of_the_day(book) == "r"
        undo(book, ListName.FORECASTS)
        assert of_the_day(book) == "d9-16"
        undo(book, ListName.FORECASTS)
        assert of_the_day(book) == ""
        with pytest.raises(Exception, match="only ever added to"):
            query(path, "UPDATE journal SET before = NULL")
