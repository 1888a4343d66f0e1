"""Every command, declared once: footer, palette, help and the key tests are made from this table.

``id`` is the name of the action (``action_<id>``) of the screen or app named in ``where``.
A letter does nothing while a field is being typed in, so what is needed there has a control key.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from textual.binding import Binding

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
    "form": "Filling something in",
    "dialog": "A dialog",
    "used": "Materials used",
    "survey": "The survey",
    "quote": "A quote",
    "booking": "The booking",
    "coverings": "Coverings side by side",
    "stripped": "What stripping found",
    "laid": "The laying checks",
    "signed_off": "Signing off",
    "money": "Invoices and payments",
    "issue": "An invoice about to be issued",
    "anew": "A quote that was sent, about to be priced anew",
    "prices": "Prices",
    "store": "The store of left-overs",
    "trader": "Your own details",
    "paper": "A paper",
    "takeoff": "The take-off",
    "drawing": "The roof drawn to scale",
    "help": "Help",
}

_SITE_SHEET = "Show the sheet for the roof: drawing, chalk lines, cut list, fixings."

_OFFER = "Offer the {} covering in the quote, or leave it out."
OFFER_KEYS = "abcdefghi"
"""The letters that offer a covering, in the order of the comparison."""
_ORDINALS = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"]


def _choose_and_offer() -> Iterator[Command]:
    """A digit takes a covering and a letter offers it, a pair for each that can be compared."""
    places = list(zip("123456789", OFFER_KEYS, _ORDINALS, strict=True))[: len(COVERINGS)]
    for digit, _, nth in places:
        words = f"{'take ' if digit == '1' else ''}the {nth}"
        help_ = f"Take the {nth} covering."
        yield Command(f"take({digit})", digit, words, help_, "coverings", footer=digit == "1")
    for digit, letter, nth in places:
        is_first = digit == "1"
        words, help_ = f"offer the {nth}", _OFFER.format(nth)
        yield Command(f"offer({digit})", letter, words, help_, "coverings", footer=is_first)


COMMANDS: tuple[Command, ...] = (
    Command("help", "f1,question_mark", "help", "Show the keys and what they do.", "anywhere"),
    Command("go('week')", "f2,w", "the week", "Go to the week.", "anywhere", footer=False),
    Command("go('jobs')", "f3,j", "jobs", "Go to the list of all jobs.", "anywhere", footer=False),
    Command(
        "go('prices')", "f4", "prices", "Go to the merchants' prices.", "anywhere", footer=False
    ),
    Command("go('store')", "f5", "the store", "Go to the left-overs.", "anywhere", footer=False),
    Command(
        "go('trader')", "f6", "own details", "Go to your own details.", "anywhere", footer=False
    ),
    Command(
        "new_enquiry", "f7,n", "new enquiry", "Write down a new enquiry.", "anywhere", footer=False
    ),
    Command(
        "undo",
        "f8,ctrl+z",
        "undo",
        "Take back the last thing that was saved.",
        "anywhere",
        footer=False,
    ),
    Command(
        "change_light",
        "f9",
        "day or evening",
        "Change between day and evening colours.",
        "anywhere",
        footer=False,
    ),
    Command("quit", "ctrl+q", "leave", "Leave Headlap.", "anywhere", footer=False),
    Command("open", "enter", "open", "Open what the cursor stands on.", "week"),
    Command("used", "u", "used", "Write up what was used on the job.", "week"),
    Command("invoice", "i", "invoice", "Send the invoice of the job.", "week"),
    Command("outlook", "o", "outlook", "Type the forecast of a day.", "week"),
    Command(
        "page_week(-1)",
        "left_square_bracket",
        "week before",
        "Show the week before.",
        "week",
        footer=False,
    ),
    Command(
        "page_week(1)",
        "right_square_bracket",
        "week after",
        "Show the week after.",
        "week",
        footer=False,
    ),
    Command(
        "print_week", "p", "week sheet", "Show the week as a sheet to print.", "week", footer=False
    ),
    Command("find", "slash", "find", "Find a job by customer, place or reference.", "week"),
    Command("open", "enter", "open", "Open the job the cursor stands on.", "jobs"),
    Command("find", "slash", "find", "Type to find by customer, place or reference.", "jobs"),
    Command("next_group", "right", "next stage", "Show the jobs of the next stage.", "jobs"),
    Command(
        "previous_group",
        "left",
        "stage before",
        "Show the jobs of the stage before.",
        "jobs",
        footer=False,
    ),
    Command("back", "escape", "back", "Step back.", "jobs"),
    Command("save", "ctrl+s", "save", "Save what was typed.", "dialog"),
    Command("leave", "escape", "back", "Step back; asks before typing is thrown away.", "dialog"),
    Command(
        "next_stage",
        "ctrl+n",
        "next stage",
        "Call the job by its next stage, once nothing stands in the way.",
        "job",
    ),
    Command("save", "ctrl+s", "save", "Save the sheet.", "job"),
    Command("drawing", "ctrl+f", "drawing", "See the roof to scale, and its cut list.", "job"),
    Command(
        "sheet(1)",
        "pagedown,ctrl+pagedown",
        "next sheet",
        "Turn to the next sheet.",
        "job",
        first=True,
    ),
    Command("site_sheet", "f12", "site sheet", _SITE_SHEET, "job"),
    Command(
        "sheet(-1)",
        "pageup,ctrl+pageup",
        "sheet before",
        "Turn to the sheet before.",
        "job",
        footer=False,
        first=True,
    ),
    Command(
        "stage_back",
        "ctrl+b",
        "stage back",
        "Call the job by an earlier stage, or take up one that ended; asks why.",
        "job",
        footer=False,
    ),
    Command(
        "end",
        "ctrl+o",
        "declined or called off",
        "Write down that the job will not be done, and why.",
        "job",
        footer=False,
    ),
    Command("back", "escape", "back", "Step back; asks before typing is thrown away.", "job"),
    Command("print", "p", "pdf", "Save the paper as PDF on A4, to print or to send.", "paper"),
    Command(
        "save", "s,ctrl+s", "save", "Save the paper as plain text in a folder by the book.", "paper"
    ),
    Command("copy", "c", "copy", "Copy the paper, where the terminal allows it.", "paper"),
    Command(
        "turn_over",
        "f10",
        "other version",
        "Turn from the accepted version to the newest, and back.",
        "paper",
    ),
    Command("back", "escape", "back", "Step back.", "paper"),
    Command("drawing", "ctrl+f", "drawing", "See the roof to scale.", "takeoff"),
    Command("zoom(1)", "plus,equals_sign", "larger", "Draw the roof larger.", "drawing"),
    Command("zoom(-1)", "minus", "smaller", "Draw the roof smaller.", "drawing"),
    Command("fit", "f", "all of it", "Draw the whole roof on one screen.", "drawing"),
    Command("turn", "tab", "roof or list", "Go from the roof to the list and back.", "drawing"),
    Command("back", "escape", "back", "Step back.", "drawing"),
    Command("back", "escape", "back", "Step back.", "help"),
    Command(
        "add_slope", "ctrl+t", "a slope", "Put one more into the list.", "survey", footer=False
    ),
    Command("drop_slope", "delete", "drop it", "Take the slope under the cursor out.", "survey"),
    Command("takeoff", "f10", "take-off", "Show the take-off: lines, cut list, nails.", "survey"),
    Command(
        "side_by_side",
        "ctrl+g",
        "coverings",
        "See the roof in each covering side by side; take one, or offer several.",
        "survey",
        footer=False,
    ),
    Command(
        "price",
        "ctrl+r",
        "price it",
        "Price the survey at today's prices; after a quote that was sent, as a new version.",
        "quote",
    ),
    Command("send", "ctrl+t", "sent", "Put on record that it was sent; it is frozen.", "quote"),
    Command("accepted", "ctrl+y", "accepted", "Write down the customer's yes.", "quote"),
    Command("paper", "f10", "paper", "Show the quote that counts, as it is sent.", "quote"),
    Command(
        "side_by_side",
        "ctrl+g",
        "coverings",
        "See the roof in each covering side by side; take one, or offer several.",
        "quote",
        footer=False,
    ),
    *_choose_and_offer(),
    Command("price", "ctrl+r", "price them", "Price what is offered, as one quote.", "coverings"),
    Command("back", "escape", "back", "Step back.", "coverings"),
    Command("takeoff", "f10", "take-off", "Show the take-off of the roof.", "booking"),
    Command("materials", "ctrl+t", "what to buy", "Show what to buy for it, and where.", "booking"),
    Command("add_extra", "ctrl+t", "extra", "Write down work that was not quoted.", "stripped"),
    Command(
        "drop_extra",
        "delete",
        "drop it",
        "Take the extra under the cursor away; it came to nothing.",
        "stripped",
        footer=False,
    ),
    Command(
        "reminders", "ctrl+l", "reminders", "Read the reminders in full, or fold them.", "stripped"
    ),
    Command("tick_all", "ctrl+t", "all right", "Tick everything as looked at and right.", "laid"),
    Command(
        "reminders", "ctrl+l", "reminders", "Read the reminders in full, or fold them.", "laid"
    ),
    Command("accept_all", "a", "all right", "Accept all rows as they stand, and save.", "used"),
    Command("step(-1)", "left", "less", "A strip, a metre or half an hour less.", "used"),
    Command("step(1)", "right", "more", "A strip, a metre or half an hour more.", "used"),
    Command("pack(-1)", "shift+left", "a pack less", "A pack less.", "used", footer=False),
    Command("pack(1)", "shift+right", "a pack more", "A pack more.", "used", footer=False),
    Command(
        "next_part",
        "space",
        "column",
        "Go to what was wasted, left over, returned; and back to what was used.",
        "used",
    ),
    Command("add_snag", "ctrl+t", "snag", "Write down something to put right.", "signed_off"),
    Command("issue", "i", "invoice", "Issue the invoice for the work.", "money"),
    Command("deposit", "d", "deposit", "Issue the invoice for the deposit.", "money"),
    Command("money_in", "m", "money in", "Put a payment on record.", "money"),
    Command("open", "enter", "show", "Show the document as it was issued.", "money"),
    Command("save", "ctrl+s", "issue it", "Issue it; once issued it stays.", "issue"),
    Command("leave", "escape", "back", "Step back; nothing is issued.", "issue"),
    Command("save", "ctrl+s", "price it anew", "Begin a new version, as a draft.", "anew"),
    Command("leave", "escape", "back", "Step back; nothing changes.", "anew"),
    Command("open", "enter", "new price", "Give the material a price from a day on.", "prices"),
    Command("add", "a", "another", "Add a price of another merchant or colour.", "prices"),
    Command("back", "escape", "back", "Step back.", "prices"),
    Command("open", "enter", "count", "Set what there is to what you counted.", "store"),
    Command("put_in", "plus", "put in", "Put left-overs into the store.", "store"),
    Command("take_out", "minus", "take out", "Take something out of the store.", "store"),
    Command("back", "escape", "back", "Step back.", "store"),
    Command("save", "ctrl+s", "save", "Save your own details.", "trader"),
    Command("section(1)", "pagedown", "next part", "Go to the next part of the form.", "trader"),
    Command(
        "section(-1)",
        "pageup",
        "part before",
        "Go to the beginning of the part, then to the part before.",
        "trader",
        footer=False,
    ),
    Command("back", "escape", "back", "Step back; asks before typing is thrown away.", "trader"),
)


def commands(*where: str) -> list[Command]:
    """The commands of these places, in the order of the table."""
    return [c for c in COMMANDS if c.where in where]


def bindings(*where: str) -> list[Binding]:
    """The same as Textual binds them."""
    return [
        Binding(
            c.key,
            c.id,
            c.words,
            show=c.footer,
            id=f"{c.where}.{c.id}",
            tooltip=c.help,
            priority=c.first,
        )
        for c in commands(*where)
    ]
