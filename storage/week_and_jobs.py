"""The first screen and the lists, read with the standard library alone.

Both come from the one view ``glance`` of the database, so that there is one truth; nothing heavy
is loaded, so that the week shows before the rest of the program is there.
"""

import json
import sqlite3
import unicodedata
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

from domain.job.account import invoice_label
from domain.job.job import Ending, Stage
from domain.job.on_site import BookedDay, Cover
from domain.money import Pence
from domain.trader import Trader
from domain.week import Bill, Forecast, WeekData, WeekLine
from storage.bookfile import State, connect, look_at
from storage.errors import OF_SQLITE, NotCurrent, in_words
from storage.mapping.codec import as_written, value_of

_FORECAST_DAYS = timedelta(days=21)

_UNDER_WAY = """
    SELECT * FROM glance WHERE
        (ended IS NULL AND stage <> 'signed off') OR owed <> 0
        OR (ended IS NULL AND NOT EXISTS (SELECT 1 FROM document
            WHERE document.job_id = glance.job_id AND kind = 'invoice'))
        OR (ended IS NULL AND job_id IN (SELECT job_id FROM snag WHERE done_on IS NULL))
        OR job_id IN (SELECT job_id FROM booking WHERE day >= :since)
        OR stripped_on >= :since OR laid_on >= :since
        OR job_id IN (SELECT job_id FROM quote WHERE sent_on >= :since)
        OR job_id IN (SELECT job_id FROM quote JOIN acceptance ON quote_id = quote.id
                      WHERE acceptance."on" >= :since)
        OR job_id IN (SELECT job_id FROM document WHERE issued_on >= :since)
    ORDER BY job_id
"""
"""Jobs that are under way, owe something or have a snag open, or had something happen since.

Money that came in has its receipt of the same day."""

_FOUND = "NOT EXISTS (SELECT 1 FROM json_each(:words) WHERE NOT instr(fold({}), value))"
_WHERE_WORDS = _FOUND.format("customer || ' ' || place || ' ' || ref")


@dataclass(frozen=True, slots=True)
class JobLine:
    """One job as the list of all of them shows it."""

    id: int
    ref: str
    place: str
    customer: str
    stage: Stage
    ended: Ending | None
    day: date | None
    """Its last booked day."""
    gross: Pence | None
    """What the quote that counts comes to, VAT included."""
    owed: Pence


def read_week(path: Path, today: date, monday: date | None = None) -> WeekData:
    """Return what the week of a Monday is made from, by default the one that holds today.

    Raises :class:`NotCurrent` if the book has to be opened first.
    """
    monday = monday or today - timedelta(days=today.weekday())
    since = min(monday, today)
    with _open(path) as connection:
        lines = connection.execute(_UNDER_WAY, {"since": since.isoformat()})
        forecasts = connection.execute(
            "SELECT * FROM outlook WHERE day BETWEEN ? AND ? ORDER BY day",
            (since.isoformat(), (max(monday, today) + _FORECAST_DAYS).isoformat()),
        )
        return WeekData(
            lines=tuple(_week_line(row) for row in lines),
            forecasts=tuple(value_of(Forecast, dict(row)) for row in forecasts),
            trader=_trader(connection),
        )


def read_trader(path: Path) -> Trader:
    """Return the trader's details. Raises :class:`NotCurrent` as :func:`read_week` does."""
    with _open(path) as connection:
        return _trader(connection)


def find_jobs(path: Path, words: str, group: Stage | Ending | None = None) -> list[JobLine]:
    """Return the jobs whose customer, place or reference hold all the words, the newest first.

    Case and accents make no difference.
    ``group`` keeps those of a stage that have not ended, or those that ended so.
    """
    column = "ended" if isinstance(group, Ending) else "CASE WHEN ended IS NULL THEN stage END"
    narrowed = f"AND {column} = :group" if group is not None else ""
    with _open(path) as connection:
        rows = connection.execute(
            f"""SELECT job_id, ref, place, customer, stage, ended, last_day, quote_gross, owed
                FROM glance WHERE {_WHERE_WORDS} {narrowed} ORDER BY job_id DESC""",  # noqa: S608 -- ours
            {"words": _folded(words), "group": group},
        )
        return [_job_line(row) for row in rows]


def count_jobs(path: Path, words: str) -> Mapping[str, int]:
    """Return how many jobs with these words there are of each stage and each ending."""
    with _open(path) as connection:
        rows = connection.execute(
            f"""SELECT coalesce(ended, stage), count(*) FROM (
                    SELECT stage, ended, ref, place, customer.name AS customer FROM job
                    JOIN site ON site.id = site_id JOIN customer ON customer.id = customer_id)
                WHERE {_WHERE_WORDS} GROUP BY 1""",  # noqa: S608 -- ours
            {"words": _folded(words)},
        )
        return {row[0]: row[1] for row in rows}


def _trader(connection: sqlite3.Connection) -> Trader:
    row = connection.execute("SELECT * FROM trader").fetchone()
    return Trader() if row is None else value_of(Trader, dict(row))


@contextmanager
def _open(path: Path) -> Iterator[sqlite3.Connection]:
    if look_at(path) is not State.CURRENT:
        raise NotCurrent(path)
    try:
        connection = connect(path, read_only=True)
        try:
            connection.row_factory = sqlite3.Row
            connection.create_function("fold", 1, _fold, deterministic=True)
            connection.execute("BEGIN")  # all of it as it stood at one moment
            with as_written():
                yield connection
        finally:
            connection.close()
    except OF_SQLITE as error:
        raise in_words(error) from error


def _folded(words: str) -> str:
    return json.dumps(_fold(words).split())


def _fold(text: str) -> str:
    """The text in small letters without accents: "zoe" finds Zoë, in either way of writing ë."""
    if text.isascii():
        return text.lower()
    parts = unicodedata.normalize("NFKD", text)
    return "".join(part for part in parts if not unicodedata.combining(part)).casefold()


def _week_line(row: sqlite3.Row) -> WeekLine:
    cells = dict(row)
    hours = sum((Decimal(each) for each in json.loads(cells["hours_used"])), Decimal(0))
    return value_of(
        WeekLine,
        {**cells, "hours_used": str(hours)},
        days=tuple(
            BookedDay(date.fromisoformat(day), Decimal(booked), task, key)
            for day, booked, task, key in json.loads(cells["days"])
        ),
        open_snags=tuple(json.loads(cells["open_snags"])),
        bills=tuple(_bill(*each) for each in json.loads(cells["bills"])),
        paid=tuple((date.fromisoformat(on), pence) for on, pence in json.loads(cells["paid"])),
        cover=None if cells["cover"] is None else Cover(cells["cover"]),
    )


def _bill(*cells: Any) -> Bill:
    key, number, issued_on, due_on, gross, owed, deposit = cells
    days = date.fromisoformat(issued_on), date.fromisoformat(due_on)
    return Bill(key, invoice_label(number), *days, gross, owed, bool(deposit))


def _job_line(row: sqlite3.Row) -> JobLine:
    key, ref, place, customer, stage, ended, day, gross, owed = row
    return JobLine(
        id=key,
        ref=ref,
        place=place,
        customer=customer,
        stage=Stage(stage),
        ended=None if ended is None else Ending(ended),
        day=None if day is None else date.fromisoformat(day),
        gross=gross,
        owed=owed,
    )
