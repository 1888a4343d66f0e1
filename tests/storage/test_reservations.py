"""Leftovers that agreed jobs will take out of stock."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

from domain.coverings.materials import Material
from domain.estimate.reserved import Reservation
from domain.estimate.stock import StockLine, StockMove
from domain.estimate.usage import UsageRecord
from domain.job import Closing, Ending, Job, Sending, Stage, StageMove
from storage.book import Book
from tests import builders, priced
from tests.storage.books import enquired, opened

STRIPS = StockLine(Material("square-butt"), "slate grey", Decimal(12))


def offered(book: Book) -> Job:
    job = book.save_survey(enquired(book), builders.survey())
    job = book.move_stage(job, StageMove(Stage.SURVEY, builders.VISIT, {}))
    job = book.save_quote(job, priced.quote(job=job, stock=book.free_stock(job.id)))
    return book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))


def agreed(book: Book) -> Job:
    job = offered(book)
    option = job.quotes[0].options[0]
    return book.accept_quote(job, builders.acceptance(option_id=option.id or 0))


def stocked(book: Book) -> None:
    book.move_stock(StockMove(STRIPS.material, STRIPS.colour, STRIPS.quantity, builders.VISIT))


def test_a_leftover_serves_one_agreed_job_alone(book: Book) -> None:
    stocked(book)
    job = agreed(book)
    assert book.reservations() == (
        Reservation(
            job.id or 0, job.ref, job.site.place, STRIPS.material, STRIPS.colour, Decimal(12)
        ),
    )
    assert book.stock() == (STRIPS,)
    assert book.free_stock(job.id) == (STRIPS,)
    assert book.free_stock(None) == ()


def test_nails_that_are_chosen_after_the_yes_are_reserved_instead_of_those_of_the_quote(
    book: Book,
) -> None:
    for length in ("", "25 mm"):
        book.move_stock(StockMove(Material.SHINGLE_NAILS, length, Decimal(500), builders.VISIT))
    job = agreed(book)
    [usual] = book.reservations()
    assert (usual.material, usual.colour) == (Material.SHINGLE_NAILS, "")
    survey = builders.survey()
    book.save_survey(job, replace(survey, deck=replace(survey.deck, nail_mm=25)))
    [chosen] = book.reservations()
    assert (chosen.material, chosen.colour, chosen.quantity) == (
        Material.SHINGLE_NAILS,
        "25 mm",
        usual.quantity,
    )
    left = {line.colour: line.quantity for line in book.free_stock(None)}
    assert left == {"": Decimal(500), "25 mm": 500 - usual.quantity}


def test_a_quote_that_was_only_sent_reserves_nothing(book: Book) -> None:
    stocked(book)
    offered(book)
    assert book.reservations() == ()
    assert book.free_stock(None) == (STRIPS,)


def test_a_reservation_ends_when_the_use_is_recorded_or_the_job_called_off(
    book: Book, path: Path
) -> None:
    stocked(book)
    job = agreed(book)
    book.end_job(job, Closing(Ending.CALLED_OFF, "sold the shed", builders.AGREED))
    assert book.reservations() == ()
    job = agreed(book)
    taken = StockMove(STRIPS.material, STRIPS.colour, -STRIPS.quantity, builders.LAY_DAY)
    book.record_usage(job, UsageRecord(builders.usages(), (taken,)))
    with opened(path) as again:
        assert again.reservations() == ()
        assert again.stock() == ()
