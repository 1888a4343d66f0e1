"""What belongs to no one job: prices, stock, the trader's details, the forecast."""

from collections.abc import Sequence
from decimal import Decimal

from domain.days.calendar import show_date
from domain.estimate.stock import Price, StockMove, check_held
from domain.look import Picture
from domain.scope import ListName
from domain.trader import Trader
from domain.week import Forecast
from storage.database import Database
from storage.errors import Changed
from storage.mapping.codec import cells_of, value_of
from storage.queries import picture_row, read_stock, read_trader
from storage.rows import ForecastRow, PictureRow, PriceRow, StockMoveRow, TraderRow

_THE_TRADER = 1


class SettingActions(Database):
    """Each guarded by the version that was read, where it can be edited."""

    def set_price(self, price: Price) -> Price:
        """Record a price from a day on; those before it stay."""
        with self._acting(f"new price of {price.material.words} saved", ListName.PRICES) as work:
            row = work.add(PriceRow(**cells_of(price, "id")))
            return value_of(Price, row.cells())

    def set_prices(self, prices: Sequence[Price], what: str) -> None:
        """Record several prices at once; those before them stay. ``what`` names the action."""
        with self._acting(what, ListName.PRICES) as work:
            for price in prices:
                work.add(PriceRow(**cells_of(price, "id")))

    def move_stock(self, move: StockMove) -> None:
        """Put something into stock or take it out.

        Raises :class:`domain.errors.NotNow` if that is more than it holds.
        """
        with self._acting(f"stock of {move.material.words} changed", ListName.STOCK) as work:
            serving = (s for s in read_stock(work.tables) if s.serves(move.material, move.colour))
            check_held(move, sum((line.quantity for line in serving), Decimal(0)))
            work.add(StockMoveRow(**cells_of(move, "id")))

    def save_trader(self, trader: Trader, logo: Picture | None = None) -> Trader:
        """Save the trader's details, with the picture that is new among them.

        Pictures stay for the papers that have them. Raises :class:`Changed`.
        """
        with self._acting("your details saved", ListName.DETAILS) as work:
            row = work.get(TraderRow, _THE_TRADER)
            if (row.version if row else 0) != trader.version:
                raise Changed
            if logo is not None and work.get(PictureRow, logo.key) is None:
                work.add_for_good(picture_row(logo))
            work.put(TraderRow(id=_THE_TRADER, **cells_of(trader, "version")), _THE_TRADER)
            return read_trader(work.tables)

    def save_forecasts(self, forecasts: Sequence[Forecast]) -> None:
        """Save the forecasts of one day or more, all at once. Raises :class:`Changed`."""
        first, more = min(forecast.day for forecast in forecasts), len(forecasts) - 1
        days = f" and {more} more day{'' if more == 1 else 's'}" if more else ""
        what = f"forecast for {show_date(first)}{days} saved"
        with self._acting(what, ListName.FORECASTS) as work:
            for forecast in forecasts:
                row = work.get(ForecastRow, forecast.day.isoformat())
                if (row.version if row else 0) != forecast.version:
                    raise Changed
                if row is None:
                    work.add(ForecastRow(**cells_of(forecast, "version")))
                else:
                    work.change(row, **cells_of(forecast, "version"))
