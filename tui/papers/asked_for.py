"""The paper that the command line asks for: of a job, of a customer, of the year's books."""

from datetime import date

from domain.books.items import items_of
from domain.papers.blocks import Paper
from domain.papers.held_paper import held_paper
from domain.papers.quarter_paper import quarter_paper
from domain.tax.years import quarter_of
from storage.book import Book
from tui.papers.job_papers import paper_of
from tui.papers.statement import statement_for

HELD, STATEMENT = "held", "statement"
"""The papers that are not of the job alone: what is held on its customer, and what they owe."""


def paper_asked_for(book: Book, kind: str, ref: str | None, today: date) -> Paper:
    """The paper of a kind; ``ref`` is that of its job, None for this quarter's books.

    Raises :class:`domain.errors.Refused` for a reference that no job has, and
    :class:`domain.errors.NotNow` where there is no such paper yet.
    """
    if ref is None:
        return _quarter(book, today)
    job = book.job_by_ref(ref)
    if kind == HELD:
        return held_paper(book.customer(job.customer.id or 0), book.trader(), today)
    if kind == STATEMENT:
        return statement_for(book, job.customer.id or 0, today)
    return paper_of(kind, job, book.trader(), book.sources(job.id, today))


def _quarter(book: Book, today: date) -> Paper:
    years, quarter = book.years_books(today), quarter_of(today)
    items = items_of(years.books, years.jobs, quarter.year, quarter.last)
    return quarter_paper(years.books, items, quarter, book.trader())
