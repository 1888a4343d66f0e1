"""What the first screen asks of orders, with the standard library alone."""

import sqlite3
from datetime import date

from domain.week import Delivery

_ORDERED = """
    SELECT DISTINCT job_id FROM ordered_for
    WHERE settled AND job_id IN (SELECT job_id FROM booking WHERE day >= ?)
"""
_DELIVERIES = """
    SELECT merchant, expected_on, min(job_id), max(came > 0) FROM ordered
    JOIN ordered_for ON ordered_id = ordered.id
    WHERE came < packs AND expected_on <= ? GROUP BY merchant, expected_on ORDER BY expected_on
"""


def ordered_jobs(connection: sqlite3.Connection, today: date) -> frozenset[int]:
    """Return the jobs with a day ahead for which nothing is left to order."""
    return frozenset(key for (key,) in connection.execute(_ORDERED, (today.isoformat(),)))


def deliveries_due(connection: sqlite3.Connection, today: date) -> tuple[Delivery, ...]:
    """Return what should have come by today and is not here, or not all of it."""
    return tuple(
        Delivery(merchant, date.fromisoformat(day), key, bool(part))
        for merchant, day, key, part in connection.execute(_DELIVERIES, (today.isoformat(),))
    )
