"""What belongs to no one job: prices, stock, your details, the forecast; and references."""

from dataclasses import replace
from datetime import date, time, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from domain.coverings.materials import Material
from domain.days.forecast import Forecast
from domain.errors import NotNow, Refused
from domain.estimate.stock import StockLine, StockMove
from domain.job import Job
from domain.scope import ListName
from domain.trader import LabourRates, Rates, Trader, VatStanding, WeatherLimits
from storage.book import Book
from storage.errors import Changed, NotKept
from tests import builders, priced
from tests.storage.books import booked, enquired, opened, query, quoted, undo

DAY = builders.LAY_DAY
OWN = Trader(
    name="Robin Thorne",
    address="3 Tannery Row\nOsmerton",
    vat_standing=VatStanding.STANDARD,
    vat_number="980780684",
    waste_expires=date(2028, 3, 31),
    days_to_pay=7,
    hours_a_day=Decimal("7.5"),
    working_days=frozenset({0, 2, 5}),
    nation="Northern Ireland",
    work_from=time(6, 45),
    work_until=time(19),
    rates=Rates(hour=31_50, markup=Decimal("12.5"), labour=LabourRates(strip=Decimal("0.125"))),
    limits=WeatherLimits(least_c=Decimal("-1.5"), underlay_rest_min=45, drying_min=90),
)


def moved(book: Book, material: Material, colour: str, *quantities: str) -> None:
    for quantity in quantities:
        book.move_stock(StockMove(material, colour, Decimal(quantity), DAY, "counted"))


def test_until_they_are_saved_own_details_are_a_beginning(path: Path) -> None:
    with opened(path) as book:
        assert book.trader() == Trader()


def test_own_details_are_kept_whole_in_one_row(book: Book, path: Path) -> None:
    saved = book.save_trader(replace(OWN, version=book.trader().version))
    assert replace(saved, version=0) == OWN
    with opened(path) as again:
        assert again.trader() == saved
    assert book.save_trader(replace(saved, phone="01632 960100")).phone == "01632 960100"
    assert query(path, "SELECT id, name FROM trader") == [(1, "Robin Thorne")]


def test_a_new_price_leaves_the_old_one(book: Book, path: Path) -> None:
    new = priced.price(Material.SHINGLE_NAILS, 7_05, "900", since=DAY, colour="any")
    saved = book.set_price(new)
    assert replace(saved, id=None) == new
    prices = book.prices()
    assert prices[0] == saved
    assert {replace(price, id=None) for price in prices} == {new, *priced.PRICES}
    with opened(path) as again:
        assert again.prices() == prices


def test_of_two_prices_of_one_day_the_later_written_comes_first(book: Book) -> None:
    first = book.set_price(priced.price(Material.SHINGLE_NAILS, 7_05, "900", since=DAY))
    second = book.set_price(priced.price(Material.SHINGLE_NAILS, 7_15, "900", since=DAY))
    book.set_price(priced.price(Material.SHINGLE_NAILS, 5_00, "900", since=DAY - timedelta(days=1)))
    assert book.prices()[:2] == (second, first)


def test_a_decimal_is_kept_digit_by_digit(book: Book, path: Path) -> None:
    book.set_price(priced.price(Material.SHINGLE_NAILS, 1, "0.10", vat_rate=Decimal("2E+1")))
    kept = "SELECT per_pack, vat_rate FROM price ORDER BY id DESC LIMIT 1"
    assert query(path, kept) == [("0.10", "20")]


def test_the_stock_holds_the_sum_of_what_went_in_and_out(book: Book) -> None:
    moved(book, Material.MASTIC, "", "3", "-1")
    moved(book, Material("square-butt"), "slate grey", "7.5")
    moved(book, Material("square-butt"), "green", "21", "-21")
    moved(book, Material("square-butt"), "brown", "2")
    assert book.stock() == (
        StockLine(Material("square-butt"), "brown", Decimal(2)),
        StockLine(Material("square-butt"), "slate grey", Decimal("7.5")),
        StockLine(Material.MASTIC, "", Decimal(2)),
    )


def test_a_move_is_kept_as_it_was_written(book: Book, path: Path) -> None:
    moved(book, Material.UNDERLAY, "", "4.25")
    assert query(path, 'SELECT material, quantity, "on", words, job_id FROM stock_move') == [
        ("underlay", "4.25", "2026-06-24", "counted", None)
    ]


