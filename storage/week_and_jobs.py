"""The first screen and the lists, read with the standard library alone.

Both come from the one view ``glance`` of the database, so that there is one truth; nothing heavy
is loaded, so that the week shows before the rest of the program is there. Which jobs they show is
asked of the table ``listed``, a short row a job, which the database itself keeps true.
"""

import json
import sqlite3
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from decimal import Decimal
from itertools import chain
from pathlib import Path
from typing import Any, NamedTuple, overload

from domain.job.booked_day import BookedDay
from domain.job.chase import Chase
from domain.job.invoice_label import invoice_label
from domain.job.on_the_roof import Cover
from domain.job.rung import Rung
from domain.job.stage import Ending, Stage
from domain.money import Pence
from domain.trader import Trader
from domain.week import Bill, Forecast, WeekData, WeekLine, monday_of
from storage.backups.second import second_backup_on
from storage.errors import no_such_job
from storage.mapping.codec import value_of
from storage.orders_due import deliveries_due, ordered_jobs
from storage.reading import reading
from storage.search_words import fold, pattern_of, that_holds
from storage.texts import without_control

_FORECAST_DAYS = timedelta(days=21)

_UNDER_WAY = """
    SELECT * FROM glance WHERE job_id IN (
        SELECT job_id FROM listed WHERE under_way
        UNION SELECT job_id FROM booking WHERE day >= :since
        UNION SELECT job_id FROM strip WHERE "on" >= :since
        UNION SELECT job_id FROM lay WHERE "on" >= :since
        UNION SELECT job_id FROM quote WHERE sent_on >= :since
        UNION SELECT job_id FROM quote JOIN acceptance ON quote_id = quote.id
              WHERE acceptance."on" >= :since
        UNION SELECT job_id FROM document WHERE issued_on >= :since
    ) ORDER BY job_id
"""
"""Jobs that are under way, owe something or have a snag open, or had something happen since.

Each part is found by an index of its own, so that what is over and paid is never looked at. Money
that came in has its receipt of the same day."""

_WAITING = "SELECT job_id, kind FROM put_off WHERE until > ?"

_STANDING = "SELECT job_id FROM listed {} ORDER BY job_id DESC LIMIT :most OFFSET :first"
_LINES = """
    SELECT job_id, ref, place, customer, stage, ended,
           (SELECT group_concat(day) FROM booking WHERE booking.job_id = glance.job_id),
           quote_gross, owed
    FROM glance WHERE job_id IN (SELECT value FROM json_each(?))
"""
_PAGE = 64
"""Rows of the list that are read at once: more than stand on most screens."""


class JobLine(NamedTuple):
    """One job as the list of all of them shows it."""

    id: int
    ref: str
    place: str
    customer: str
    stage: Stage
    ended: Ending | None
    days: tuple[date, ...]
    """Those it is or was booked for, the first first."""
    gross: Pence | None
    """What the quote that counts comes to, VAT included."""
    owed: Pence


def read_week(path: Path, today: date, first: date | None = None) -> WeekData:
    """Return what the week of today is made from, and the seven days from ``first`` on.

    Raises :class:`NotCurrent` if the book has to be opened first.
    """
    first = first or today
    since = min(first, monday_of(today))
    with reading(path) as connection:
        lines = connection.execute(_UNDER_WAY, {"since": since.isoformat()})
        forecasts = connection.execute(
            "SELECT * FROM outlook WHERE day BETWEEN ? AND ? ORDER BY day",
            (since.isoformat(), (max(first, today) + _FORECAST_DAYS).isoformat()),
        )
        trader = _trader(connection)
        return WeekData(
            lines=tuple(_week_line(row) for row in lines),
            forecasts=tuple(value_of(Forecast, dict(row)) for row in forecasts),
            trader=trader,
            put_off=frozenset(map(tuple, connection.execute(_WAITING, (today.isoformat(),)))),
            ordered=ordered_jobs(connection, today),
            deliveries=deliveries_due(connection, today),
            second_backup_on=second_backup_on(path, trader.backup_folder),
        )


def read_trader(path: Path) -> Trader:
    """Return the trader's details. Raises :class:`NotCurrent` as :func:`read_week` does."""
    with reading(path) as connection:
        return _trader(connection)


