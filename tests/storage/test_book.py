"""Each action saves what it was given; what is read back is the same by any hand."""

import json
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from domain.coverings.materials import Material
from domain.errors import NotNow
from domain.estimate.stock import StockLine, StockMove
from domain.estimate.usage import UsageRecord
from domain.job import (
    BookedDay,
    Booking,
    Closing,
    Cover,
    Customer,
    CustomerKind,
    Ending,
    Enquiry,
    EnquiryRecord,
    Extra,
    ExtraState,
    Job,
    Means,
    Quote,
    Received,
    Reopening,
    Sending,
    SignOff,
    Site,
    Snag,
    Stage,
    StageBack,
    StageMove,
)
from storage.book import Book
from tests import builders, priced
from tests.storage.books import enquired, query, quote_for, quoted, read_again, surveyed, undo

BARE = Customer("Ö. Ŝmith [/] & Sons; DROP TABLE job --", CustomerKind.BUSINESS)
EXTRA = Extra("rotten board", Decimal("2.50"), "m", 35_00, Decimal(0))


def _plain(quote: Quote) -> Quote:
    """A quote without the numbers that the book gave its parts."""
    options = (
        replace(o, id=None, lines=tuple(replace(line, id=None) for line in o.lines))
        for o in quote.options
    )
    return replace(quote, options=tuple(options), id=None)


def test_an_enquiry_is_kept_whole(book: Book, path: Path) -> None:
    customer, site, enquiry = builders.customer(), builders.site(), builders.enquiry(rough=350_00)
    job = book.take_enquiry(EnquiryRecord(customer, site, enquiry))
    assert replace(job.customer, id=None, version=0) == customer
    assert replace(job.site, id=None, version=0) == site
    assert job.enquiry == enquiry
    assert (job.ref, job.stage, job.ended) == ("0001", Stage.ENQUIRY, None)
    assert read_again(path, job) == job


def test_an_enquiry_of_which_little_is_known_is_kept_too(book: Book, path: Path) -> None:
    job = book.take_enquiry(EnquiryRecord(BARE, Site(""), Enquiry(builders.RECEIVED)))
    assert job.customer.name == BARE.name
    assert job.customer.kind is CustomerKind.BUSINESS
    assert job.enquiry == Enquiry(builders.RECEIVED)
    assert query(path, "SELECT name, phone FROM customer") == [(BARE.name, "")]
    assert query(path, "SELECT rough, visit_on, visit_at FROM job") == [(None, None, None)]


def test_a_second_job_of_a_known_customer_makes_no_second_customer(book: Book, path: Path) -> None:
    first = enquired(book)
    second = book.take_enquiry(
        EnquiryRecord(first.customer, builders.site(place="Quay"), builders.enquiry())
    )
    assert second.customer.id == first.customer.id
    assert (first.ref, second.ref) == ("0001", "0002")
    assert query(path, "SELECT count(*) FROM customer") == [(1,)]


def test_an_enquiry_is_corrected_in_place(book: Book, path: Path) -> None:
    job = enquired(book)
    customer = builders.customer(name="Mr Adeyemi", email="")
    site, enquiry = builders.site(ruled_out="Mondays"), builders.enquiry(visit_on=None)
    job = book.change_enquiry(job, EnquiryRecord(customer, site, enquiry))
    assert replace(job.customer, id=None, version=0) == customer
    assert replace(job.site, id=None, version=0) == site
    assert job.enquiry == enquiry
    assert read_again(path, job) == job
    assert query(path, "SELECT count(*) FROM customer") == [(1,)]


def test_a_survey_is_kept_with_what_was_typed_and_what_it_came_to(book: Book, path: Path) -> None:
    job = book.save_survey(enquired(book), builders.survey())
    assert job.survey == builders.survey()
    assert read_again(path, job) == job
    ((roof,),) = query(path, "SELECT roof FROM survey")
    assert json.loads(roof)["span"] == {"mm": "1800", "typed": "1800 mm"}
    again = builders.survey(measures=builders.measures(span=builders.mm(1900)), covering=None)
    assert book.save_survey(job, again).survey == again
    assert query(path, "SELECT count(*) FROM survey") == [(1,)]