def test_the_stock_is_not_taken_below_nothing(book: Book) -> None:
    moved(book, Material.MASTIC, "", "3")
    moved(book, Material("square-butt"), "green", "9")
    with pytest.raises(NotNow, match="In stock: 3 cartridges of bitumen mastic, not 4 cartridges"):
        moved(book, Material.MASTIC, "", "-4")
    with pytest.raises(NotNow):
        moved(book, Material("square-butt"), "brown", "-1")
    assert [line.quantity for line in book.stock()] == [9, 3]


def test_a_move_of_a_job_that_is_not_there_is_not_kept(book: Book) -> None:
    with pytest.raises(NotKept):
        book.move_stock(StockMove(Material.MASTIC, "", Decimal(1), DAY, job_id=77))
    assert book.stock() == ()


@pytest.mark.parametrize(
    "forecast",
    [
        builders.forecast(typed="d9-12,14-17/-2.5@8"),
        builders.forecast(typed="r"),
        builders.forecast(typed="r11g25"),
    ],
)
def test_a_forecast_is_kept_and_corrected(book: Book, path: Path, forecast: Forecast) -> None:
    book.save_forecasts([builders.forecast()])
    (first,) = book.forecasts(DAY, DAY)
    book.save_forecasts([replace(forecast, version=first.version)])
    (saved,) = book.forecasts(DAY, DAY)
    assert replace(saved, version=0) == forecast
    with opened(path) as again:
        assert again.forecasts(DAY, DAY) == (saved,)


def test_forecasts_are_read_from_day_to_day_both_included(book: Book) -> None:
    days = [DAY + timedelta(days=n) for n in range(4)]
    for day in reversed(days):
        book.save_forecasts([builders.forecast(day)])
    assert [forecast.day for forecast in book.forecasts(days[1], days[2])] == days[1:3]


def test_a_forecast_for_an_hour_that_is_none_is_not_kept(book: Book) -> None:
    with pytest.raises(NotKept):
        book.save_forecasts([replace(builders.forecast(typed="r11"), rain_from=25)])
    assert book.forecasts(DAY, DAY) == ()


@pytest.mark.parametrize("ref", ["0002", "2", " 002 ", "0002\n"])
def test_a_job_is_found_by_its_reference(book: Book, ref: str) -> None:
    enquired(book)
    second = enquired(book)
    assert book.job_by_ref(ref) == second


@pytest.mark.parametrize("ref", ["0001", "", "two", "-1", "1 OR 1", "٣"])
def test_a_reference_that_no_job_has_is_refused(book: Book, ref: str) -> None:
    with pytest.raises(Refused, match="Give the number of a job in the book") as refused:
        book.job_by_ref(ref)
    assert refused.value.field == "reference"


def test_a_job_that_is_not_there_is_refused(book: Book) -> None:
    with pytest.raises(Refused, match="choose another from the jobs"):
        book.job(77)


def _looked_at(book: Book, job: Job, today: date) -> set[date]:
    return set(book.situation(job.id or 0, today).forecasts)


def test_a_situation_is_the_job_with_all_its_checks_look_at(book: Book) -> None:
    job = booked(book)
    today = DAY - timedelta(days=90)
    for day in (DAY, today, DAY + timedelta(days=400)):
        book.save_forecasts([builders.forecast(day)])
    situation = book.situation(job.id or 0, today)
    assert (situation.job, situation.trader, situation.today) == (job, book.trader(), today)
    assert situation.forecasts == {f.day: f for f in book.forecasts(today, DAY)}
    assert _looked_at(book, quoted(book), DAY + timedelta(days=400)) == {DAY + timedelta(days=400)}


def test_the_forecasts_of_several_days_are_one_action(book: Book) -> None:
    days = [DAY, DAY + timedelta(days=1), DAY + timedelta(days=2)]
    book.save_forecasts([builders.forecast(day) for day in days])
    assert len(book.forecasts(days[0], days[-1])) == 3
    told = undo(book, ListName.FORECASTS)
    assert told == "forecast for Wed 24 Jun 2026 and 2 more days saved"
    assert book.forecasts(days[0], days[-1]) == ()


def test_of_several_days_none_is_saved_if_one_was_changed(book: Book) -> None:
    book.save_forecasts([builders.forecast()])
    with pytest.raises(Changed):
        book.save_forecasts([builders.forecast(DAY - timedelta(days=1)), builders.forecast()])
    assert len(book.forecasts(DAY - timedelta(days=1), DAY)) == 1