class FoundJobs(Sequence[JobLine]):
    """Jobs that were found, the newest first; the lines of a screenful are read when first needed.

    Raises :class:`Refused` for a line that no longer is as it was found.
    """

    def __init__(
        self,
        path: Path,
        counts: Mapping[str, int],
        group: Stage | Ending | None,
        keys: Sequence[int] | None = None,
    ) -> None:
        """``keys`` are the ids of the jobs, as they are to stand: None for all of the group."""
        self._path = path
        self.counts = counts
        """How many jobs the words find of each stage and each ending, whichever are listed."""
        self._group = group
        self._keys = keys
        self._count = sum(counts.values()) if group is None else counts.get(group, 0)
        self._pages: dict[int, Sequence[JobLine | None]] = {}

    def __len__(self) -> int:
        return self._count

    @overload
    def __getitem__(self, row: int) -> JobLine: ...
    @overload
    def __getitem__(self, row: slice) -> Sequence[JobLine]: ...
    def __getitem__(self, row: int | slice) -> JobLine | Sequence[JobLine]:
        """The line of a row, read with those around it."""
        if isinstance(row, slice):
            return [self[each] for each in range(len(self))[row]]
        page, place = divmod(range(len(self))[row], _PAGE)
        if page not in self._pages:
            self._pages[page] = self._read(page * _PAGE)
        line = self._pages[page][place]
        if line is None:
            raise no_such_job()
        return line

    def _read(self, first: int) -> Sequence[JobLine | None]:
        with reading(self._path) as connection:
            return self._read_by(connection, first)

    def _read_by(self, connection: sqlite3.Connection, first: int) -> Sequence[JobLine | None]:
        keys = self._standing(connection, first) if self._keys is None else self._keys[first:]
        keys = keys[:_PAGE]
        read = connection.execute(_LINES, (json.dumps(keys),))
        lines = {line.id: line for line in map(_job_line, read)}
        return [lines.get(key) for key in keys]

    def with_first_page(self, connection: sqlite3.Connection) -> "FoundJobs":
        """Read at once what is shown first: to open the book again takes longer."""
        self._pages[0] = self._read_by(connection, 0)
        return self

    def _standing(self, connection: sqlite3.Connection, first: int) -> Sequence[int]:
        """The ids from a row on, unless jobs came or went since: every row would be another."""
        which = "" if self._group is None else "WHERE state = :state"
        given = {"state": self._group and self._group.value, "most": _PAGE, "first": first}
        (count,) = connection.execute(f"SELECT count(*) FROM listed {which}", given).fetchone()  # noqa: S608 -- ours
        if count != len(self):
            raise no_such_job()
        return [key for (key,) in connection.execute(_STANDING.format(which), given)]


def find_jobs(path: Path, words: str, group: Stage | Ending | None = None) -> FoundJobs:
    """Return the jobs whose customer, place or reference hold all the words, the newest first.

    Case and accents make no difference, nor do control characters: what is saved has none.
    ``group`` keeps those of a stage that have not ended, or those that ended so.
    """
    wanted = fold(without_control(words)).split()[::-1]  # the last tells most: the others stood
    with reading(path) as connection:
        if not wanted:
            counted = connection.execute("SELECT state, count(*) FROM listed GROUP BY state")
            found = FoundJobs(path, dict(map(tuple, counted)), group)
            return found.with_first_page(connection)
        of_each = connection.execute(
            f"""SELECT +state, json_group_array(job_id) FROM listed NOT INDEXED
                WHERE {that_holds(len(wanted))} GROUP BY +state""",  # noqa: S608 -- ours
            {"patterns": json.dumps([pattern_of(word) for word in wanted])},
        )
        keys: dict[str, list[int]] = {state: json.loads(ids) for state, ids in of_each}
        counts = {state: len(ids) for state, ids in keys.items()}
        listed = chain.from_iterable(keys.values()) if group is None else keys.get(group, ())
        newest_first = sorted(listed, reverse=True)
        return FoundJobs(path, counts, group, newest_first).with_first_page(connection)


def _trader(connection: sqlite3.Connection) -> Trader:
    row = connection.execute("SELECT * FROM trader").fetchone()
    return Trader() if row is None else value_of(Trader, dict(row))


def _week_line(row: sqlite3.Row) -> WeekLine:
    cells = dict(row)
    unsent = set(json.loads(cells["unsent_invoices"]))
    hours = sum((Decimal(each) for each in json.loads(cells["hours_used"])), Decimal(0))
    return value_of(
        WeekLine,
        {**cells, "hours_used": str(hours)},
        days=tuple(
            BookedDay(date.fromisoformat(day), Decimal(booked), task, key)
            for day, booked, task, key in json.loads(cells["days"])
        ),
        rung=tuple(_rung(*each) for each in json.loads(cells["rung"])),
        open_snags=tuple(json.loads(cells["open_snags"])),
        chased=tuple(_chase(*each) for each in json.loads(cells["chased"])),
        bills=tuple(_bill(*each, unsent) for each in json.loads(cells["bills"])),
        paid=tuple((date.fromisoformat(on), pence) for on, pence in json.loads(cells["paid"])),
        statements=tuple(
            (date.fromisoformat(on), pence) for on, pence in json.loads(cells["statements"])
        ),
        cover=None if cells["cover"] is None else Cover(cells["cover"]),
    )


def _rung(day: str, on: str, forecast: str, key: int) -> Rung:
    days = date.fromisoformat(day), date.fromisoformat(on)
    return Rung(*days, forecast, key)


def _chase(document_id: int, on: str, until: str, promised: int, key: int, further: int) -> Chase:
    days = date.fromisoformat(on), date.fromisoformat(until)
    return Chase(document_id, *days, bool(promised), key, bool(further))


def _bill(*cells: Any) -> Bill:
    key, number, issued_on, due_on, gross, owed, deposit, cis, unsent = cells
    days = date.fromisoformat(issued_on), date.fromisoformat(due_on)
    return Bill(
        key,
        invoice_label(number),
        *days,
        gross,
        owed,
        bool(deposit),
        number,
        number in unsent,
        cis,
    )


def _job_line(row: sqlite3.Row) -> JobLine:
    key, ref, place, customer, stage, ended, days, gross, owed = row
    return JobLine(
        id=key,
        ref=ref,
        place=place,
        customer=customer,
        stage=Stage(stage),
        ended=None if ended is None else Ending(ended),
        days=tuple(sorted(map(date.fromisoformat, (days or "").split(",") if days else ()))),
        gross=gross,
        owed=owed,
    )
