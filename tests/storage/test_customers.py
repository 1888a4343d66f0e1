"""A customer with several jobs: found again, shared, and deleted when nothing came of it."""

from dataclasses import replace
from pathlib import Path

import pytest

from domain.errors import NotNow, Refused
from domain.job import Customer, EnquiryRecord, Job, Note, Site
from domain.known_customer import Asking
from storage.book import Book
from tests import builders
from tests.storage.books import (
    NOW,
    bill,
    dump,
    enquired,
    laid,
    one_option,
    open_book,
    opened,
    query,
    quoted,
    redo,
    surveyed,
    undo,
)

NOTHING_LEFT = ("job", "site", "customer", "survey", "quote", "option", "line", "booking", "rung")


def _asks(book: Book, name: str, place: str = "The Green", phone: str = "") -> Job:
    who = EnquiryRecord(Customer(name, phone=phone), Site(place), builders.enquiry())
    return book.take_enquiry(who)


def _asks_again(book: Book, job: Job, place: str = "", phone: str | None = None) -> Job:
    """Another enquiry of the customer of a job, for the same roof or for another place."""
    customer = job.customer if phone is None else replace(job.customer, phone=phone)
    site = Site(place) if place else job.site
    return book.take_enquiry(EnquiryRecord(customer, site, builders.enquiry()))


def _names(book: Book, **asked: str) -> list[str]:
    return [known.customer.name for known in book.customers_like(Asking(**asked))]


def test_a_customer_is_found_by_name_number_place_and_postcode(book: Book) -> None:
    _asks(book, "Mr & Mrs O'Brien-Ek", "St. John's Rd", "+44 1632 960118")
    _asks(book, "Zoë [/] Ek", "Über & Sons (yard)", "01632 960119 (work)")
    enquired(book)
    assert _names(book, name="mr obrien ek") == ["Mr & Mrs O'Brien-Ek"]
    assert _names(book, name="ZOE  ek") == ["Zoë [/] Ek"]
    assert _names(book, phone="01632 960118") == ["Mr & Mrs O'Brien-Ek"]
    assert _names(book, phone="0044 1632960119") == ["Zoë [/] Ek"]
    assert _names(book, place="st johns rd") == ["Mr & Mrs O'Brien-Ek"]
    assert _names(book, place="uber and sons yard") == ["Zoë [/] Ek"]
    assert _names(book, name="Brien") == []
    assert _names(book) == []


def test_every_name_and_place_is_found_by_its_own_words(book: Book) -> None:
    for name in ("Ann  B.", "a-b & c", "É", "% _ * ?", "x" * 190, "Mrs", "ﬁ", "I'ı"):
        job = _asks(book, name, place=f"at {name}")
        found = book.customers_like(Asking(name=name)) + book.customers_like(
            Asking(place=f"at {name}")
        )
        ids = {known.customer.id for known in found}
        assert job.customer.id in ids, name


def test_an_index_is_used_for_each_way(book: Book, path: Path) -> None:
    from storage import known_customers

    given = {"names": "[]", "numbers": "[]", "postcode": "", "place": ""}
    plan = query(path, f"EXPLAIN QUERY PLAN {known_customers._MAY_BE.text}", **given)
    steps = [step for *_, step in plan]
    assert not [
        step
        for step in steps
        if step.startswith(("SCAN customer", "SCAN site")) and "INDEX" not in step
    ]
    for name in ("by_name", "by_phone", "by_postcode", "odd"):
        assert any(f"customer_{name}" in step for step in steps), name
    for name in ("by_place", "by_postcode", "odd"):
        assert any(f"site_{name}" in step for step in steps), name


def test_all_of_a_customer_is_read_the_newest_job_first(three_laid: Path) -> None:
    bill(three_laid, 1)
    with opened(three_laid) as book:
        first = book.job(1)
        second = _asks_again(book, first, "Mill Row")
        third = _asks_again(book, first)
        record = book.customer(first.customer.id or 0)
        assert [job.id for job in record.jobs] == [third.id, second.id, first.id]
        assert [site.place for site in record.sites] == ["Birch Lane", "Mill Row"]
        assert record.received == record.asked == sum(p.pence for p in first.payments) > 0
        assert (record.owed, record.refundable) == (0, 0)
        assert {document.label for _, document in record.papers} == {
            document.label for document in first.documents
        }
        known = book.known_customer(first.customer.id or 0)
        assert known is not None
        assert [job.ref for job in known.jobs] == [third.ref, second.ref, first.ref]


