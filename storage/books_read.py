"""The year's books, read from the book: money from the payments, purchases, miles, turnover."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from domain.books.margin import Paid
from domain.books.miles import Miles, Trip, proposed
from domain.books.money_back import MoneyBack
from domain.books.money_in import MoneyIn, money_in
from domain.books.purchase import Purchase
from domain.books.quarter import Books
from domain.books.watched import Supply
from domain.job import CounterEntry, Payment
from domain.tax.years import TaxYear, tax_year_of
from storage.errors import Damaged
from storage.mapping.codec import Cell, Record, as_written, value_of
from storage.rows import (
    CounterEntryRow,
    MilesRow,
    MoneyBackRow,
    PaymentRow,
    PurchaseRow,
)
from storage.tables import Tables
from storage.turnover_read import read_supplied
from storage.vat_read import read_held_vat

YEARS_BACK = 2
"""Quarterly updates hang on the income of the last two tax years and this one."""

_MONEY = """
    SELECT payment.id, customer.name, job.ref FROM payment
    JOIN job ON job.id = payment.job_id
    JOIN site ON site.id = job.site_id JOIN customer ON customer.id = site.customer_id
    WHERE payment.received_on BETWEEN ?1 AND ?2 OR payment.id IN
        (SELECT payment_id FROM counter_entry WHERE "on" BETWEEN ?1 AND ?2)
    ORDER BY payment.received_on, payment.id
"""
"""Payments that came, or of which something went back, in a stretch of days."""

_BACK_OF = 'SELECT DISTINCT purchase_id FROM money_back WHERE "on" BETWEEN ? AND ?'

_DAYS = """
    SELECT day, job_id, task FROM booking
    JOIN job ON job.id = job_id WHERE day BETWEEN ?1 AND ?2 AND job.ended IS NULL
    UNION ALL SELECT visit_on, id, 'survey' FROM job WHERE visit_on BETWEEN ?1 AND ?2
    UNION ALL SELECT "on", job_id, 'strip' FROM strip WHERE "on" BETWEEN ?1 AND ?2
    UNION ALL SELECT "on", job_id, 'lay' FROM lay WHERE "on" BETWEEN ?1 AND ?2
    UNION ALL SELECT done_on, job_id, 'snags' FROM snag WHERE done_on BETWEEN ?1 AND ?2
"""

_TRIPS = f"""
    SELECT at.day, at.job_id, site.place, at.task, (
        SELECT json_extract(option.basis, '$.miles') FROM quote
        JOIN option ON option.quote_id = quote.id WHERE quote.job_id = at.job_id
        ORDER BY quote.number DESC, option.id LIMIT 1)
    FROM ({_DAYS}) AS at
    JOIN job ON job.id = at.job_id JOIN site ON site.id = job.site_id
"""  # noqa: S608 -- ours


@dataclass(frozen=True, slots=True)
class YearsBooks:
    """All that the books' screen shows, and what its warnings hang on."""

    books: Books
    """From 6 April two tax years back."""
    proposed: tuple[Miles, ...]
    """Of the days of this tax year until today that have no miles yet."""
    jobs: Mapping[int, str]
    """Reference and place of the jobs that something was bought or driven for."""
    supplied: tuple[Supply, ...]
    """Turnover of a trader who is not registered for VAT, of the same days."""


def read_years_books(tables: Tables, today: date) -> YearsBooks:
    """Return the books of this tax year and the two before it."""
    year = tax_year_of(today)
    first = TaxYear(year.begins - YEARS_BACK).first
    books = read_books(tables, first, year.last)
    found = proposed(_trips(tables, year.first, today), books.miles, today)
    of_jobs = *(p.job_id for p in books.purchases), *(m.job_id for m in books.miles)
    named = _jobs(tables, {key for key in of_jobs if key})
    return YearsBooks(books, found, named, read_supplied(tables, first, today))


