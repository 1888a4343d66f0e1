"""Undo and redo keep to one job or one list, and say why where they cannot."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from sqlmodel import SQLModel

from domain.changes import Change
from domain.coverings.materials import Material
from domain.errors import NotNow, Refused
from domain.estimate.stock import StockMove
from domain.estimate.usage import UsageRecord
from domain.history import LastSaved
from domain.job import EnquiryRecord, Site, Snag
from domain.page_names import PageName
from domain.scope import ListName
from storage.book import Book
from storage.pages_touched import IN_THE_HEADING, PAGES, pages_touched
from tests import builders
from tests.storage.books import NOW, dump, enquired, opened, query, redo, undo
from tests.storage.steps import TODAY

MASTIC = StockMove(Material.MASTIC, "", Decimal(8), TODAY, "counted")


def test_another_job_and_the_lists_are_left_alone(book: Book) -> None:
    first = book.save_snag(enquired(book), Snag("first"))
    second = book.save_snag(enquired(book, "Mill Row"), Snag("second"))
    book.move_stock(MASTIC)
    assert undo(book, first.id or 0) == "snag “first” saved"
    assert book.job(first.id or 0).snags == ()
    assert book.job(second.id or 0) == second
    assert [line.quantity for line in book.stock()] == [8]
    assert undo(book, ListName.STOCK) == "stock of bitumen mastic changed"
    assert book.stock() == ()


def test_what_will_go_is_told_and_nothing_is_written(book: Book, path: Path) -> None:
    job = book.save_survey(enquired(book, "Mill Row"), builders.survey())
    longer = builders.survey(measures=builders.measures(length=builders.mm(9000)))
    job = book.save_survey(job, longer)
    before = dump(path)
    told = book.undoable(job.id or 0)
    changed = (Change("length", "2400 mm", "9000 mm"),)
    assert told == LastSaved(
        told.id, job.id or 0, NOW, "survey saved", "Mill Row", (PageName.SURVEY,), changes=changed
    )
    assert dump(path) == before


def test_every_table_has_its_page(book: Book) -> None:
    del book  # the tables are known once a book is open
    of_no_page = {"action", "journal", "picture"}
    assert set(PAGES) | IN_THE_HEADING | of_no_page == set(SQLModel.metadata.tables)
    assert not set(PAGES) & IN_THE_HEADING
    assert pages_touched(("line", "job", "option", "survey")) == (PageName.SURVEY, PageName.QUOTE)


def test_redo_ends_with_the_next_thing_saved_of_the_same(book: Book) -> None:
    job = enquired(book)
    of = job.id or 0
    book.save_snag(job, Snag("first"))
    undo(book, of)
    book.move_stock(MASTIC)
    assert redo(book, of) == "snag “first” saved"
    undo(book, of)
    book.save_snag(book.job(of), Snag("second"))
    with pytest.raises(NotNow, match="Nothing to redo here"):
        redo(book, of)
    undo(book, of)
    assert redo(book, of) == "snag “second” saved"
    with pytest.raises(NotNow, match="Nothing to redo here"):
        redo(book, of)


def test_redo_outlasts_the_window(path: Path) -> None:
    with opened(path) as book:
        of = book.save_snag(enquired(book), Snag("trim")).id or 0
        undo(book, of)
    with opened(path) as book:
        redo(book, of)
        assert [snag.words for snag in book.job(of).snags] == ["trim"]


def test_a_new_job_is_undone_and_comes_back_under_its_number(book: Book) -> None:
    job = enquired(book)
    told = book.undoable(job.id or 0)
    assert told.takes_job
    book.undo(told)
    with pytest.raises(Refused, match="no longer in the book"):
        book.job(job.id or 0)
    redo(book, job.id or 0)
    assert book.job(job.id or 0) == job


def test_a_job_whose_number_was_given_away_does_not_come_back(book: Book, path: Path) -> None:
    job = enquired(book)
    undo(book, job.id or 0)
    assert enquired(book).ref == job.ref
    before = dump(path)
    with pytest.raises(NotNow) as refused:
        redo(book, job.id or 0)
    assert str(refused.value) == "Cannot redo: 0001 is another job by now. Add it as a new one."
    assert dump(path) == before


def _asks_again(book: Book, of: int, phone: str) -> None:
    customer = replace(book.job(of).customer, phone=phone)
    book.take_enquiry(EnquiryRecord(customer, Site("The Green"), builders.enquiry()))


def test_a_customer_who_asked_again_is_not_undone_from_under_the_other_job(
    book: Book, path: Path
) -> None:
    of = enquired(book).id or 0
    _asks_again(book, of, builders.customer().phone)
    query(path, "UPDATE customer SET version = (SELECT version FROM site WHERE id = 1)")
    with pytest.raises(NotNow) as refused:
        undo(book, of)
    assert str(refused.value) == (
        "Cannot undo: another job has the customer by now. "
        "Close the job as declined or called off instead."
    )


def test_a_job_whose_customer_went_with_another_does_not_come_back_before_them(
    book: Book,
) -> None:
    first = enquired(book).id or 0
    _asks_again(book, first, builders.customer().phone)
    second = first + 1
    undo(book, second)
    undo(book, first)
    with pytest.raises(NotNow) as refused:
        redo(book, second)
    assert str(refused.value) == (
        "Cannot redo: the customer was deleted since. Add it as a new enquiry."
    )
    redo(book, first)
    redo(book, second)
    assert book.job(second).customer == book.job(first).customer


def test_a_customer_changed_on_another_job_is_not_changed_back(book: Book) -> None:
    of = enquired(book).id or 0
    _asks_again(book, of, "01632 960111")
    with pytest.raises(NotNow) as refused:
        undo(book, of)
    assert str(refused.value) == (
        "Cannot undo: the customer was changed since on another job. Change it by hand instead."
    )


def test_leftovers_that_are_taken_since_are_told_before_they_are_undone(book: Book) -> None:
    usage = UsageRecord(builders.usages(), (MASTIC,))
    a = book.record_usage(enquired(book), usage)
    b = enquired(book, "Mill Row")
    b = book.record_usage(b, replace(usage, moves=(replace(MASTIC, quantity=Decimal(-8)),)))
    told = book.undoable(a.id or 0)
    assert told.touched == (PageName.MATERIALS, ListName.STOCK)
    assert [line.quantity for line in told.short] == [8]
    book.undo(told)
    assert book.stock() == ()
    redo(book, a.id or 0)
    assert book.stock() == ()
    undo(book, b.id or 0)
    assert [line.quantity for line in book.stock()] == [8]


def test_the_history_of_a_job_is_its_own_the_newest_first(book: Book) -> None:
    job = book.save_survey(enquired(book, "Mill Row"), builders.survey())
    enquired(book)
    book.save_snag(job, Snag("trim"))
    undo(book, job.id or 0)
    told = [(entry.words, entry.undone) for entry in book.history(job.id or 0)]
    assert told == [
        ("snag “trim” saved", True),
        ("survey saved", False),
        ("enquiry of Mrs Adeyemi added", False),
    ]
