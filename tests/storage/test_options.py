"""A quote of several coverings in the book, and the one that the customer takes."""

from decimal import Decimal
from pathlib import Path

from domain.coverings.materials import Material
from domain.estimate.stock import StockMove
from domain.job import CoveringChoice, Job, Means, Sending
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.storage.books import query, read_again, surveyed

GREY_FELT = CoveringChoice("felt", "slate grey")
SQUARE, FELT = 0, 2


def _sent(book: Book) -> Job:
    job = surveyed(book)
    job = book.save_quote(job, priced.three_options(job, book.free_stock(job.id)))
    return book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))


def _taken(book: Book, job: Job, option: int, means: Means = Means.SIGNED) -> Job:
    chosen = job.quotes[-1].options[option].id or 0
    return book.accept_quote(job, builders.acceptance(option_id=chosen, means=means))


def _covering(job: Job) -> CoveringChoice | None:
    return job.survey.covering if job.survey else None


def test_each_option_is_kept_with_what_it_was_made_from(book: Book, path: Path) -> None:
    job = _sent(book)
    kept = [(option.covering, option.basis) for option in job.quotes[0].options]
    assert kept == [(each.covering, each.basis) for each in priced.three_options().options]
    assert query(path, "SELECT covering, basis FROM option ORDER BY id") == kept
    assert read_again(path, job) == job


def test_the_survey_goes_over_to_the_covering_taken_in_the_same_action(
    book: Book, path: Path
) -> None:
    sent = _sent(book)
    job = _taken(book, sent, FELT)
    assert _covering(job) == GREY_FELT
    assert read_again(path, job) == job
    told = book.undoable(job.id or 0)
    assert told.touched == (PageName.SURVEY, PageName.QUOTE)
    assert book.undo(told) == "acceptance recorded"
    back = book.job(sent.id or 0)
    assert (back.survey, back.quotes) == (sent.survey, sent.quotes)


def test_a_corrected_yes_takes_the_survey_along_only_if_the_option_is_another(book: Book) -> None:
    job = _taken(book, _sent(book), FELT)
    survey = builders.survey(covering=CoveringChoice("hexagonal", "red"))
    job = _taken(book, book.save_survey(job, survey), FELT, Means.TEXT)
    assert _covering(job) == CoveringChoice("hexagonal", "red")  # for the next version
    job = _taken(book, job, SQUARE)
    assert _covering(job) == CoveringChoice("square-butt", "slate grey")


def test_the_stock_gives_what_the_option_taken_counts_on(book: Book) -> None:
    grey = StockMove(Material("square-butt"), "slate grey", Decimal(12), builders.VISIT)
    book.move_stock(grey)
    sent = _sent(book)
    assert book.reservations() == ()
    job = _taken(book, sent, FELT)
    assert book.reservations() == ()
    _taken(book, job, SQUARE)
    (reserved,) = book.reservations()
    assert (reserved.material, reserved.quantity) == (grey.material, grey.quantity)
