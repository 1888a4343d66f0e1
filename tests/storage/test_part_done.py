"""A job that is called off midway: its part is invoiced, owed and chased in the book."""

from pathlib import Path

import pytest

from domain.errors import HeadlapError
from domain.job import Closing, Ending, Reopening, Stage, StageMove
from storage.book import Book
from tests import builders
from tests.storage.books import booked, read_again


def test_calling_off_midway_invoices_the_part_done_and_cannot_be_reopened(
    book: Book, path: Path
) -> None:
    job = book.record_stripping(booked(book), builders.stripping())
    job = book.move_stage(job, StageMove(Stage.STRIPPED, builders.LAY_DAY, {}))
    kept = 100_00
    closing = Closing(
        Ending.CALLED_OFF, "moving", builders.SIGNED, builders.SIGNED, kept, "stripped, sheeted"
    )
    ended = book.end_job(job, closing)
    assert ended.invoice is not None
    assert (ended.invoice.gross, ended.owed, ended.kept) == (kept, kept, kept)
    assert [paper.sent_on for paper in ended.to_send[-1:]] == [None]
    assert read_again(path, ended) == ended
    with pytest.raises(HeadlapError, match="settled"):
        book.reopen(ended, Reopening("stays after all", builders.SIGNED))
