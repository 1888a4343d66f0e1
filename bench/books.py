"""Books with a long history: the demo's week on top of years of finished jobs."""

import shutil
import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path

_FIRST = """
SELECT max(coalesce((SELECT max(CAST(ref AS INTEGER)) FROM job), 0),
           coalesce((SELECT max(seq) FROM sqlite_sequence), 0),
           coalesce((SELECT max(number) FROM document), 0))
"""

_PAST = f"""
CREATE TEMP TABLE past AS
WITH RECURSIVE counted(i) AS (
    SELECT 1 UNION ALL SELECT i + 1 FROM counted WHERE i < :jobs
)
SELECT ({_FIRST}) + i AS id,
    (SELECT coalesce(max(number), 0) FROM document WHERE series = 'invoice') + i AS invoice,
    date(:today, '-' || (60 + i * 7000 / :jobs) || ' days') AS day,
    60000 + i * 37 % 90000 AS pence,
    'Past customer ' || i AS customer,
    i || ' ' || (CASE i % 3 WHEN 0 THEN 'Mill Row' WHEN 1 THEN 'Quarry Lane' ELSE 'The Green' END)
        AS place
FROM counted
"""  # noqa: S608  our own words

_JOBS = (
    "INSERT INTO customer (id, name, kind, address, phone, email, version, kind_asked)"
    " SELECT id, customer, 'householder', '', '', '', 1, 1 FROM past",
    "INSERT INTO site SELECT id, id, place, place, '', '', 1 FROM past",
    """INSERT INTO job (id, ref, site_id, stage, ended, ended_why, materials_in_hand, received_on,
                        said, building, nominal, rough, visit_on, visit_at, version)
       SELECT id, printf('%04d', id), id, 'signed off', NULL, '', 1, day, '', 'shed', '8 x 6 ft',
              pence, day, NULL, 1 FROM past""",
    "INSERT INTO quote SELECT id, id, 1, day, 0, 0, NULL, NULL, '' FROM past",
    """INSERT INTO option (id, quote_id, covering, colour, basis, gross)
       SELECT id, id, 'square-butt', 'slate grey', '', pence FROM past""",
    "INSERT INTO line SELECT id, id, 'labour', 'Strip and lay', '1', '', 0, pence, '0' FROM past",
    "UPDATE quote SET sent_on = drafted_on, holds_until = date(drafted_on, '30 days')"
    " WHERE id IN (SELECT id FROM past)",
    """INSERT INTO acceptance (quote_id, option_id, who, "on", means, made_at, notice_on,
                               early_request_on, knows_right_ends)
       SELECT id, id, customer, day, 'signed', 'at the customer''s home', day, NULL, 0 FROM past""",
    "INSERT INTO booking SELECT id, id, day, '7', '' FROM past",
    """INSERT INTO strip (job_id, "on", found, cover, waste_kg, waste_to, transfer_note)
       SELECT id, day, '', 'laid the same day', '40', '', '' FROM past""",
    "INSERT INTO lay SELECT id, day, '[]', '12', '8', 1 FROM past",
    "INSERT INTO usage SELECT id, id, 'laying', 'hour', '7', '7', '0', '0', '0' FROM past",
    "INSERT INTO signoff SELECT id, customer, day, NULL, '' FROM past",
    """INSERT INTO document (id, job_id, series, number, kind, issued_on, tax_point, due_on, gross,
                             snapshot, refers_to)
       SELECT id, id, 'invoice', invoice, 'invoice', day, day, date(day, '14 days'), pence, '{}',
              NULL FROM past ORDER BY id""",
    "INSERT INTO payment (id, job_id, received_on, pence, method)"
    " SELECT id, id, day, pence, 'bank transfer' FROM past",
    "INSERT INTO allocation (id, payment_id, document_id, pence)"
    " SELECT id, id, id, pence FROM past",
)
"""Straight into the tables: through the actions of a user it would take hours."""


def make_book(path: Path, demo: Path, jobs: int, today: date) -> None:
    """Copy the demo's book, with so many finished and paid jobs before its week."""
    shutil.copy(demo, path)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(_PAST, {"jobs": jobs, "today": today.isoformat()})
        for statement in _JOBS:
            connection.execute(statement)
        connection.commit()
