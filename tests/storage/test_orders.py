"""Orders and stock are one truth: what has come is in stock, and undo takes it out again."""

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from domain.coverings.materials import MATERIALS, Material
from domain.errors import NotNow, Refused
from domain.estimate.ordered import COLLECTED, Merchant, State
from domain.estimate.stock import StockLine, StockMove
from domain.estimate.usage import UsageRecord, estimate, leftovers_to_stock
from domain.job import Booking, Job, Sending, Stage, StageMove
from domain.scope import ListName
from domain.week import TaskKind, plan_week
from storage.book import Book
from storage.errors import Changed
from storage.week_and_jobs import read_week
from tests import builders, priced
from tests.storage.books import BOTH_ON_A_DAY, booked, surveyed, undo

DAY = builders.LAY_DAY
TODAY = DAY - timedelta(days=3)
THERE = DAY - timedelta(days=1)


def to_supply(book: Book, place: str = "Birch Lane", later: int = 0) -> Job:
    """A booked job whose materials are still to be ordered."""
    job = booked(book, place)
    days = tuple(replace(day, day=day.day + timedelta(days=later), id=None) for day in job.days)
    return book.book_days(job, Booking(days, materials_in_hand=False))


def order_all(book: Book) -> None:
    """Order at every merchant."""
    book.mark_ordered(book.orders(TODAY).lists, TODAY, THERE, "2 Mill Row")


def take_in_all(book: Book) -> None:
    """All that is ordered comes."""
    coming = book.orders(TODAY).coming
    book.mark_here({each.id or 0: each.to_come for each in coming}, THERE)


def kinds(book: Book, today: object = TODAY) -> set[TaskKind]:
    """What Tonight asks for."""
    week = plan_week(read_week(book._path, today), today)  # type: ignore[arg-type]
    return {task.kind for task in week.tonight}


def test_tonight_asks_to_order_until_the_last_list_is_ordered_and_then_whether_it_came(
    book: Book,
) -> None:
    job = to_supply(book)
    lists = book.orders(TODAY).lists
    assert lists
    for given in lists:
        assert TaskKind.ORDER in kinds(book)
        book.mark_ordered((given,), TODAY, THERE, "2 Mill Row")
    assert book.orders(TODAY).lists == ()
    assert {TaskKind.ORDER, TaskKind.DELIVERY} & kinds(book) == set()
    assert TaskKind.DELIVERY in kinds(book, THERE)
    assert not book.job(job.id or 0).materials_in_hand
    take_in_all(book)
    assert {TaskKind.ORDER, TaskKind.DELIVERY} & kinds(book, THERE) == set()
    assert book.job(job.id or 0).materials_in_hand


def test_what_comes_goes_into_stock_and_undo_takes_it_out(book: Book) -> None:
    to_supply(book)
    given = book.orders(TODAY).lists[0]
    book.mark_ordered((given,), TODAY, THERE, "2 Mill Row")
    assert book.stock() == ()
    first = book.orders(TODAY).coming[0]
    book.mark_here({first.id or 0: 1}, THERE)
    assert book.stock() == (StockLine(first.material, first.colour, first.per_pack),)
    if first.packs > 1:
        assert book.orders(TODAY).coming[0].state is State.PART
    take_in_all(book)
    assert {line.material: line.quantity for line in book.stock()} == {
        line.material: line.packs * line.price.per_pack for line in given.lines
    }
    undo(book, ListName.STOCK)
    undo(book, ListName.STOCK)
    assert book.stock() == ()
    assert len(book.orders(TODAY).coming) == len(given.lines)
    undo(book, ListName.STOCK)
    assert given in book.orders(TODAY).lists


def test_no_more_comes_than_was_ordered(book: Book) -> None:
    to_supply(book)
    order_all(book)
    first = book.orders(TODAY).coming[0]
    with pytest.raises(NotNow, match="Still to come"):
        book.mark_here({first.id or 0: first.packs + 1}, THERE)
    assert book.stock() == ()
    with pytest.raises(Changed):
        book.mark_here({999: 1}, THERE)


def test_a_list_that_is_another_by_now_is_not_marked(book: Book) -> None:
    to_supply(book)
    given = book.orders(TODAY).lists[0]
    line = given.lines[0]
    book.move_stock(StockMove(line.material, line.colour, Decimal(5000), TODAY, "counted"))
    with pytest.raises(Changed):
        book.mark_ordered((given,), TODAY, THERE, "2 Mill Row")
    with pytest.raises(Refused):
        book.mark_ordered(book.orders(TODAY).lists, TODAY, TODAY - timedelta(days=1), "2 Mill Row")


def test_what_was_ordered_for_one_job_and_is_left_over_serves_the_next_once(book: Book) -> None:
    first = to_supply(book)
    order_all(book)
    take_in_all(book)
    needed = {each.material: each.quantity for each in book.reservations()}
    here = {line.material: line.quantity for line in book.stock()}
    assert all(here[material] >= much for material, much in needed.items())
    free = {line.material: line.quantity for line in book.free_stock(None)}
    assert free == {m: n - needed[m] for m, n in here.items() if n != needed[m]}
    to_supply(book, "The Green", later=1)
    for line in (line for each in book.orders(TODAY).lists for line in each.lines):
        assert [job.job_id for job in line.jobs] != [first.id]


