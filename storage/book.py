"""The book: the only way anything is read or written while a person works.

One method for one action of the user, one transaction, kept in the journal with before and after.
Values of the domain go in and come out; what a rule refuses is raised as the domain's own error.
"""

from datetime import date

from domain.accounts.money_events import Event
from domain.checks.check import Situation
from domain.customer_record import CustomerRecord
from domain.errors import Refused
from domain.estimate.reserved import Reservation, not_reserved
from domain.estimate.stock import Price, StockLine
from domain.estimate.supplies import PricesAndStock
from domain.job import Job
from domain.known_customer import Asking, KnownCustomer
from domain.trader import Trader
from domain.week import Forecast
from storage.actions.accounts_actions import AccountActions
from storage.actions.books_actions import BooksActions
from storage.actions.enquiries_actions import EnquiryActions
from storage.actions.notes_actions import NoteActions
from storage.actions.on_site_actions import OnSiteActions
from storage.actions.orders_actions import OrderActions
from storage.actions.quotes_actions import QuoteActions
from storage.actions.settings_actions import SettingActions
from storage.actions.stages_actions import StageActions, situation_of
from storage.journal import Journal, JournalEntry
from storage.known_customers import find_customers, known_customers, read_record
from storage.ledger_read import read_money_events
from storage.queries import (
    goes_through_stock,
    read_forecasts,
    read_job,
    read_picture,
    read_prices,
    read_reservations,
    read_stock,
    read_trader,
)
from storage.tables import Tables

__all__ = ["Book", "JournalEntry"]


class Book(
    EnquiryActions,
    QuoteActions,
    StageActions,
    OnSiteActions,
    NoteActions,
    AccountActions,
    SettingActions,
    OrderActions,
    BooksActions,
    Journal,
):
    """An open book; the actions are in ``storage/actions``, by area."""

    def job(self, job_id: int) -> Job:
        """Return a job. Raises :class:`Refused` if there is none of that number."""
        with self._reading() as session:
            return read_job(Tables(session), job_id)

    def job_by_ref(self, ref: str) -> Job:
        """Return the job of a reference, "0421" or "421". Raises :class:`Refused`."""
        with self._reading() as session:
            tables = Tables(session)
            found = tables.first("SELECT id FROM job WHERE ref = ?", ref.strip().zfill(4))
            if found is None:
                raise Refused("reference", ref, "Give the number of a job in the book.")
            return read_job(tables, found)

    def situation(self, job_id: int, today: date) -> Situation:
        """Return a job with all that its checks look at."""
        with self._reading() as session:
            return situation_of(Tables(session), job_id, today, self._path)

    def customers_like(self, asking: Asking) -> tuple[KnownCustomer, ...]:
        """Return the customers that may be asking, the likeliest first, a few of them."""
        with self._reading() as session:
            return find_customers(session, asking)

    def known_customer(self, customer_id: int) -> KnownCustomer | None:
        """Return a customer as a new enquiry takes them over; None for one that is gone."""
        with self._reading() as session:
            return next(iter(known_customers(session, [customer_id])), None)

    def customer(self, customer_id: int) -> CustomerRecord:
        """Return a customer with every job. Raises :class:`Refused` for one that is gone."""
        with self._reading() as session:
            return read_record(session, customer_id)

    def money_events(self) -> tuple[Event, ...]:
        """Return every event of money, in the order in which it was recorded."""
        with self._reading() as session:
            return read_money_events(Tables(session))

    def trader(self) -> Trader:
        """Return the trader's details."""
        with self._reading() as session:
            return read_trader(Tables(session))

    def picture(self, key: str) -> bytes:
        """Return a picture of the look of papers, a PNG or an SVG; nothing for no key."""
        if not key:
            return b""
        with self._reading() as session:
            return read_picture(Tables(session), key)

    def prices(self) -> tuple[Price, ...]:
        """Return all prices, the newest first."""
        with self._reading() as session:
            return read_prices(Tables(session))

    def stock(self) -> tuple[StockLine, ...]:
        """Return what stock holds."""
        with self._reading() as session:
            return read_stock(Tables(session))

    def reservations(self) -> tuple[Reservation, ...]:
        """Return what agreed jobs will take out of stock."""
        with self._reading() as session:
            return read_reservations(Tables(session))

    def goes_through_stock(self, job_id: int | None) -> bool:
        """Tell whether all that a job takes comes out of stock, since its order went into it."""
        with self._reading() as session:
            return goes_through_stock(Tables(session), job_id)

    def free_stock(self, job_id: int | None) -> tuple[StockLine, ...]:
        """Return what stock holds less what other jobs than this one have reserved."""
        with self._reading() as session:
            return _free_stock(Tables(session), job_id)

    def sources(self, job_id: int | None, today: date) -> PricesAndStock:
        """Return the prices, what stock holds, and how the trader nails.

        Stock is less what other jobs than this one have reserved.
        """
        with self._reading() as session:
            tables = Tables(session)
            stock, nailing = _free_stock(tables, job_id), read_trader(tables).nailing
            return PricesAndStock(read_prices(tables), stock, today, nailing)

    def forecasts(self, first: date, last: date) -> tuple[Forecast, ...]:
        """Return the recorded forecasts from a day to another, both included."""
        with self._reading() as session:
            return read_forecasts(Tables(session), first, last)


def _free_stock(tables: Tables, job_id: int | None) -> tuple[StockLine, ...]:
    """What stock holds less what other jobs than this one have reserved."""
    reserved = [each for each in read_reservations(tables) if each.job_id != job_id]
    return not_reserved(read_stock(tables), reserved)
