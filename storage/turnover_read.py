"""What counts for the VAT threshold, read from the invoices and the money of a stretch of days."""

from collections.abc import Iterator
from datetime import date

from domain.books.turnover import Billed, Came, Work, supplies
from domain.books.watched import Supply
from storage.tables import Tables

_WORK = """
    COALESCE((SELECT quote.deposit FROM quote JOIN acceptance ON acceptance.quote_id = quote.id
        WHERE quote.job_id = job.id ORDER BY quote.number DESC LIMIT 1), 0) > 0,
    COALESCE((SELECT "on" FROM lay WHERE job_id = job.id),
        (SELECT "on" FROM strip WHERE job_id = job.id AND job.ended IS NOT NULL))
"""
"""Whether the agreement asks for a deposit, and the day of the work; of one called off midway that
of the part that was done."""

_BILLED = f"""
    SELECT {_WORK}, document.id, document.tax_point, document.gross - COALESCE(
        (SELECT SUM(gross) FROM document AS note WHERE note.refers_to = document.id), 0)
    FROM document JOIN job ON job.id = document.job_id
    WHERE document.series = 'invoice' AND document.tax_point BETWEEN ? AND ?
"""  # noqa: S608 -- ours

_SETTLED = f"""
    SELECT {_WORK}, payment.received_on, document.id, part.pence - COALESCE((SELECT SUM(pence)
        FROM freed WHERE payment_id = payment.id AND document_id = document.id), 0)
    FROM payment JOIN allocation AS part ON part.payment_id = payment.id
    JOIN document ON document.id = part.document_id JOIN job ON job.id = document.job_id
    WHERE payment.received_on BETWEEN ? AND ?
"""  # noqa: S608 -- ours

_LIES = f"""
    SELECT {_WORK}, payment.received_on, payment.pence
        - COALESCE((SELECT SUM(pence) FROM allocation WHERE payment_id = payment.id), 0)
        + COALESCE((SELECT SUM(pence) FROM freed WHERE payment_id = payment.id), 0)
        - COALESCE((SELECT SUM(pence) FROM counter_entry WHERE payment_id = payment.id), 0) AS rest
    FROM payment JOIN job ON job.id = payment.job_id
    WHERE payment.received_on BETWEEN ? AND ? AND rest > 0 AND NOT EXISTS (
        SELECT 1 FROM document WHERE job_id = job.id AND kind = 'invoice' AND gross > COALESCE(
            (SELECT SUM(gross) FROM document AS note WHERE note.refers_to = document.id), 0))
"""  # noqa: S608 -- ours
"""What lies there once the work is invoiced is paid too much: for no supply."""


def read_supplied(tables: Tables, first: date, last: date) -> tuple[Supply, ...]:
    """Return what a trader who is not registered supplied from a day to another."""
    days = first.isoformat(), last.isoformat()
    billed = (
        Billed(key, _work(asks, done), pence, date.fromisoformat(tax_point))
        for asks, done, key, tax_point, pence in tables.found(_BILLED, *days)
    )
    return tuple(each for each in supplies(billed, _came(tables, *days)) if each.pence)


def _came(tables: Tables, *days: str) -> Iterator[Came]:
    for asks, done, on, key, pence in tables.found(_SETTLED, *days):
        yield Came(_work(asks, done), date.fromisoformat(on), pence, key)
    for asks, done, on, pence in tables.found(_LIES, *days):
        yield Came(_work(asks, done), date.fromisoformat(on), pence)


def _work(asks_first: int, done: str | None) -> Work:
    return Work(bool(asks_first), date.fromisoformat(done) if done else None)
