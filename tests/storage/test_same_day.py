"""What is booked for other jobs is read with a job, for the check of its days."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from domain.checks.check import OtherWork
from domain.checks.stages import missing
from domain.errors import NotNow
from domain.estimate.weights import van_load
from domain.job import Booking, Closing, Ending, Job, Stage, StageMove
from storage.book import Book
from tests import builders
from tests.storage.books import booked, laid, quoted

AFTER = builders.SIGNED


def _others(book: Book, job: Job) -> tuple[OtherWork, ...]:
    return book.situation(job.id or 0, builders.AGREED).others


def test_a_day_that_another_job_has_is_named_before_the_second_is_booked(book: Book) -> None:
    first, second = booked(book, "Mill Row"), quoted(book, "Birch Lane")
    option = second.quotes[0].options[0].id or 0
    second = book.accept_quote(second, builders.acceptance(option_id=option))
    days = (builders.booked_day(), builders.booked_day(day=AFTER, hours=Decimal(2)))
    second = book.book_days(second, Booking(days, materials_in_hand=True))
    load = van_load(first, book.trader().van)
    assert load is not None
    assert _others(book, second) == (
        OtherWork(builders.LAY_DAY, Decimal(8), first.ref, "Mill Row", load.kg),
    )
    with pytest.raises(NotNow, match="No other job on the day"):
        book.move_stage(second, StageMove(Stage.BOOKED, builders.AGREED, {}))
    (found,) = missing(book.situation(second.id or 0, builders.AGREED), Stage.BOOKED)
    assert "0001 Mill Row too, 16 of 8 h together." in found.remedy


def test_work_that_is_laid_ended_or_past_keeps_no_day(book: Book, path: Path) -> None:
    job = booked(book, "Birch Lane")
    laid(book, "Mill Row")
    gone = booked(book, "Old Quay")
    book.end_job(gone, Closing(Ending.CALLED_OFF, "moved away", builders.AGREED))
    assert _others(book, job) == ()
    later = booked(book, "Green Lane")
    day = replace(later.days[0], day=AFTER)
    later = book.book_days(later, Booking((day,), materials_in_hand=True))
    assert [(each.day, each.kg) for each in _others(book, job)] == [(AFTER, None)]
    assert book.situation(job.id or 0, builders.DUE).others == ()
