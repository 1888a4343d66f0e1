"""A job written straight into the tables: what no action of a user would let come to be."""

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from domain.job import Document, DocumentKind, Job, Quote
from storage.mapping.codec import cells_of
from storage.mapping.whole_job import option_row

_OF_THE_JOB = ("stage", "ended", "ended_why", "materials_in_hand", "version")
_HELD = tuple(name for name in Job.__dataclass_fields__ if name not in _OF_THE_JOB)
"""What stands in tables of its own."""
_RECKONED = ("paid", "credited", "deducted", "cis_credited", "written_off")
"""What of a document is summed up from other tables."""


def put_down(path: Path, jobs: Sequence[Job]) -> list[int]:
    """Write jobs into a book that is there already; their keys and references are the book's."""
    with closing(sqlite3.connect(path)) as connection, connection:
        return [_put_job(connection, job) for job in jobs]


def _put_job(connection: sqlite3.Connection, job: Job) -> int:
    customer = _put(connection, "customer", cells_of(job.customer, "id"))
    site = _put(connection, "site", cells_of(job.site, "id") | {"customer_id": customer})
    (jobs,) = connection.execute("SELECT count(*) FROM job").fetchone()
    cells = cells_of(job, *_HELD) | cells_of(job.enquiry)
    job_id = _put(connection, "job", cells | {"site_id": site, "ref": f"{jobs + 1:04d}"})
    if job.survey is not None:
        _put(connection, "survey", cells_of(job.survey) | {"job_id": job_id})
    for quote in job.quotes:
        _put_quote(connection, job_id, quote)
    for document in job.documents:
        _put_document(connection, job_id, document)
    _put_work(connection, job_id, job)
    return job_id


def _put_quote(connection: sqlite3.Connection, job_id: int, quote: Quote) -> None:
    """A quote with its options; the day it was sent last, which freezes it."""
    cells = cells_of(quote, "id", "version", "options", "acceptance")
    sent = {key: cells.pop(key) for key in ("sent_on", "holds_until")}
    quote_id = _put(connection, "quote", cells | {"job_id": job_id})
    for option in quote.options:
        option_id = _put(connection, "option", option_row(quote_id, option).model_dump())
        for line in option.lines:
            _put(connection, "line", cells_of(line, "id") | {"option_id": option_id})
        if quote.acceptance is not None and quote.acceptance.option_id == option.id:
            cells = cells_of(quote.acceptance) | {"option_id": option_id}
            _put(connection, "acceptance", cells | {"quote_id": quote_id})
    connection.execute(
        "UPDATE quote SET sent_on = :sent_on, holds_until = :holds_until WHERE id = :id",
        sent | {"id": quote_id},
    )


def _put_document(connection: sqlite3.Connection, job_id: int, document: Document) -> None:
    series = "receipt" if document.kind is DocumentKind.RECEIPT else "invoice"
    last = "SELECT coalesce(max(number), 0) FROM document WHERE series = ?"
    number = connection.execute(last, (series,)).fetchone()[0] + 1
    cells = cells_of(document, "id", *_RECKONED) | {
        "series": series,
        "number": number,
    }
    _put(connection, "document", cells | {"job_id": job_id})


def _put_work(connection: sqlite3.Connection, job_id: int, job: Job) -> None:
    """What was booked, done and noted."""
    for table, one in (("strip", job.stripping), ("lay", job.laying), ("signoff", job.sign_off)):
        if one is not None:
            _put(connection, table, cells_of(one, "version") | {"job_id": job_id})
    for table, values in (
        ("booking", job.days),
        ("extra", job.extras),
        ("usage", job.usages),
        ("snag", job.snags),
        ("caution_note", job.notes),
        ("note", job.own_notes),
        ("to_send", job.to_send),
    ):
        for each in values:
            _put(connection, table, cells_of(each, "id", "version") | {"job_id": job_id})


def _put(connection: sqlite3.Connection, table: str, cells: dict[str, Any]) -> int:
    """Write one row; an "id" of None is the table's to give."""
    columns = ", ".join(f'"{name}"' for name in cells)
    places = ", ".join(f":{name}" for name in cells)
    sql = f'INSERT INTO "{table}" ({columns}) VALUES ({places})'  # noqa: S608 -- the book's own names
    key = connection.execute(sql, cells).lastrowid
    assert key is not None
    return key
