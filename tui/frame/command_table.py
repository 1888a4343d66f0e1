"""Every command, declared once: footer, palette, help and the key tests are made from this table.

``id`` is the name of the action (``action_<id>``) of the screen or app named in ``where``.
A letter does nothing while a field is being typed in, so what is needed there has a control key.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from domain.coverings.registry import COVERINGS


@dataclass(frozen=True, slots=True)
class Command:
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


PLACES = {
    "anywhere": "Anywhere",
    "week": "The week",
    "jobs": "Jobs",
    "job": "A job",
    "form": "Typing in a form",
    "dialog": "A question",
    "used": "Materials and hours",
    "survey": "The survey",
    "quote": "The quote page",
    "booking": "The booking page",
    "coverings": "Compare coverings",
    "stripped": "Stripping: what we found",
    "laid": "The laying page",
    "signed_off": "Signing off",
    "money": "Invoices and payments",
    "issue": "Issuing an invoice",
    "anew": "Re-pricing a sent quote",
    "prices": "Prices",
    "stock": "Stock (leftovers)",
    "trader": "Your details",
    "paper": "A paper",
    "takeoff": "The take-off",
    "drawing": "The roof drawn to scale",
    "help": "Help",
}

_SITE_SHEET = "Show the paper for the roof: drawing, chalk lines, cut list, fixings."

_OFFER = "Offer the {} covering in the quote, or leave it out."

OFFER_KEYS = "abcdefghi"
"""The letters that offer a covering, in the order of the comparison."""
_ORDINALS = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"]


def _use_and_offer() -> Iterator[Command]:
    """A digit uses a covering and a letter offers it, a pair for each that can be compared."""
    places = list(zip("123456789", OFFER_KEYS, _ORDINALS, strict=True))[: len(COVERINGS)]
    for digit, _, nth in places:
        words = f"use {nth}"
        help_ = f"Use the {nth} covering."
        yield Command(f"take({digit})", digit, words, help_, "coverings", footer=digit == "1")
    for digit, letter, nth in places:
        is_first = digit == "1"
        words, help_ = f"offer {nth}", _OFFER.format(nth)
        yield Command(f"offer({digit})", letter, words, help_, "coverings", footer=is_first)


COMMANDS: tuple[Command, ...] = (
    Command("help", "f1,question_mark", "help", "Show the keys and what they do.", "anywhere"),
    Command("go('week')", "f2,w", "the week", "Go to the week.", "anywhere", footer=False),
    Command("go('jobs')", "f3,j", "jobs", "Go to the list of all jobs.", "anywhere", footer=False),
    Command("go('prices')", "f4", "prices", "Go to material prices.", "anywhere", footer=False),
    Command("go('stock')", "f5", "stock", "Go to your leftover stock.", "anywhere", footer=False),
    Command("go('trader')", "f6", "your details", "Go to your details.", "anywhere", footer=False),
    Command("new_enquiry", "f7,n", "new enquiry", "Add a new enquiry.", "anywhere", footer=False),
    Command(
        "undo",
        "f8,ctrl+z",
        "undo",
        "Undo the last save.",
        "anywhere",
        footer=False,
    ),
    Command(
        "switch_colours",
        "f9",
        "light or dark",
        "Switch between light and dark colours.",
        "anywhere",
        footer=False,
    ),
    Command("quit", "ctrl+q", "quit", "Quit Headlap.", "anywhere", footer=False),
    Command("open", "enter", "open", "Open the highlighted line.", "week"),
    Command("used", "u", "materials", "Record materials and hours used.", "week"),
    Command("invoice", "i", "invoice", "Issue the invoice of the job.", "week"),
    Command("forecast", "f", "forecast", "Type the forecast for a day.", "week"),
    Command(
        "page_week(-1)",
        "left_square_bracket",
        "last week",
        "Show the week before.",
        "week",
        footer=False,
    ),
    Command(
        "page_week(1)",
        "right_square_bracket",
        "next week",
        "Show the next week.",
        "week",
        footer=False,
    ),
    Command(
        "print_week", "p", "week sheet", "Show the week as a paper to print.", "week", footer=False
    ),
    Command("find", "slash,ctrl+f", "find", "Find a job by customer, place or reference.", "week"),
    Command("open", "enter", "open", "Open the highlighted job.", "jobs"),
    Command(
        "find", "slash,ctrl+f", "find", "Type to find by customer, place or reference.", "jobs"
    ),
    Command("next_group", "right", "next stage", "Show the jobs of the next stage.", "jobs"),
    Command(
        "previous_group",
        "left",
        "previous stage",
        "Show the jobs of the previous stage.",
        "jobs",
        footer=False,
    ),
    Command("back", "escape", "back", "Go back.", "jobs"),
    Command("save", "ctrl+s", "save", "Save what was typed.", "dialog"),
    Command("leave", "escape", "back", "Go back; asks before losing what you typed.", "dialog"),
    Command(
        "next_stage",
        "ctrl+g",
        "next stage",
        "Move the job to the next stage when nothing is missing.",
        "job",
    ),
    Command("save", "ctrl+s", "save", "Save this page.", "job"),
    Command(
        "drawing",
        "ctrl+d",
        "drawing",
        "See the roof to scale, and its cut list.",
        "job",
        first=True,
    ),
    Command(
        "page(1)",
        "pagedown,ctrl+pagedown",
        "next page",
        "Go to the next page.",
        "job",
        first=True,
    ),
    Command("site_sheet", "f12", "site sheet", _SITE_SHEET, "job"),
    Command(
        "page(-1)",
        "pageup,ctrl+pageup",
        "previous page",
        "Go to the previous page.",
        "job",
        footer=False,
        first=True,
    ),
    Command(
        "stage_back",
        "ctrl+b",
        "stage back",
        "Put the job back a stage, or reopen one; asks why.",
        "job",
        footer=False,
    ),
    Command(
        "end",
        "ctrl+k",
        "close job",
        "Mark the job as declined or called off, and why.",
        "job",
        footer=False,
        first=True,
    ),
    Command("back", "escape", "back", "Go back; asks before losing what you typed.", "job"),
    Command("print", "p", "pdf", "Save as an A4 PDF to print or e-mail.", "paper"),
    Command(
        "save", "s,ctrl+s", "save", "Save as plain text, in a folder beside the book.", "paper"
    ),
    Command("copy", "c", "copy", "Copy it, if your terminal supports it.", "paper"),
    Command(
        "turn_over",
        "f10",
        "other version",
        "Switch between the accepted and the latest version.",
        "paper",
    ),
    Command("back", "escape", "back", "Go back.", "paper"),
    Command("drawing", "ctrl+d", "drawing", "See the roof to scale.", "takeoff"),
    Command("zoom(1)", "plus,equals_sign", "larger", "Draw the roof larger.", "drawing"),
    Command("zoom(-1)", "minus", "smaller", "Draw the roof smaller.", "drawing"),
    Command("fit", "f", "fit to screen", "Fit the roof to the screen.", "drawing"),
    Command("turn", "tab", "roof or list", "Go from the roof to the list and back.", "drawing"),
    Command("back", "escape", "back", "Go back.", "drawing"),
    Command("back", "escape", "back", "Go back.", "help"),
    Command("add_slope", "ctrl+n", "add slope", "Add a slope.", "survey", footer=False),
    Command("delete_slope", "delete", "delete", "Delete this slope.", "survey"),
    Command("takeoff", "f10", "take-off", "Show the take-off: lines, cut list, nails.", "survey"),
    Command(
        "side_by_side",
        "ctrl+l",
        "coverings",
        "Compare the roof in each covering; use one, or offer several.",
        "survey",
        footer=False,
    ),
    Command(
        "price",
        "ctrl+r",
        "price",
        "Price it at today's prices; a new version if one has gone out.",
        "quote",
    ),
    Command(
        "send",
        "ctrl+t",
        "mark sent",
        "Record that it was sent; it cannot be changed afterwards.",
        "quote",
    ),
    Command(
        "accepted",
        "ctrl+e",
        "mark accepted",
        "Record that the customer accepted.",
        "quote",
        first=True,
    ),
    Command("paper", "f10", "paper", "Show the quote as the customer sees it.", "quote"),
    Command(
        "side_by_side",
        "ctrl+l",
        "coverings",
        "Compare the roof in each covering; use one, or offer several.",
        "quote",
        footer=False,
    ),
    *_use_and_offer(),
    Command(
        "price", "ctrl+r", "price them", "Price the coverings offered as one quote.", "coverings"
    ),
    Command("back", "escape", "back", "Go back.", "coverings"),
    Command("takeoff", "f10", "take-off", "Show the take-off of the roof.", "booking"),
    Command("materials", "ctrl+l", "shopping list", "Show what to buy, and where.", "booking"),
    Command(
        "add_extra", "ctrl+n", "add extra", "Record work that was not in the quote.", "stripped"
    ),
    Command(
        "delete_extra",
        "delete",
        "delete",
        "Delete this extra.",
        "stripped",
        footer=False,
    ),
    Command(
        "reminders", "ctrl+r", "reminders", "Show or hide the safety reminders in full.", "stripped"
    ),
    Command("tick_all", "ctrl+t", "tick all", "Tick every check as done.", "laid"),
    Command(
        "reminders", "ctrl+r", "reminders", "Show or hide the safety reminders in full.", "laid"
    ),
    Command("accept_all", "a", "accept all", "Accept all rows and save.", "used"),
    Command("step(-1)", "left", "less", "One strip, metre or half hour less.", "used"),
    Command("step(1)", "right", "more", "One strip, metre or half hour more.", "used"),
    Command("pack(-1)", "shift+left", "a pack less", "One pack less.", "used", footer=False),
    Command("pack(1)", "shift+right", "a pack more", "One pack more.", "used", footer=False),
    Command(
        "next_part",
        "space",
        "column",
        "Used, wasted, left over, returned: go to the next.",
        "used",
    ),
    Command("add_snag", "ctrl+n", "add snag", "Add a snag to put right.", "signed_off"),
    Command("issue", "i", "invoice", "Issue the invoice for the work.", "money"),
    Command("deposit", "d", "deposit", "Issue the invoice for the deposit.", "money"),
    Command("money_in", "m", "payment", "Record a payment.", "money"),
    Command("open", "enter", "show", "Show the invoice or receipt.", "money"),
    Command("save", "ctrl+s", "issue it", "Issue it. It cannot be changed afterwards.", "issue"),
    Command("leave", "escape", "back", "Go back without issuing.", "issue"),
    Command("save", "ctrl+s", "re-price", "Start a new draft version.", "anew"),
    Command("leave", "escape", "back", "Go back; nothing changes.", "anew"),
    Command("open", "enter", "new price", "Set a new price and its start date.", "prices"),
    Command(
        "add", "a", "add", "Add a price from another merchant or for another colour.", "prices"
    ),
    Command("back", "escape", "back", "Go back.", "prices"),
    Command("open", "enter", "stocktake", "Correct the stock to your count.", "stock"),
    Command("put_in", "plus", "add", "Add leftovers to stock.", "stock"),
    Command("take_out", "minus", "take out", "Take stock out.", "stock"),
    Command("back", "escape", "back", "Go back.", "stock"),
    Command("save", "ctrl+s", "save", "Save your details.", "trader"),
    Command(
        "section(1)", "pagedown", "next section", "Go to the next section of the form.", "trader"
    ),
    Command(
        "section(-1)",
        "pageup",
        "previous section",
        "Go to the top of this section, then the previous one.",
        "trader",
        footer=False,
    ),
    Command("back", "escape", "back", "Go back; asks before losing what you typed.", "trader"),
)
