"""What is ordered for the coming jobs, and what of it has come."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from domain.days.calendar import show_date
from domain.estimate.ordered import Merchant, Ordered, move_of, moved, ordered_lines
from domain.estimate.ordering import MerchantList
from domain.scope import ListName
from storage.database import Database
from storage.errors import Changed
from storage.mapping.codec import cells_of, value_of
from storage.orders_read import Orders, read_orders
from storage.rows import MerchantRow, OrderedForRow, OrderedRow, StockMoveRow
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
                _keep_place(work, each.merchant, deliver_to)

    def keep_place(self, merchant: str, deliver_to: str) -> None:
        """Keep where a merchant delivers: an address, or that it is collected."""
        with self._acting(f"delivery of {merchant} saved", ListName.STOCK) as work:
            _keep_place(work, merchant, deliver_to)

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
                ordered = value_of(Ordered, row.cells())
                work.add(StockMoveRow(**cells_of(move_of(ordered, packs, on), "id")))
                work.change(row, came=ordered.came + packs, came_on=on.isoformat())

    def move_orders(self, ids: Iterable[int], expected_on: date) -> None:
        """Have orders come on another day.

        Raises :class:`Changed` for an order that is gone, and :class:`domain.errors.Refused` for a
        day before that of the order.
        """
        with self._acting(f"delivery moved to {show_date(expected_on)}", ListName.STOCK) as work:
            for row in _orders(work, ids):
                ordered = moved(value_of(Ordered, row.cells()), expected_on)
                work.change(row, expected_on=ordered.expected_on.isoformat())

    def cancel_orders(self, ids: Iterable[int]) -> None:
        """Cancel orders: what is here stays, and for their jobs the rest is to be ordered again.

        Raises :class:`Changed` for an order that is gone.
        """
        with self._acting("order cancelled", ListName.STOCK) as work:
            for row in _orders(work, ids):
                _cancel(work, row)

    def save_merchant(self, merchant: Merchant) -> None:
        """Keep the telephone number of a merchant, in place of the one before."""
        with self._acting(f"telephone of {merchant.name} saved", ListName.STOCK) as work:
            found = work.rows(MerchantRow, name=merchant.name)
            if found:
                work.change(found[0], phone=merchant.phone)
            else:
                work.add(MerchantRow(**cells_of(merchant, "id")))


def _orders(work: Transaction, ids: Iterable[int]) -> Iterator[OrderedRow]:
    """Give the rows of orders. Raises :class:`Changed` for one that is gone."""
    for number in ids:
        row = work.get(OrderedRow, number)
        if row is None:
            raise Changed
        yield row


def _cancel(work: Transaction, row: OrderedRow) -> None:
    """Take an order away, or the rest of it; nothing that its jobs wait for is settled any more."""
    links = work.rows(OrderedForRow, ordered_id=row.id)
    for job_id in {link.job_id for link in links}:
        for link in work.rows(OrderedForRow, job_id=job_id):
            work.change(link, settled=0)
    if row.came:
        work.change(row, packs=row.came)
        return
    for link in work.rows(OrderedForRow, ordered_id=row.id):
        work.remove(link)
    work.remove(row)


def _keep_place(work: Transaction, name: str, deliver_to: str) -> None:
    """Keep where a merchant delivers; of one without a name nothing can be kept."""
    found = work.rows(MerchantRow, name=name)
    if found:
        work.change(found[0], deliver_to=deliver_to)
    elif name.strip():
        work.add(MerchantRow(**cells_of(Merchant(name, deliver_to=deliver_to), "id")))


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
