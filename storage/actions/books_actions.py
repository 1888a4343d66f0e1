"""The year's books: purchases and miles. Nothing of them is deleted; what is wrong is put right."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal

from domain.books.margin import Paid
from domain.books.miles import Miles, demand_by_the_mile, demand_drivable
from domain.books.money_back import MoneyBack
from domain.books.purchase import Purchase, demand_allowed, demand_can_come_back
from domain.books.quarter import Books
from domain.days.calendar import show_date
from domain.errors import Refused
from domain.money import show_money
from domain.quantity import show_quantity
from domain.scope import ListName
from domain.tax.years import TaxYear
from storage.books_read import (
    YearsBooks,
    goes_by_the_mile,
    purchase_of,
    purchases_of,
    read_books,
    read_paid,
    read_years_books,
)
from storage.database import Database
from storage.mapping.codec import cells_of, value_of
from storage.queries import read_trader
from storage.rows import MilesRow, MoneyBackRow, PurchaseRow, TraderRow
from storage.tables import Tables
from storage.transaction import Transaction

_THE_TRADER = 1


class BooksActions(Database):
    """They have one history of their own."""

    def years_books(self, today: date) -> YearsBooks:
        """Return the books of this tax year and the two before it, and the miles proposed."""
        with self._reading() as session:
            return read_years_books(Tables(session), today)

    def books_with_vat(self, year: TaxYear) -> Books:
        """Return the books of a tax year, with the VAT that each sum received holds."""
        with self._reading() as session:
            return read_books(Tables(session), year.first, year.last, with_vat=True)

    def paid_for(self, job_id: int | None) -> Paid:
        """Return what was bought for a job, or as a material at all, and driven for the job."""
        with self._reading() as session:
            return read_paid(Tables(session), job_id)

    def bought_for(self, job_id: int | None) -> Paid:
        """Return what was bought for a job, and nothing else."""
        with self._reading() as session:
            tables = Tables(session)
            return Paid(purchases_of(tables, tables.read(PurchaseRow, job_id=job_id)))

    def save_purchase(self, purchase: Purchase, ref: str, today: date) -> Purchase:
        """Save a purchase, or what was put right of one; ``ref`` is that of its job, or empty.

        Raises :class:`domain.errors.Refused` for a job that is not in the book and for what is no
        expense, :class:`storage.errors.Changed` if it was written meanwhile.
        """
        with self._acting(f"purchase at {purchase.merchant} saved", ListName.BOOKS) as work:
            there = replace(
                purchase, job_id=_job_of(work.tables, ref), back=_back_of(work, purchase)
            )
            demand_allowed(there, today, by_the_mile=goes_by_the_mile(work.tables))
            return purchase_of(work.tables, work.keep(PurchaseRow, there, without="back"))

    def save_money_back(self, back: MoneyBack, today: date) -> Purchase:
        """Save money that came back of a purchase, or what was put right of it.

        Raises :class:`domain.errors.Refused` for a day ahead or before the purchase and for more
        than is left of it, :class:`storage.errors.Changed` if it was written meanwhile.
        """
        words = f"{show_money(back.pence)} back from the merchant saved"
        with self._acting(words, ListName.BOOKS) as work:
            bought = purchase_of(work.tables, back.purchase_id)
            demand_can_come_back(back, bought, today)
            work.keep(MoneyBackRow, back)
            return purchase_of(work.tables, back.purchase_id)

    def save_miles(self, miles: Sequence[Miles], today: date) -> None:
        """Save the miles of one trip or several at once, or what was put right of them.

        Raises :class:`domain.errors.Refused` for a day to come and over 1,000 miles a day,
        :class:`domain.errors.NotNow` while costs of the vehicle are recorded as expenses,
        :class:`storage.errors.Changed` if one was written meanwhile.
        """
        with self._acting(_told(miles), ListName.BOOKS) as work:
            if any(each.miles for each in miles):
                demand_by_the_mile(_purchases(work))
            for each in miles:
                of_day = work.rows(MilesRow, on=each.on.isoformat())
                known = [value_of(Miles, row.cells()) for row in of_day]
                demand_drivable(each, known, today)
                work.keep(MilesRow, each)

    def switch_headings(self, *, on: bool) -> None:
        """Keep expenses under the headings of the update, or as one sum."""
        words = "expenses by heading" if on else "expenses as one sum"
        with self._acting(words, ListName.BOOKS) as work:
            trader = replace(read_trader(work.tables), expense_headings=on)
            work.put(TraderRow(id=_THE_TRADER, **cells_of(trader, "version")), _THE_TRADER)


def _purchases(work: Transaction) -> list[Purchase]:
    return [value_of(Purchase, row.cells()) for row in work.rows(PurchaseRow)]


def _back_of(work: Transaction, purchase: Purchase) -> tuple[MoneyBack, ...]:
    """What came back of a purchase as the book has it now."""
    return () if purchase.id is None else purchase_of(work.tables, purchase.id).back


def _job_of(tables: Tables, ref: str) -> int | None:
    """The job of a reference; None for none. Raises :class:`Refused`."""
    if not ref:
        return None
    found = tables.first("SELECT id FROM job WHERE ref = ?", ref.zfill(4))
    if found is None:
        raise Refused("job", ref, "Give the number of a job in the book, or stock.")
    return int(found)


def _told(miles: Sequence[Miles]) -> str:
    days = sorted({each.on for each in miles})
    driven = show_quantity(sum((each.miles for each in miles), Decimal(0)))
    more = "" if len(days) == 1 else f" to {show_date(days[-1])}"
    return f"{driven} miles of {show_date(days[0])}{more} saved"