def test_a_draft_is_kept_in_place_of_the_draft_before(book: Book, path: Path) -> None:
    job = surveyed(book)
    first = book.save_quote(job, priced.quote(job=job))
    job = book.save_quote(first, quote_for(first))
    assert [_plain(quote) for quote in job.quotes] == [_plain(quote_for(first))]
    assert read_again(path, job) == job
    lines = len(job.quotes[0].options[0].lines) + len(job.quotes[0].options[1].lines)
    assert query(path, "SELECT count(*) FROM line") == [(lines,)]
    assert query(path, "SELECT count(*) FROM option") == [(2,)]


def test_a_draft_is_saved_as_a_draft_whatever_it_says(book: Book) -> None:
    job = surveyed(book)
    given = replace(quote_for(job), sent_on=builders.SENT, valid_until=builders.VALID_UNTIL)
    assert book.save_quote(job, given).quotes[0].sent_on is None


def test_sending_a_quote_moves_the_job_on_and_keeps_the_days(book: Book, path: Path) -> None:
    job = quoted(book)
    assert (job.stage, job.quotes[0].sent_on) == (Stage.QUOTED, builders.SENT)
    assert job.quotes[0].valid_until == builders.VALID_UNTIL
    assert read_again(path, job) == job


def test_a_revised_quote_stands_beside_the_one_that_was_sent(book: Book, path: Path) -> None:
    job = quoted(book)
    revised = replace(priced.quote(job=job), number=2)
    job = book.save_quote(job, revised)
    assert [quote.number for quote in job.quotes] == [1, 2]
    assert job.quotes[0].sent_on == builders.SENT
    job = book.send_quote(job, Sending(builders.AGREED, builders.VALID_UNTIL, {}))
    assert job.quotes[1].sent_on == builders.AGREED
    assert read_again(path, job) == job


def test_a_revised_quote_is_not_sent_on_measures_that_have_since_changed(
    book: Book, path: Path
) -> None:
    job = quoted(book)
    job = book.save_quote(job, replace(priced.quote(job=job), number=2))
    longer = builders.measures(length=builders.mm(3000))
    job = book.save_survey(job, builders.survey(measures=longer))
    with pytest.raises(NotNow, match="Priced from the latest survey"):
        book.send_quote(job, Sending(builders.AGREED, builders.VALID_UNTIL, {}))
    assert query(path, "SELECT sent_on FROM quote WHERE number = 2") == [(None,)]


def test_an_acceptance_is_kept_and_given_to_another_quote(book: Book, path: Path) -> None:
    job = quoted(book)
    second = job.quotes[0].options[1].id or 0
    yes = builders.acceptance(option_id=second, early_request_on=None, means=Means.TEXT)
    job = book.accept_quote(job, yes)
    assert job.quotes[0].acceptance == yes
    takeoffs = (priced.worked_example("hexagonal"),)
    job = book.save_quote(job, replace(priced.quote(job=job, takeoffs=takeoffs), number=2))
    job = book.send_quote(job, Sending(builders.AGREED, builders.VALID_UNTIL, {}))
    other = replace(yes, option_id=job.quotes[1].options[0].id or 0)
    job = book.accept_quote(job, other)
    assert [quote.acceptance for quote in job.quotes] == [None, other]
    assert read_again(path, job) == job


def test_days_are_booked_in_place_of_those_before(book: Book, path: Path) -> None:
    days = tuple(
        BookedDay(builders.LAY_DAY + timedelta(days=n), Decimal("7.5"), task)
        for n, task in ((1, "lay"), (0, "strip"))
    )
    job = book.book_days(quoted(book), Booking((builders.booked_day(),), materials_in_hand=False))
    job = book.book_days(job, Booking(days, materials_in_hand=True))
    assert [replace(day, id=None) for day in job.days] == [days[1], days[0]]
    assert job.materials_in_hand is True
    assert read_again(path, job) == job
    assert query(path, "SELECT day, hours FROM booking ORDER BY day") == [
        ("2026-06-24", "7.5"),
        ("2026-06-25", "7.5"),
    ]


