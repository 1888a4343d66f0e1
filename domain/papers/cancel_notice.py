"""The notice of the right to cancel, for a householder who did not come to the trader.

Consumer Contracts (Information, Cancellation and Additional Charges) Regulations 2013: reg. 29 and
30 (14 days, no reason needed), reg. 34 (money back within 14 days), reg. 36 (begun at the express
request), the first and last quoted, reg. 34 from memory; the form has every field of Schedule 3
part B (quoted). The words of the notice are our own.
"""

from collections.abc import Iterator

from domain.accounts.as_sent import AsSent
from domain.accounts.invoice import Seller
from domain.days.calendar import cancellation_ends, show_date
from domain.job import Quote
from domain.papers.blocks import Block, FillIn, Signature, Ticks, Words
from domain.papers.shared_parts import lines_of
from domain.tone import Tone

EARLY_REQUEST = (
    "Please start work before the 14 days are up. I know that if I then cancel I "
    "pay for the work done up to then, and that my right to cancel ends when the "
    "work is complete."
)
"""The customer's own words, without which no work is done inside the period."""

_TO_WRITE_IN = (
    "Ordered on * / received on *",
    "Name",
    "Address",
    "",
    "Signature (only if this form is on paper)",
    "Date",
)
"""An address has a second line."""


def cancel_blocks(quote: Quote, says: AsSent) -> Iterator[Block]:
    """The notice, the express request and the form: a page of their own.

    Before a quote is accepted it is not known where that will be, so the notice says when it holds.
    It stays as it was sent, whatever is agreed or asked afterwards.
    """
    reach = _reach(says.seller)
    yield Words(_right(quote), "Your right to cancel")
    yield Words(_how(reach))
    yield Words(
        "We will not start within that time unless you ask us to. If you would like us to, please "
        "tick and sign:",
        "If you want us to start sooner",
    )
    yield Ticks(((False, EARLY_REQUEST),))
    yield Signature(says.buyer.name)
    yield Words(f"To: {reach}", "Cancellation form: use it only if you want to cancel")
    yield Words(
        "I/We * hereby give notice that I/We * cancel my/our * contract for the supply of the "
        f"following service: the re-covering of the roof at {says.place}."
    )
    yield FillIn(_TO_WRITE_IN)
    yield Words("* Please cross out what does not apply.", tone=Tone.QUIET)


def _right(quote: Quote) -> str:
    """What the right is, and the day on which it ends if we agree at once."""
    day = quote.sent_on or quote.drafted_on
    return (
        "If we agree at your home, or by telephone, e-mail or post, you can cancel "
        "within 14 days of the day we agree, and you do not have to say why. If we agree on "
        f"{show_date(day)}, you can cancel until the end of {show_date(cancellation_ends(day))}."
    )


def _how(reach: str) -> str:
    """How to cancel and what follows."""
    return (
        f"To cancel, just tell us clearly: {reach}. You can use the form "
        "below, but you do not have to. It counts as in time if you send it before the "
        "14 days are up. We will refund you within 14 days of hearing from you, less "
        "the price of any work you asked us to start early."
    )


def _reach(seller: Seller) -> str:
    """Name, address, telephone and e-mail in a row."""
    return ", ".join(lines_of(seller.heading, seller.address, seller.phone, seller.email))
