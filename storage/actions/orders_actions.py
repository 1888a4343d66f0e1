"""What is ordered for the coming jobs, and what of it has come."""

from collections.abc import Mapping, Sequence
from datetime import date

from domain.days.calendar import show_date
from domain.estimate.ordered import Ordered, move_of, ordered_lines
from domain.estimate.ordering import MerchantList
from domain.scope import ListName
from storage.database import Database
from storage.errors import Changed
from storage.mapping.codec import cells_of, value_of
from storage.orders_read import Orders, read_orders
from storage.rows import OrderedForRow, OrderedRow, StockMoveRow
from storage.tables import Tables
from storage.transaction import Transaction


class OrderActions(Database):
    """Orders stand in one history with stock: what has come is in it."""

    def orders(self, today: date) -> Orders:
        """Return what is to be ordered for the coming jobs, and what is on its way."""
        with self._reading() as session:
            return read_orders(Tables(session), today)

    def mark_ordered(
        self, given: Sequence[MerchantList], today: date, expected_on: date, deliver_to: str
    ) -> None:
        """Mark merchants' lists as ordered today, to come on a day.

        Raises :class:`Changed` if one is another list by now, :class:`domain.errors.Refused` for a
        day that is over.
        """
        names = " and ".join(each.merchant for each in given if each.merchant)
        where = f" at {names}" if names else ""
        what = f"order{where} for {show_date(expected_on)} saved"
        with self._acting(what, ListName.STOCK) as work:
            for each in given:
                lines = ordered_lines(each, today, expected_on, deliver_to)
                _write_ordered(work, each, lines, read_orders(work.tables, today))

    def mark_here(self, came: Mapping[int, int], on: date) -> None:
        """Put into stock what has come: so many packs of each order, by its id.

        Raises :class:`Changed` for an order that is gone, and :class:`domain.errors.NotNow` for
        more than was ordered.
        """
        with self._acting("delivery saved", ListName.STOCK) as work:
            for number, packs in came.items():
                row = work.get(OrderedRow, number)
                if row is None:
                    raise Changed
                ordered = value_of(Ordered, row.model_dump())
                work.add(StockMoveRow(**cells_of(move_of(ordered, packs, on), "id")))
                work.change(row, came=ordered.came + packs, came_on=on.isoformat())


def _write_ordered(
    work: Transaction, given: MerchantList, lines: Sequence[Ordered], now: Orders
) -> None:
    """Write a list; a job is settled by it if no other list is left for it."""
    if given not in now.lists:
        raise Changed
    settled = now.settled_by(given)
    for line, ordered in zip(given.lines, lines, strict=True):
        number = work.key_of(OrderedRow(**cells_of(ordered, "id")))
        for job in line.jobs:
            is_last = int(job.job_id in settled)
            work.add(OrderedForRow(ordered_id=number, job_id=job.job_id, settled=is_last))