def read_books(tables: Tables, first: date, last: date, *, with_vat: bool = False) -> Books:
    """Return what came in, was bought and was driven from a day to another, both included.

    An earlier purchase of which something came back in those days is among what was bought.
    ``with_vat`` is with the VAT that each sum received holds: every invoice is read for it.
    """
    days = first.isoformat(), last.isoformat()
    return Books(
        tuple(_money(tables, first, last, with_vat=with_vat)),
        _bought(tables, *days),
        tuple(value_of(Miles, row) for row in tables.read_between(MilesRow, "on", *days)),
    )


def purchase_of(tables: Tables, key: Cell) -> Purchase:
    """Return a purchase with what came back of it. Raises :class:`Damaged` if there is none."""
    row = tables.read_one(PurchaseRow, key)
    if row is None:
        raise Damaged
    return next(iter(purchases_of(tables, [row])))


def purchases_of(tables: Tables, rows: Sequence[Record]) -> tuple[Purchase, ...]:
    """Return the purchases of rows, each with what came back of it."""
    back: dict[Cell, list[MoneyBack]] = {}
    for row in tables.read_children(MoneyBackRow, "purchase_id", [row["id"] for row in rows]):
        back.setdefault(row["purchase_id"], []).append(value_of(MoneyBack, row))
    return tuple(value_of(Purchase, row, back=tuple(back.get(row["id"], ()))) for row in rows)


def read_paid(tables: Tables, job_id: int | None) -> Paid:
    """Return the purchases of a job and those of materials, and the miles of the job."""
    bought = purchases_of(tables, tables.read(PurchaseRow))
    miles = tables.read(MilesRow, job_id=job_id)
    return Paid(
        tuple(each for each in bought if each.job_id == job_id or each.material),
        tuple(value_of(Miles, row) for row in miles),
    )


def goes_by_the_mile(tables: Tables) -> bool:
    """Tell whether miles were ever claimed: the vehicle's costs are none then, for good."""
    return bool(tables.first("SELECT 1 FROM miles WHERE CAST(miles AS REAL) > 0 LIMIT 1"))


def _bought(tables: Tables, first: str, last: str) -> tuple[Purchase, ...]:
    """What was bought in a stretch of days, or came back in them, by day."""
    rows = tables.read_between(PurchaseRow, "on", first, last)
    earlier = {key for (key,) in tables.found(_BACK_OF, first, last)} - {r["id"] for r in rows}
    return purchases_of(tables, [*tables.read_children(PurchaseRow, "id", earlier), *rows])


def _trips(tables: Tables, first: date, last: date) -> Iterator[Trip]:
    found = tables.found(_TRIPS, first.isoformat(), last.isoformat())
    with as_written():
        for day, job_id, place, task, miles in found:
            there = Decimal(str(miles or 0))
            yield Trip(date.fromisoformat(day), job_id, place, task, there)


def _money(tables: Tables, first: date, last: date, *, with_vat: bool) -> Iterator[MoneyIn]:
    whose = {
        key: (name, ref)
        for key, name, ref in tables.found(_MONEY, first.isoformat(), last.isoformat())
    }
    held = read_held_vat(tables, whose) if with_vat else {}
    entries: dict[object, list[CounterEntry]] = {}
    for row in tables.read_children(CounterEntryRow, "payment_id", whose):
        entries.setdefault(row["payment_id"], []).append(value_of(CounterEntry, row))
    for row in tables.read_children(PaymentRow, "id", whose):
        back = tuple(entries.get(row["id"], ()))
        payment = value_of(Payment, row, counter_entries=back)
        found = money_in([payment], *whose[row["id"]], held.get(row["id"]))
        yield from (each for each in found if first <= each.on <= last)


def _jobs(tables: Tables, wanted: set[int]) -> dict[int, str]:
    sql = "SELECT job.ref, site.place FROM job JOIN site ON site.id = site_id WHERE job.id = ?"
    named = {key: tables.found(sql, key) for key in wanted}
    return {key: " ".join(rows[0]) for key, rows in named.items() if rows}
