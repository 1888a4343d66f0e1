"""What is said beside the papers of the work itself: an extra, the guarantee, the waste note."""

from domain.accounts.invoice import Buyer, Seller
from domain.papers.blocks import Letter

_ASK = "If you have a question, please ring or reply: we are glad to help."


def extra_letter(seller: Seller, buyer: Buyer, place: str, work: str, *, waits: bool) -> Letter:
    """What goes with ``work`` found besides; it asks for a yes in writing while it ``waits``."""
    if waits:
        what = f"we found work to do on your roof at {place} that is not in our quote. {work}."
        ask = "May we go ahead? Please reply yes before we start it."
    else:
        what = f"this is what we agreed besides our quote for your roof at {place}. {work}."
        ask = "Thank you."
    return Letter(
        seller.email,
        f"Extra work on your roof at {place}",
        f"Dear {buyer.name},\n\n{what[:1].upper()}{what[1:]}\n\n{ask} The paper is attached.\n\n"
        f"{_ASK}\n\nKind regards\n{seller.heading}\n{seller.phone}",
        f"Hello {buyer.name}, {what} {ask} {seller.heading}",
    )


def guarantee_letter(seller: Seller, buyer: Buyer, place: str, until: str) -> Letter:
    """What goes with the guarantee on a roof, which runs ``until`` a day."""
    what = f"our guarantee on the work on your roof at {place} runs until {until}"
    rights = "It is in addition to your legal rights."
    return Letter(
        seller.email,
        f"Guarantee for your roof at {place}",
        f"Dear {buyer.name},\n\nThank you for having us. {what[:1].upper()}{what[1:]}. {rights} "
        f"It is attached: please keep it.\n\n{_ASK}\n\nKind regards\n{seller.heading}\n"
        f"{seller.phone}",
        f"Hello {buyer.name}, thank you for having us: {what}. {rights} {seller.heading}",
    )


def waste_letter(seller: Seller, place: str, on: str, waste: str) -> Letter:
    """What goes with a waste transfer note to whoever takes the waste: nobody in the book."""
    what = f"of {waste} from {place}, {on}"
    return Letter(
        seller.email,
        f"Waste transfer note, {place}, {on}",
        f"Hello,\n\nOur waste transfer note {what}, is attached. Please fill in what is yours, "
        f"sign it and send a copy back.\n\nKind regards\n{seller.heading}\n{seller.phone}",
        f"Hello, this is about the waste transfer note {what}. Please sign it and send a copy "
        f"back. {seller.heading}",
    )
