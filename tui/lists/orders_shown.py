"""What the order screen has read: its pages, whose they are, and what is said of each."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from domain.days.calendar import show_day
from domain.estimate.delivery import is_to_be_asked, place_of
from domain.estimate.ordered import Merchant
from domain.estimate.ordering import MerchantList
from domain.trader import Trader
from storage.orders_read import Orders
from tui.frame.safe_text import one_line
from tui.lists.order_pages import NOTHING, Delivery, Page, pages_of, told, where_words


@dataclass(frozen=True, slots=True)
class OrdersShown:
    """The pages to turn over, and what is known of the trader and the merchants."""

    pages: tuple[Page, ...] = ()
    trader: Trader = field(default_factory=Trader)
    merchants: Mapping[str, Merchant] = field(default_factory=dict)

    @classmethod
    def of(cls, orders: Orders, trader: Trader) -> "OrdersShown":
        """What was read from the book."""
        return cls(pages_of(orders), trader, orders.merchants)

    @property
    def lists(self) -> Sequence[MerchantList]:
        """What is still to be ordered, a merchant a list."""
        return [page for page in self.pages if isinstance(page, MerchantList)]

    def merchant(self, page: Page) -> Merchant:
        """What is kept of the merchant of a page, if only the name."""
        return self.merchants.get(page.merchant, Merchant(page.merchant))

    def place(self, page: Page) -> str:
        """Where a page goes, as far as it was said."""
        if isinstance(page, Delivery):
            return page.deliver_to
        return place_of(page, self._own, self.merchant(page))

    def asks_where(self, page: Page) -> MerchantList | None:
        """The page, if it is a list for several jobs of which it was never said where it goes."""
        if isinstance(page, Delivery) or not page.merchant.strip():
            return None
        return page if is_to_be_asked(page, self._own, self.merchant(page)) else None

    def words(self, page: Page | None, today: date) -> str:
        """What stands over a page."""
        if page is None:
            return NOTHING
        phone = self.merchant(page).phone
        words = told(page, today, phone, registered=self.trader.vat_registered)
        if isinstance(page, MerchantList):
            return f"{words}  {where_words(self.place(page))}"
        return words

    @property
    def _own(self) -> str:
        return self.trader.address.strip()


def for_whom(page: Page | None, row: int) -> str:
    """The jobs that wait for a line of a list; empty for what is on its way."""
    if not isinstance(page, MerchantList):
        return ""
    jobs = (f"{one_line(job.place)} on {show_day(job.day)}" for job in page.lines[row].jobs)
    return f"for {', '.join(jobs)}"
