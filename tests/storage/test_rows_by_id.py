"""What names its own row is that row or nothing: never another's, never over a later change."""

from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest

from domain.errors import NotNow
from domain.job import EnquiryRecord, Job, Sending, Snag, Stage, StageMove
from storage.book import Book
from storage.errors import Changed
from tests import builders
from tests.storage.books import undo


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "book.db"


@pytest.fixture
def book(path: Path) -> Iterator[Book]:
    with closing(Book.open(path, lambda: datetime(2026, 6, 25, 19, 0))) as opened:
        opened.save_trader(builders.trader())
        yield opened


def asked(book: Book, place: str = "Birch Lane") -> Job:
    return book.take_enquiry(
        EnquiryRecord(builders.customer(), builders.site(place=place), builders.enquiry())
    )


def sent(book: Book, **changes: object) -> Job:
    job = book.save_survey(asked(book), builders.survey())
    job = book.move_stage(job, StageMove(Stage.SURVEY, builders.VISIT, {}))
    offered = (builders.option(id=None), builders.option(id=None, colour="green"))
    job = book.save_quote(job, builders.draft(id=None, options=offered, **changes))
    return book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))


def test_a_known_customer_asks_again_and_is_corrected(book: Book) -> None:
    known = asked(book).customer
    site = builders.site(place="The Green")
    again = book.take_enquiry(
        EnquiryRecord(replace(known, phone="01632 960199"), site, builders.enquiry())
    )
    assert again.customer.id == known.id
    assert again.customer.phone == "01632 960199"


def test_a_customer_changed_since_is_not_written_over(book: Book) -> None:
    first = asked(book)
    site = builders.site(place="The Green")
    book.take_enquiry(EnquiryRecord(replace(first.customer, phone="1"), site, builders.enquiry()))
    with pytest.raises(Changed):
        book.take_enquiry(
            EnquiryRecord(replace(first.customer, phone="2"), site, builders.enquiry())
        )
    with pytest.raises(Changed):
        book.change_enquiry(
            first, EnquiryRecord(replace(first.customer, phone="2"), first.site, builders.enquiry())
        )
    assert book.job(first.id or 0).customer.phone == "1"


def test_a_customer_who_is_not_there_is_told_as_changed(book: Book) -> None:
    with pytest.raises(Changed):
        book.take_enquiry(
            EnquiryRecord(builders.customer(id=77), builders.site(), builders.enquiry())
        )


def test_a_snag_of_another_job_is_left_alone(book: Book) -> None:
    first = book.save_snag(asked(book), Snag("a ridge piece lifts"))
    other = asked(book, "The Green")
    with pytest.raises(Changed):
        book.save_snag(other, replace(first.snags[0], words="taken over"))
    assert book.job(first.id or 0).snags == first.snags
    assert book.job(other.id or 0).snags == ()


def test_an_enquiry_taken_back_leaves_its_reference_to_the_next(book: Book) -> None:
    assert [asked(book).ref, asked(book).ref] == ["0001", "0002"]
    undo(book, 2)
    assert [asked(book).ref, asked(book).ref] == ["0002", "0003"]


def test_a_notice_can_be_added_after_the_deposit_is_invoiced(book: Book) -> None:
    job = sent(book, deposit=50_00)
    first, second = job.quotes[0].options
    told = builders.acceptance(option_id=first.id)
    job = book.accept_quote(job, replace(told, notice_on=None))
    job = book.issue_deposit_invoice(job, builders.AGREED)
    job = book.accept_quote(job, told)
    assert job.quotes[0].acceptance == told
    with pytest.raises(NotNow, match="invoiced"):
        book.accept_quote(job, replace(told, option_id=second.id or 0))
