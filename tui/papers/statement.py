"""The statement of account of a customer, from what the book has of them."""

from datetime import date

from domain.papers.blocks import Paper
from domain.papers.statement_paper import statement_of, statement_paper
from storage.book import Book


def statement_for(book: Book, customer_id: int, on: date) -> Paper:
    """Return what a customer owes on a day as a paper. Raises :class:`NotNow` for nothing."""
    record = book.customer(customer_id)
    owing = book.owing(customer_id)
    statement = statement_of(record.customer, owing, record.refundable, book.trader(), on)
    return statement_paper(statement, record.customer.email)
