"""The rows of a book by what they are of, read by plain SQL on a connection of its own."""

import sqlite3
from typing import Any, TypeAlias

Rows: TypeAlias = dict[Any, dict[tuple[str, Any], tuple[Any, ...]]]
"""For each job and list the rows that are its own, by table and key."""

_OF_QUOTE = "(SELECT job_id FROM quote WHERE quote.id = quote_id)"
OF_A_JOB = {
    "job": "id",
    **dict.fromkeys(
        ("survey", "quote", "booking", "rung", "strip", "extra", "lay", "usage", "snag", "signoff",
         "caution_note", "note", "to_send", "document", "payment", "chase"),
        "job_id",
    ),
    "option": _OF_QUOTE,
    "acceptance": _OF_QUOTE,
    "line": "(SELECT job_id FROM quote JOIN option ON quote.id = quote_id"
            " WHERE option.id = option_id)",
    # Credit from another job of the customer may settle it: what changes is the invoice's job.
    "allocation": "(SELECT job_id FROM document WHERE document.id = document_id)",
    "stock_move": "coalesce(job_id, 'stock')",
}  # fmt: skip
"""What of each table says which job a row is of."""
OF_A_LIST = {
    "price": "prices",
    "trader": "your details",
    "outlook": "forecasts",
    "merchant": "stock",
    "purchase": "books",
    "money_back": "books",
    "miles": "books",
}
PEOPLE = "people"
OF_ANY_JOB = {"customer": PEOPLE, "site": PEOPLE}
APART = {"action", "journal", "listed", "own_backup"}
"""What is told of the jobs, and not theirs."""

ISSUED = ("document", "payment", "allocation")


def rows_of(connection: sqlite3.Connection) -> Rows:
    """Every row of every job and list."""
    rows: Rows = {}
    named = {name: f"'{of}'" for name, of in (OF_A_LIST | OF_ANY_JOB).items()}
    for table, of in (OF_A_JOB | named).items():
        for whose, *row in connection.execute(f'SELECT {of}, * FROM "{table}"'):  # noqa: S608 -- ours
            rows.setdefault(whose, {})[table, row[0]] = tuple(row)
    return rows


def issued(rows: Rows) -> set[tuple[Any, ...]]:
    """The rows of which others hold a paper: what was sent, issued or paid."""
    held: set[tuple[Any, ...]] = set()
    for own in rows.values():
        sent = {key[1] for key, row in own.items() if key[0] == "quote" and row[6]}
        options = {k[1] for k, row in own.items() if k[0] == "option" and row[1] in sent}
        parts = {"quote": (0, sent), "option": (0, options), "line": (1, options)}
        for (table, _), row in own.items():
            at, keys = parts.get(table, (0, set()))
            if table in ISSUED or row[at] in keys:
                held.add((table, *row))
    return held
