"""Text enters the book without what a terminal obeys, and with an end."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from domain.job import Enquiry, EnquiryRecord, Extra
from storage.book import Book
from storage.texts import LINE, NOTE, TooLong
from tests import builders
from tests.storage.books import dump, enquired

NASTY = "Bell\a, red \x1b[31m, turned \u202eround\u200e\u200f\u2066, c1 \x9b2J, tab\there"
PLAIN = "Bell, red [31m, turned round, c1 2J, tab here"


def _asked(book: Book, said: str = "", name: str = "Mrs Vane") -> object:
    enquiry: Enquiry = builders.enquiry(said=said)
    return book.take_enquiry(EnquiryRecord(builders.customer(name=name), builders.site(), enquiry))


def test_control_characters_do_not_enter_the_book(book: Book, path: Path) -> None:
    job = book.take_enquiry(
        EnquiryRecord(
            builders.customer(name=NASTY),
            builders.site(place=NASTY),
            builders.enquiry(said=f"{NASTY}\r\nA second line\u2028and a third"),
        )
    )
    assert (job.customer.name, job.site.place) == (PLAIN, PLAIN)
    assert job.enquiry.said == f"{PLAIN}\nA second line\nand a third"
    assert PLAIN in book.recent(1)[0].words
    kept = str(dump(path, "journal"))
    assert "\\x1b" not in kept
    assert "\\u202e" not in kept


def test_nor_by_what_an_extra_is_counted_in(book: Book) -> None:
    one = Extra("boards", Decimal(1), f"boards{NASTY}", 14_00, Decimal(0))
    job = book.save_extra(enquired(book), one)
    assert job.extras[0].unit == f"boards{PLAIN}"


def test_nor_within_a_group_of_figures(book: Book) -> None:
    survey = builders.survey()
    access = replace(survey.access, means=NASTY)
    job = book.save_survey(enquired(book), replace(survey, access=access))
    assert job.survey is not None
    assert job.survey.access.means == PLAIN


@pytest.mark.parametrize("name", ["Zoë Ægir-O'Brien", "李小龍", "👨‍👩‍👧 & Sons", "e\u0301"])
def test_names_of_all_the_world_stay_as_they_are(book: Book, name: str) -> None:
    _asked(book, name=name)
    assert book.job(1).customer.name == name


def test_a_text_has_room_to_its_last_character(book: Book) -> None:
    _asked(book, said="x" * NOTE, name="y" * LINE)
    assert len(book.job(1).enquiry.said) == NOTE


@pytest.mark.parametrize(
    ("said", "name", "words"),
    [
        ("", "y" * 260, "Name: 260 characters, at most 200."),
        ("x" * 5_001, "Mrs Vane", "Said: 5,001 characters, at most 5,000."),
    ],
)
def test_a_text_that_is_too_long_is_told_and_nothing_is_saved(
    book: Book, path: Path, said: str, name: str, words: str
) -> None:
    before = dump(path)
    with pytest.raises(TooLong) as refused:
        _asked(book, said, name)
    assert str(refused.value) == words
    assert refused.value.sentence("Customer").startswith("Customer: ")
    assert dump(path) == before
