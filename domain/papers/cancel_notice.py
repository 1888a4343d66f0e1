"""The notice of the right to cancel, for a householder who did not come to the trader.

Consumer Contracts (Information, Cancellation and Additional Charges) Regulations 2013: reg. 29 and
30 (14 days, no reason needed), reg. 34 (money back within 14 days), reg. 36 (begun at the express
request), the first and last quoted, reg. 34 from memory; the form follows Schedule 3 part B
(quoted). The words are our own.
"""

from collections.abc import Iterator

from domain.days.calendar import cancellation_ends, show_date
from domain.days.cancellation import right_ends
from domain.job import Acceptance, Customer, Quote
from domain.papers.blocks import Block, Signature, Ticks, Words
from domain.papers.shared_parts import lines_of
from domain.trader import Trader

_BLANK = "_" * 24  # shorter than what the typesetter breaks
EARLY_REQUEST = (
    "Please start work before the 14 days are up. I know that if I then cancel I "
    "pay for the work done up to then, and that my right to cancel ends when the "
    "work is complete."
)
"""The customer's own words, without which no work is done inside the period."""


def cancel_blocks(customer: Customer, quote: Quote, trader: Trader, place: str) -> Iterator[Block]:
    """The notice, the form and the express request; nothing where there is no such right.

    Before a quote is accepted it is not known where that will be, so the notice says when it holds.
    It stays as it was sent, whatever is agreed or asked afterwards.
    """
    if not customer.is_householder:
        return
    yield Words(f"{_right(quote)} {_how(trader)}", "Your right to cancel")
    yield Words(
        (
            "We will not start within that time unless you ask us to. If you want us to "
            "start sooner, tick and sign:"
        ),
        "If you want us to start sooner",
    )
    yield Ticks(((False, EARLY_REQUEST),))
    yield Signature(customer.name)
    yield Words(_form(trader, place), "Cancellation form: use it only if you want to cancel")


def agreed_since(customer: Customer, acceptance: Acceptance, taken: str) -> Words:
    """What was agreed and asked after the quote was sent, and until when it can be cancelled.

    ``taken`` is the covering that was chosen; empty where there was no choice.
    """
    what = f": {taken}" if taken else ""
    told = [f"Agreed on {show_date(acceptance.on)} by {acceptance.who}{what}."]
    if acceptance.early_request_on is not None:
        asked = show_date(acceptance.early_request_on)
        told.append(f"You asked us on {asked} to start early.")
    ends = right_ends(customer, acceptance)
    if ends is not None:
        told.append(f"You can cancel until the end of {show_date(ends)}.")
    return Words(" ".join(told), "Agreed since this quote was sent")


def _right(quote: Quote) -> str:
    """What the right is, and the day on which it ends if we agree at once."""
    day = quote.sent_on or quote.drafted_on
    return (
        "If we agree at your home, or by telephone, e-mail or post, you can cancel "
        "within 14 days of the day we agree, and you do not have to say why. If we agree on "
        f"{show_date(day)}, you can cancel until the end of {show_date(cancellation_ends(day))}."
    )


def _how(trader: Trader) -> str:
    """How to cancel and what follows."""
    return (
        f"To cancel, just tell us clearly: {_reach(trader)}. You can use the form "
        "at the end, but you do not have to. It counts as in time if you send it before the "
        "14 days are up. We will refund you within 14 days of hearing from you, less "
        "the price of any work you asked us to start early."
    )


def _form(trader: Trader, place: str) -> str:
    """The form, filled in as far as the trader can."""
    return (
        f"To {_reach(trader)}:\n"
        "I hereby give notice that I cancel my contract for the supply of "
        f"the following service: the re-covering of the roof at {place}.\n"
        f"Ordered on: {_BLANK}\nName: {_BLANK}\nAddress: {_BLANK}\n"
        f"Signature (only on paper): {_BLANK}\nDate: {_BLANK}"
    )


def _reach(trader: Trader) -> str:
    """Name, address, telephone and e-mail in a row."""
    return ", ".join(lines_of(trader.heading, trader.address, trader.phone, trader.email))
