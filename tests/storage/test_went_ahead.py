"""The answer to “did it go ahead?” is one action, told in the history and undone like any other."""

from dataclasses import replace

import pytest

from domain.job import Cover, DayAnswer, WentAhead
from storage.book import Book
from tests import builders
from tests.storage.books import booked, undo


@pytest.mark.parametrize(
    ("went", "days", "cover"),
    [(WentAhead.RAINED_OFF, 0, None), (WentAhead.PART_DONE, 1, Cover.SHEETED)],
)
def test_an_answer_is_kept_told_and_undone(
    book: Book, went: WentAhead, days: int, cover: Cover | None
) -> None:
    before = booked(book)
    after = book.answer_day(before, DayAnswer(builders.LAY_DAY, went))
    assert after == book.job(before.id or 0)
    assert len(after.days) == days
    assert (after.stripping.cover if after.stripping else None) == cover
    clause = f"Wed 24 Jun {went}"
    assert book.history(before.id or 0)[0].words == clause
    assert undo(book, before.id or 0) == clause
    now = book.job(before.id or 0)
    assert replace(now, version=before.version) == before


def test_a_laying_that_was_part_done_can_be_undone_too(book: Book) -> None:
    job = book.record_stripping(booked(book), builders.stripping(on=builders.AGREED))
    after = book.answer_day(job, DayAnswer(builders.LAY_DAY, WentAhead.PART_DONE))
    assert after.days == ()
    assert after.stripping == builders.stripping(on=builders.AGREED, cover=Cover.SHEETED)
    undo(book, job.id or 0)
    now = book.job(job.id or 0)
    assert (now.days, now.stripping) == (job.days, job.stripping)