def test_the_days_on_the_roof_are_recorded_and_corrected(book: Book, path: Path) -> None:
    job = book.record_stripping(quoted(book), builders.stripping())
    sheeted = builders.stripping(cover=Cover.SHEETED, waste_kg=None)
    job = book.record_stripping(job, sheeted)
    assert job.stripping == sheeted
    job = book.record_laying(job, builders.laying())
    cold = builders.laying(ticks=frozenset(), temperature_c=Decimal("-2.5"), deck_dry=None)
    job = book.record_laying(job, cold)
    assert job.laying == cold
    word = SignOff("Mrs Adeyemi", builders.SIGNED, date(2036, 6, 25), "ten years on the laying")
    job = book.sign_off(book.sign_off(job, SignOff("", builders.SIGNED)), word)
    assert job.sign_off == word
    assert read_again(path, job) == job


def test_an_extra_is_recorded_settled_and_deleted(book: Book, path: Path) -> None:
    job = book.save_extra(book.save_extra(enquired(book), EXTRA), replace(EXTRA, words="trim"))
    first, second = job.extras
    assert replace(first, id=None) == EXTRA
    agreed = replace(
        first,
        price=-5_00,
        state=ExtraState.AGREED,
        agreed_by="Mr Adeyemi",
        agreed_on=builders.LAY_DAY,
        means=Means.SPOKEN,
        begun_before=True,
    )
    job = book.save_extra(job, agreed)
    assert job.extras == (agreed, second)
    job = book.delete_extra(job, second.id or 0)
    assert job.extras == (agreed,)
    assert read_again(path, job) == job


def test_a_snag_is_recorded_and_done(book: Book, path: Path) -> None:
    job = book.save_snag(enquired(book), Snag("trim loose"))
    done = replace(job.snags[0], done_on=builders.SIGNED)
    job = book.save_snag(job, done)
    assert job.snags == (done,)
    assert read_again(path, job) == job


def test_what_was_used_goes_with_what_the_stock_took_in(book: Book, path: Path) -> None:
    job, rows = enquired(book), builders.usages()
    move = StockMove(
        Material("square-butt"), "slate grey", Decimal("7.5"), builders.LAY_DAY, "left over"
    )
    job = book.record_usage(job, UsageRecord(rows, (move,)))
    job = book.record_usage(job, UsageRecord(rows[:2], (move,)))
    assert [replace(row, id=None) for row in job.usages] == [replace(r, id=None) for r in rows[:2]]
    assert read_again(path, job) == job
    assert book.stock() == (StockLine(Material("square-butt"), "slate grey", Decimal("7.5")),)
    assert query(path, "SELECT job_id, quantity, words FROM stock_move") == [
        (job.id, "7.5", "left over")
    ]


def test_what_was_used_takes_no_more_than_the_stock_held_and_undoing_brings_that_back(
    book: Book,
) -> None:
    held = StockMove(Material.MASTIC, "", Decimal(3), builders.LAY_DAY, "counted")
    book.move_stock(held)
    job, before = enquired(book), book.stock()
    book.record_usage(job, UsageRecord(builders.usages(), (replace(held, quantity=Decimal(-4)),)))
    assert book.stock() == ()
    undo(book, job.id or 0)
    assert book.stock() == before == (StockLine(Material.MASTIC, "", Decimal(3)),)


def test_leftovers_taken_for_another_job_stay_taken_whatever_is_corrected(book: Book) -> None:
    left = StockMove(Material("square-butt"), "slate grey", Decimal(8), builders.LAY_DAY, "left")
    taken = replace(left, quantity=Decimal(-8))

    def record(job: Job, *moves: StockMove) -> Job:
        return book.record_usage(job, UsageRecord(builders.usages(), moves))

    a, b = record(enquired(book), left), enquired(book)
    assert [line.quantity for line in book.stock()] == [8]
    assert book.would_be_short(b.id, (taken,)) == ()
    record(b, taken)
    assert book.stock() == ()
    assert [line.quantity for line in book.would_be_short(a.id, ())] == [8]
    a = record(a)
    assert book.stock() == ()
    record(a, left)
    assert book.stock() == ()
    book.move_stock(replace(left, quantity=Decimal(3)))
    assert [line.quantity for line in book.stock()] == [3]


