"""Keep the hours of a forecast one by one, and the trader's working day.

A day could have one dry spell. Now it has a word for what it is, any hours that are dry, and the
hour that rain comes at. What was typed before means what it did: a dry spell on a day that was too
cold by the limit was too cold, so that is what the day is called, its low beside it. The pictures
of such rows in the journal are put into the same words, so that they can still be undone.
"""

import json
from decimal import Decimal
from typing import Any

from alembic import op
from sqlalchemy import Connection, text

from storage.migrations.columns import group, one_of, whole

revision = "0009"
down_revision = "0008"

SKIES = ("dry", "rain", "cold", "wind", "not known")
LEAST_C = Decimal(5)
"""The limit of a book that holds no details yet."""

COLUMNS = (
    f"{one_of('sky', *SKIES)} DEFAULT 'not known'",
    f"{group('dry_hours')} DEFAULT '[]'",
    whole("rain_from", 1, 23, known=False),
)
GONE = ("dry_from", "dry_until", "rain_all_day")

WORKING_DAY = (
    "work_from TEXT NOT NULL DEFAULT '07:30:00'",
    "work_until TEXT NOT NULL DEFAULT '18:00:00'",
)


def upgrade() -> None:
    """Add the columns, say in them what the old ones said, and take those out."""
    for column in WORKING_DAY:
        op.execute(f"ALTER TABLE trader ADD COLUMN {column}")
    for column in COLUMNS:
        op.execute(f"ALTER TABLE outlook ADD COLUMN {column}")
    connection = op.get_bind()
    least_c = _least_c(connection)
    _tell_rows(connection, least_c)
    _tell_pictures(connection, least_c)
    for column in GONE:
        op.execute(f"ALTER TABLE outlook DROP COLUMN {column}")


def _least_c(connection: Connection) -> Decimal:
    """The temperature above which the trader lays."""
    limits = connection.execute(text("SELECT limits FROM trader")).scalar()
    return Decimal(str(json.loads(limits).get("least_c", LEAST_C))) if limits else LEAST_C


def _tell_rows(connection: Connection, least_c: Decimal) -> None:
    for row in connection.execute(text("SELECT * FROM outlook")).mappings().all():
        told = _told(row, least_c)
        connection.execute(
            text(
                "UPDATE outlook SET sky = :sky, dry_hours = :dry_hours, rain_from = :rain_from "
                "WHERE day = :day"
            ),
            {**told, "day": row["day"]},
        )


def _tell_pictures(connection: Connection, least_c: Decimal) -> None:
    """Put the journal's pictures into the new words: only for that may they be touched."""
    guard = connection.execute(
        text("SELECT sql FROM sqlite_master WHERE name = 'journal_update'")
    ).scalar_one()
    op.execute("DROP TRIGGER journal_update")
    found = connection.execute(
        text("SELECT id, before, after FROM journal WHERE entity = 'outlook'")
    ).all()
    for key, *pictures in found:
        before, after = (_picture(each, least_c) for each in pictures)
        connection.execute(
            text("UPDATE journal SET before = :before, after = :after WHERE id = :id"),
            {"before": before, "after": after, "id": key},
        )
    connection.exec_driver_sql(guard)


def _picture(picture: str | None, least_c: Decimal) -> str | None:
    if picture is None:
        return None
    row = json.loads(picture)
    kept = {name: cell for name, cell in row.items() if name not in GONE}
    return json.dumps(kept | _told(row, least_c))


def _told(row: Any, least_c: Decimal) -> dict[str, Any]:
    """The new cells of a row of the old columns."""
    first, until = row["dry_from"], row["dry_until"]
    sky, hours, rain_from = "dry", range(0), None
    if row["rain_all_day"] or (first or 0) >= (until or 24):
        sky = "rain"
    elif first is None and until is None:
        sky = "not known"
    elif row["low_c"] is not None and Decimal(row["low_c"]) <= least_c:
        sky = "cold"
    elif first is None and until < 24:
        sky, rain_from = "rain", until
    elif (first or 0, until or 24) != (0, 24):
        hours = range(first or 0, until or 24)
    return {"sky": sky, "dry_hours": json.dumps(list(hours)), "rain_from": rain_from}
