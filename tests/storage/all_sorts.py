"""One book with jobs of every kind: at every stage, ended, owing, paid and paid over."""

from dataclasses import replace
from datetime import date, time
from decimal import Decimal

from domain.accounts.counter_entries import GivenBack
from domain.books.miles import Miles
from domain.books.money_back import MoneyBack
from domain.books.purchase import Purchase
from domain.checks.stages import CHECKS
from domain.job import (
    BookedDay,
    Booking,
    Closing,
    Cover,
    DocumentKind,
    Ending,
    Enquiry,
    EnquiryRecord,
    Extra,
    ExtraState,
    Job,
    OldCovering,
    OldKind,
    Received,
    Sending,
    SignOff,
    Site,
    Snag,
    Stage,
    StageMove,
    Suspicion,
)
from storage.book import Book
from tests import builders, priced
from tests.storage.books import NOW, booked, enquired, laid, one_option, quoted, surveyed

NOTES = {check.id: "seen to" for check in CHECKS}
"""Words for every caution there is."""


def fill(book: Book) -> None:
    """Write the jobs, each with something of its own; the first reference is 0001."""
    elsewhere = Enquiry(NOW.date(), visit_on=date(2026, 7, 1), visit_at=time(9, 0), rough=300_00)
    book.take_enquiry(EnquiryRecord(builders.customer(name="Ægir Ólafsson"), Site(""), elsewhere))
    known = enquired(book, "100 % Quay_side").customer
    job = book.take_enquiry(
        EnquiryRecord(known, Site("O'Brien's “Nook” \\ 42"), Enquiry(NOW.date()))
    )
    doubtful = OldCovering(OldKind.CEMENT_SHEET, 1, Suspicion.BEFORE)
    book.save_survey(job, builders.survey(covering=None, old=doubtful))
    job = surveyed(book, "Zoë's")
    book.save_quote(job, one_option(job))
    _with_vat(book, surveyed(book, "Green Lane"))
    _revised(book, quoted(book, "The Green"))
    booked(book, "Priory Gardens")
    _stripped(book, booked(book, "Old Quay"))
    job = book.issue_deposit_invoice(laid(book, "Birch Lane"), builders.SIGNED)
    book.record_payment(job, Received(job.documents[0].id or 0, 30_00, NOW.date(), "cash"))
    _long_done(book, laid(book, "Long Done"))
    _end(book, quoted(book, "Nowhere"), Ending.DECLINED)
    _end(book, booked(book, "Nowhere Else"), Ending.CALLED_OFF)
    job = book.issue_deposit_invoice(booked(book, "Station Road"), builders.AGREED)
    _end(book, job, Ending.CALLED_OFF)
    job = book.sign_off(laid(book, "Mill Row"), SignOff("Mrs Adeyemi", builders.SIGNED))
    job = book.issue_invoice(job, builders.SIGNED)
    book.move_stage(job, StageMove(Stage.SIGNED_OFF, builders.SIGNED, NOTES))
    slip = Purchase(NOW.date(), "=Quay & Sons", "mastic", 33_00)
    bought = book.save_purchase(slip, job.ref, NOW.date())
    book.save_money_back(MoneyBack(NOW.date(), 5_50, "=1 too many", bought.id or 0), NOW.date())
    book.save_miles([Miles(NOW.date(), Decimal("24.5"), "Mill Row, lay", job.id)], NOW.date())
    book.save_forecasts([builders.forecast(typed="r")])
    book.save_forecasts([builders.forecast(date(2026, 7, 2), "d9-12,14-17@8g21.5")])


def _with_vat(book: Book, job: Job) -> None:
    """A quote that was sent, and its revision, which shows VAT."""
    for trader in (builders.trader(), priced.registered()):
        job = book.save_quote(job, priced.quote(trader, job=job))
        job = book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))


def _revised(book: Book, job: Job) -> None:
    """The second covering of the first quote was accepted; a revision lies there in draft."""
    second = job.quotes[0].options[1].id or 0
    job = book.accept_quote(job, builders.acceptance(option_id=second))
    book.save_quote(job, replace(one_option(job), number=2))


def _stripped(book: Book, job: Job) -> None:
    """Stripped and sheeted, an extra still to agree, a second day booked."""
    days = (*job.days, BookedDay(date(2026, 6, 26), Decimal("6.5"), "lay"))
    job = book.book_days(job, Booking(days, materials_in_hand=False))
    job = book.record_stripping(job, builders.stripping(cover=Cover.SHEETED))
    job = book.move_stage(job, StageMove(Stage.STRIPPED, builders.LAY_DAY, NOTES))
    extra = Extra("rotten board", Decimal("2.5"), "m", 35_00, Decimal(0))
    job = book.save_extra(job, extra)
    book.save_extra(job, replace(extra, words="trim", state=ExtraState.NOT_CHARGED))


def _long_done(book: Book, job: Job) -> None:
    """Signed off and paid over in the end, with a snag and a guarantee."""
    job = book.issue_invoice(job, builders.SIGNED)
    word = SignOff("Mrs Adeyemi", builders.SIGNED, date(2036, 6, 25), "ten years")
    job = book.save_snag(book.sign_off(job, word), Snag("trim loose"))
    job = book.move_stage(job, StageMove(Stage.SIGNED_OFF, builders.SIGNED, NOTES))
    invoice = job.documents[0]
    for pence in (100_00, invoice.gross):
        job = book.record_payment(
            job, Received(invoice.id or 0, pence, builders.DUE, "bank transfer")
        )


def give_back_what_is_over(book: Book, job: Job) -> Job:
    """Pay back what stands to the customer's credit out of the last payment."""
    over = GivenBack(
        DocumentKind.REFUND, job.payments[-1].id or 0, job.credit, builders.DUE, "paid twice"
    )
    return book.give_back(job, over, builders.DUE)


def _end(book: Book, job: Job, ending: Ending) -> None:
    book.end_job(job, Closing(ending, "moved away", builders.SIGNED))
