"""A quote or an invoice that was made final before it went out, and the day it was sent."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class Outgoing(StrEnum):
    """What goes out to a customer and asks for an answer."""

    QUOTE = "quote"
    INVOICE = "invoice"
    """For the work or for the deposit."""


@dataclass(frozen=True, slots=True)
class ToSend:
    """A final paper that waits to be sent, or waited.

    A paper of which there is none went out on the day that it bears.
    """

    paper: Outgoing
    number: int
    """Of the quote within its job, or of the invoice."""
    sent_on: date | None = None
    """None while it waits."""
    id: int | None = None
