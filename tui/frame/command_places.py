"""One command, and the places that commands belong to."""

from typing import NamedTuple


class Command(NamedTuple):
    """One thing a person can ask for."""

    id: str
    key: str
    """Textual's name of the key; several with commas."""
    words: str
    """What footer and palette call it: short, the verb first."""
    help: str
    """One sentence for the help page."""
    where: str
    """The screen it belongs to: a key of :data:`PLACES`."""
    footer: bool = True
    """Whether the line of keys shows it; six fit into 80 columns."""
    first: bool = False
    """Whether its key is the command's even where a list or a text would scroll by it."""

    @property
    def keys(self) -> list[str]:
        """Each of its keys, the one to be named first."""
        return self.key.split(",")


def question(
    where: str, yes: str, does: str, leaves: str, *, also: str = ""
) -> tuple[Command, Command]:
    """The two answers to a question in which nothing is typed, by the same keys in every one.

    Enter is no: who presses it once too often loses nothing. ``yes`` is what the other key does in
    the line of keys, ``does`` and ``leaves`` are the sentences of the help page; ``also`` is a
    second key for yes, that which asked.
    """
    return (
        Command("leave", "enter,escape", "no", leaves, where),
        Command("save", f"y,{also}" if also else "y", f"yes, {yes}", does, where),
    )


PLACES = {
    "anywhere": "Anywhere",
    "week": "The week",
    "jobs": "Jobs",
    "job": "A job",
    "customer": "A customer",
    "form": "Typing in a form",
    "dialog": "A question",
    "enquiry": "A new enquiry",
    "delete": "Deleting an enquiry",
    "undo": "Undoing what was saved",
    "notes": "The notes of a job",
    "history": "What was done of a job",
    "entry": "One thing that was done, in full",
    "ring": "Ringing about the weather",
    "owed": "What is owed",
    "chase": "An overdue invoice",
    "quote_call": "Ringing about a quote",
    "tied_down": "Tying a tarpaulin down",
    "code": "A text message as a square code",
    "unsaved": "Typing that was not saved",
    "papers": "The papers of a job",
    "used": "Materials and hours",
    "enquired": "The enquiry page",
    "survey": "The survey",
    "quote": "The quote page",
    "booking": "The booking page",
    "coverings": "Compare coverings",
    "stripped": "Stripping: what we found",
    "laid": "The laying page",
    "signed_off": "Signing off",
    "money": "Invoices and payments",
    "issue": "Issuing an invoice",
    "notice": "A form that cannot come yet",
    "reprice": "Re-pricing a sent quote",
    "setup": "Setting up",
    "prices": "Prices",
    "prices_in": "Prices from a file",
    "stock": "Stock (leftovers)",
    "orders": "Orders at the merchants",
    "books": "The year's books",
    "accept_miles": "Accepting miles of several days",
    "trader": "Your details",
    "backups": "Backups",
    "restore": "Restoring a backup",
    "paper": "A paper",
    "takeoff": "The take-off",
    "drawing": "The roof drawn to scale",
    "help": "Help",
}
"""Where a command can be given, and what the help page calls it."""