def test_a_job_turns_back_ends_and_is_taken_up_again(book: Book, path: Path) -> None:
    job = book.go_back(quoted(book), StageBack(Stage.SURVEY, " measured again ", builders.AGREED))
    assert job.stage is Stage.SURVEY
    job = book.end_job(job, Closing(Ending.CALLED_OFF, "sold the shed", builders.AGREED))
    assert (job.ended, job.ended_why) == (Ending.CALLED_OFF, "sold the shed")
    assert read_again(path, job) == job
    job = book.reopen(job, Reopening("bought another", builders.AGREED))
    assert (job.stage, job.ended, job.ended_why) == (Stage.SURVEY, None, "")
    assert [note.words for note in job.notes] == [
        "measured again",
        "sold the shed",
        "bought another",
    ]
    assert read_again(path, job) == job


def test_a_caution_is_passed_with_its_note(book: Book, path: Path) -> None:
    job = book.take_enquiry(
        EnquiryRecord(builders.customer(), builders.site(), builders.enquiry(visit_on=None))
    )
    with pytest.raises(NotNow, match="a note to each caution"):
        book.move_stage(job, StageMove(Stage.SURVEY, builders.VISIT, {}))
    assert book.job(job.id or 0) == job
    job = book.move_stage(
        job,
        StageMove(
            Stage.SURVEY,
            builders.VISIT,
            {"visit-time": "any evening", "measured": "by his brother"},
        ),
    )
    assert [(note.check_id, note.words, note.on) for note in job.notes] == [
        ("visit-time", "any evening", builders.VISIT),
        ("measured", "by his brother", builders.VISIT),
    ]
    assert read_again(path, job) == job


def test_a_whole_job_from_the_enquiry_to_the_last_pound(book: Book, path: Path) -> None:
    job = quoted(book)
    first = job.quotes[0].options[0]
    job = book.accept_quote(job, builders.acceptance(option_id=first.id or 0))
    job = book.issue_deposit_invoice(job, builders.AGREED)
    job = book.record_payment(
        job, Received(job.documents[0].id or 0, 100_00, builders.AGREED, "cash")
    )
    job = book.book_days(job, Booking((builders.booked_day(),), materials_in_hand=True))
    job = book.move_stage(job, StageMove(Stage.BOOKED, builders.AGREED, {}))
    job = book.record_stripping(job, builders.stripping())
    job = book.move_stage(job, StageMove(Stage.STRIPPED, builders.LAY_DAY, {}))
    job = book.record_laying(job, builders.laying())
    job = book.record_usage(job, UsageRecord(builders.usages(), ()))
    job = book.move_stage(job, StageMove(Stage.LAID, builders.LAY_DAY, {}))
    job = book.issue_invoice(job, builders.SIGNED)
    job = book.sign_off(job, SignOff("Mrs Adeyemi", builders.SIGNED))
    job = book.move_stage(job, StageMove(Stage.SIGNED_OFF, builders.SIGNED, {}))
    invoice = job.invoice
    assert invoice is not None
    whole = sum(line.price for line in first.lines)
    assert invoice.gross == whole - 100_00
    job = book.record_payment(job, Received(invoice.id or 0, 50_00, builders.SIGNED, "cash"))
    assert job.owed == whole - 150_00
    job = book.record_payment(job, Received(invoice.id or 0, whole, builders.DUE, "bank transfer"))
    assert (job.owed, job.payments[-1].unallocated) == (0, 150_00)
    assert job.stage is Stage.SIGNED_OFF
    assert read_again(path, job) == job
    assert query(path, "SELECT kind, number, gross, due_on FROM document ORDER BY id") == [
        ("deposit invoice", 1, 100_00, "2026-06-22"),
        ("receipt", 1, 100_00, "2026-06-08"),
        ("invoice", 2, whole - 100_00, "2026-07-09"),
        ("receipt", 2, 50_00, "2026-06-25"),
        ("receipt", 3, whole, "2026-07-09"),
    ]
    assert query(path, "SELECT sum(pence) FROM allocation") == [(whole,)]
