"""The notice of the right to cancel, for a householder who did not come to the trader.

Consumer Contracts (Information, Cancellation and Additional Charges) Regulations 2013: reg. 29 and
30 (14 days, no reason needed), reg. 34 (money back within 14 days), reg. 36 (begun at the express
request), the first and last quoted, reg. 34 from memory; the form has every field of Schedule 3
part B (read in a reproduction). The words of the notice are our own.
"""

from collections.abc import Iterator

from domain.accounts.as_sent import AsSent
from domain.accounts.invoice import Seller
from domain.papers.blocks import Block, FillIn, Words
from domain.papers.shared_parts import lines_of
from domain.tone import Tone

BY_WHEN = "14 days after we agree, or after the last of the materials reach you, whichever is later"
"""When the right ends. No day is named: it could prove too early."""

EARLY_REQUEST = (
    "Please start before my right to cancel ends. I know that if I then cancel I pay for the work "
    "done up to then, and that the right ends when the work is complete."
)
"""The customer's own words, without which no work is done in the first 14 days: a box to tick
beside the signature, since it has to be in writing (reg. 36(1), (6): from memory)."""

_TO_WRITE_IN = (
    "Ordered on *",
    "Received on *",
    "Name",
    "Address",
    "",
    "Signature (only if this form is on paper)",
    "Date",
)
"""A line for each field of the form; an address has a second."""


def cancel_blocks(says: AsSent) -> Iterator[Block]:
    """The notice and the form: a page of their own.

    Before a quote is accepted it is not known where that will be, so the notice says when it holds.
    It stays as it was sent, whatever is agreed or asked afterwards.
    """
    reach = reach_of(says.seller)
    yield Words(
        "If we agree at your home, or by telephone, e-mail or post, you can cancel, and you do "
        f"not have to say why, until {BY_WHEN}.",
        "Your right to cancel",
    )
    yield Words(
        f"To cancel, just tell us clearly: {reach}. You can use the form below, but you do not "
        "have to. It counts as in time if you send it before that time is up. We will refund you "
        "within 14 days of hearing from you, less the price of any work you asked us to start "
        "early."
    )
    yield Words(
        "We will not start within 14 days of agreeing unless you ask us to in writing. The box "
        "beside your signature on the quote does that.",
        "If you want us to start sooner",
    )
    yield Words(f"To: {reach}", "Cancellation form: use it only if you want to cancel")
    yield Words(
        "I/We * hereby give notice that I/We * cancel my/our * contract of sale of the following "
        "goods * / for the supply of the following service *: the materials for, and the "
        f"re-covering of, the roof at {says.place}."
    )
    yield FillIn(_TO_WRITE_IN)
    yield Words("* Please cross out what does not apply.", tone=Tone.QUIET)


def reach_of(seller: Seller) -> str:
    """Name, address, telephone and e-mail in a row."""
    return ", ".join(lines_of(seller.heading, seller.address, seller.phone, seller.email))
