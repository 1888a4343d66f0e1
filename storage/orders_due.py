"""What the first screen asks of orders, with the standard library alone."""

import sqlite3
from datetime import date

from domain.week import Delivery

_ORDERED = """
    SELECT DISTINCT job_id FROM ordered_for
    WHERE settled AND job_id IN (SELECT job_id FROM booking WHERE day >= ?)
"""
_IN_STOCK = """
    SELECT job.id FROM job
    JOIN quote ON quote.job_id = job.id
    JOIN acceptance ON acceptance.quote_id = quote.id
    JOIN option ON option.id = acceptance.option_id
    WHERE job.id IN (SELECT job_id FROM booking WHERE day >= ?) AND job.ended IS NULL
        AND json_valid(option.basis) AND json_array_length(option.basis, '$.supplies') > 0
        AND NOT EXISTS (
            SELECT 1 FROM json_each(option.basis, '$.supplies')
            WHERE json_extract(value, '$.packs') > 0
        )
        AND NOT EXISTS (
            SELECT 1 FROM quote AS newer JOIN acceptance ON acceptance.quote_id = newer.id
            WHERE newer.job_id = job.id AND newer.number > quote.number
        )
"""
"""Jobs of which the quote counted on stock for everything, and keeps it reserved."""
_DELIVERIES = """
    SELECT merchant, expected_on, min(job_id), max(came > 0) FROM ordered
    JOIN ordered_for ON ordered_id = ordered.id
    WHERE came < packs AND expected_on <= ? GROUP BY merchant, expected_on ORDER BY expected_on
"""


def ordered_jobs(connection: sqlite3.Connection, today: date) -> frozenset[int]:
    """Return the jobs with a day ahead for which nothing is left to order.

    All was ordered, or all is in stock by the quote.
    """
    since = (today.isoformat(),)
    found = (connection.execute(asked, since) for asked in (_ORDERED, _IN_STOCK))
    return frozenset(key for rows in found for (key,) in rows)


def deliveries_due(connection: sqlite3.Connection, today: date) -> tuple[Delivery, ...]:
    """Return what should have come by today and is not here, or not all of it."""
    return tuple(
        Delivery(merchant, date.fromisoformat(day), key, bool(part))
        for merchant, day, key, part in connection.execute(_DELIVERIES, (today.isoformat(),))
    )