def test_a_new_number_is_the_customers_and_undone_unless_it_changed_since(book: Book) -> None:
    first = enquired(book)
    second = _asks_again(book, first, "Mill Row", "01632 960999")
    assert book.job(first.id or 0).customer.phone == "01632 960999"
    undo(book, second.id or 0)
    assert book.job(first.id or 0).customer == first.customer
    redo(book, second.id or 0)
    now = book.job(first.id or 0)
    told = EnquiryRecord(replace(now.customer, phone="01632 960000"), now.site, now.enquiry)
    book.change_enquiry(now, told)
    with pytest.raises(NotNow, match="the customer was changed since on another job"):
        undo(book, second.id or 0)
    assert book.job(second.id or 0).customer.phone == "01632 960000"


def test_undoing_one_job_leaves_the_other_of_the_customer_as_it_was(book: Book) -> None:
    first = enquired(book)
    second = _asks_again(book, first)
    undo(book, second.id or 0)
    assert book.job(first.id or 0) == first
    redo(book, second.id or 0)
    assert book.job(second.id or 0) == second


def test_an_enquiry_that_came_to_nothing_goes_with_all_of_it_and_comes_back(
    book: Book, path: Path
) -> None:
    job = surveyed(book)
    job = book.save_quote(job, one_option(job))
    before = dump(path, "action", "journal", "sqlite_sequence")
    book.delete_enquiry(job)
    assert all(dump(path)[table] == [] for table in NOTHING_LEFT)
    with pytest.raises(Refused, match="no longer in the book"):
        book.job(job.id or 0)
    told = book.undoable(job.id or 0)
    assert told.clause == f"{job.ref} Birch Lane, enquiry deleted"
    assert told.brings_job
    assert not told.takes_job
    book.undo(told)
    assert dump(path, "action", "journal", "sqlite_sequence") == before
    assert book.job(job.id or 0) == job
    assert book.redoable(job.id or 0).takes_job
    redo(book, job.id or 0)
    assert dump(path)["job"] == []


def test_a_customer_with_another_job_stays_and_so_does_a_roof(book: Book) -> None:
    first = enquired(book)
    same_roof, elsewhere = _asks_again(book, first), _asks_again(book, first, "Mill Row")
    book.delete_enquiry(elsewhere)
    book.delete_enquiry(same_roof)
    assert book.job(first.id or 0) == first
    record = book.customer(first.customer.id or 0)
    assert [site.place for site in record.sites] == ["Birch Lane"]
    undo(book, elsewhere.id or 0)
    assert book.job(elsewhere.id or 0).site.place == "Mill Row"


def test_what_was_sent_or_issued_is_refused_and_nothing_is_deleted(three_laid: Path) -> None:
    with opened(three_laid) as book:
        sent = quoted(book, "Mill Row")
        bill(three_laid, 1)
        before = dump(three_laid)
        with pytest.raises(NotNow) as refused:
            book.delete_enquiry(sent)
        assert str(refused.value) == (
            "Quote 1, sent 4 June 2026, has to be kept until 31 January 2033."
        )
        with pytest.raises(NotNow, match="has to be kept until 31 January 2033"):
            book.delete_enquiry(book.job(1))
        assert dump(three_laid) == before


def test_work_on_a_job_is_refused(book: Book) -> None:
    job = laid(book)
    with pytest.raises(NotNow):
        book.delete_enquiry(job)


def test_a_deleted_customer_is_not_brought_back_by_half(book: Book) -> None:
    first = enquired(book)
    second = _asks_again(book, first, "Mill Row")
    book.delete_enquiry(second)
    book.delete_enquiry(first)
    with pytest.raises(NotNow) as refused:
        undo(book, second.id or 0)
    assert str(refused.value) == (
        "Cannot undo: the customer was deleted since. Add it as a new enquiry."
    )
    undo(book, first.id or 0)
    undo(book, second.id or 0)
    assert book.job(second.id or 0) == second


def test_an_enquiry_goes_with_its_notes_and_comes_back_with_them(book: Book) -> None:
    job = book.write_note(enquired(book), Note("gate code 4417", NOW.date()))
    book.delete_enquiry(job)
    assert query(book._path, "SELECT count(*) FROM note") == [(0,)]
    undo(book, job.id or 0)
    assert book.job(job.id or 0) == job


def test_the_last_job_of_a_customer_is_deleted_not_undone_from_under_them(book: Book) -> None:
    first = enquired(book)
    second = _asks_again(book, first)
    book.delete_enquiry(first)
    with pytest.raises(NotNow) as refused:
        undo(book, second.id or 0)
    assert str(refused.value) == (
        "Cannot undo: no other job of the place is left by now. Delete the enquiry instead."
    )
    book.delete_enquiry(book.job(second.id or 0))
    assert query(book._path, "SELECT count(*) FROM customer") == [(0,)]


def test_two_windows_cannot_delete_what_the_other_changed(path: Path) -> None:
    with opened(path) as book:
        job = enquired(book)
        other = open_book(path, "other")
        other.save_survey(job, builders.survey())
        other.close()
        with pytest.raises(Exception, match="changed in another window"):
            book.delete_enquiry(job)