def test_what_a_roof_took_goes_out_of_stock_and_what_is_left_over_stays_there(book: Book) -> None:
    job = to_supply(book)
    rows = estimate(job.quotes[0].counting.basis)
    moves = leftovers_to_stock(job, rows, DAY, ordered=True)
    order_all(book)
    with pytest.raises(NotNow, match="Mark them as here in Orders first"):
        book.record_usage(job, UsageRecord(rows, moves))
    take_in_all(book)
    here = {line.material: line.quantity for line in book.stock()}
    needed = {each.material: each.quantity for each in book.reservations()}
    assert book.goes_through_stock(job.id)
    book.record_usage(book.job(job.id or 0), UsageRecord(rows, moves))
    stays = {m: n - needed[m] for m, n in here.items() if n != needed[m]}
    assert {line.material: line.quantity for line in book.stock()} == stays
    assert Material.SHINGLE_NAILS in stays


def test_a_cancelled_order_is_to_be_ordered_again_and_what_is_here_stays(book: Book) -> None:
    job = to_supply(book)
    lists = book.orders(TODAY).lists
    order_all(book)
    coming = book.orders(TODAY).coming
    first = next(each for each in coming if each.packs > 1)
    book.mark_here({first.id or 0: 1}, THERE)
    book.cancel_orders(each.id or 0 for each in coming)
    assert book.orders(TODAY).coming == ()
    assert book.stock() == (StockLine(first.material, first.colour, first.per_pack),)
    assert TaskKind.ORDER in kinds(book)
    again = {line.material: line.packs for each in book.orders(TODAY).lists for line in each.lines}
    before = {line.material: line.packs for each in lists for line in each.lines}
    assert again == before | {first.material: before[first.material] - 1}
    with pytest.raises(Changed):
        book.cancel_orders((each.id or 0) for each in coming if each != first)
    undo(book, ListName.STOCK)
    assert len(book.orders(TODAY).coming) == len(coming)
    take_in_all(book)
    assert book.job(job.id or 0).materials_in_hand


def test_an_order_comes_on_another_day_but_not_before_it_was_ordered(book: Book) -> None:
    to_supply(book)
    order_all(book)
    ids = [each.id or 0 for each in book.orders(TODAY).coming]
    with pytest.raises(Refused):
        book.move_orders(ids, TODAY - timedelta(days=1))
    book.move_orders(ids, DAY)
    assert {each.expected_on for each in book.orders(TODAY).coming} == {DAY}
    assert TaskKind.DELIVERY not in kinds(book, THERE)


def test_the_telephone_of_a_merchant_is_kept_once(book: Book) -> None:
    to_supply(book)
    assert book.orders(TODAY).merchants == {}
    for phone in ("01632 960118", "01632 960119"):
        book.save_merchant(Merchant("Osmerton Roofing", phone))
    assert book.orders(TODAY).merchants["Osmerton Roofing"].phone == "01632 960119"
    undo(book, ListName.STOCK)
    assert book.orders(TODAY).merchants["Osmerton Roofing"].phone == "01632 960118"


def test_where_a_list_goes_is_kept_with_the_merchant_and_an_order_keeps_it_too(book: Book) -> None:
    to_supply(book)
    name = book.orders(TODAY).lists[0].merchant
    book.save_merchant(Merchant(name, "01632 960118"))
    book.keep_place(name, COLLECTED)
    kept = book.orders(TODAY).merchants[name]
    assert (kept.phone, kept.deliver_to) == ("01632 960118", COLLECTED)
    order_all(book)
    assert book.orders(TODAY).merchants[name].deliver_to == "2 Mill Row"
    undo(book, ListName.STOCK)
    assert book.orders(TODAY).merchants[name] == kept


@pytest.mark.parametrize("held", [5000, 5])
def test_a_job_that_its_quote_found_all_in_stock_is_not_asked_for(book: Book, held: int) -> None:
    for material in MATERIALS:
        colour = "slate grey" if material.coloured else ""
        book.move_stock(StockMove(material, colour, Decimal(held), TODAY, "counted"))
    job = surveyed(book)
    job = book.save_quote(job, priced.quote(job=job, stock=book.free_stock(job.id)))
    job = book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))
    option = job.quotes[0].options[0].id or 0
    job = book.accept_quote(job, builders.acceptance(option_id=option))
    job = book.book_days(job, Booking((builders.booked_day(),), materials_in_hand=True))
    job = book.move_stage(job, StageMove(Stage.BOOKED, builders.AGREED, BOTH_ON_A_DAY))
    book.book_days(job, Booking(job.days, materials_in_hand=False))
    assert (TaskKind.ORDER in kinds(book)) is bool(book.orders(TODAY).lists) is (held == 5)
