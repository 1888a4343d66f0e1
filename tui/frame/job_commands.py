"""The commands of a job: of all its pages, and of each."""

from collections.abc import Iterator

from domain.coverings.registry import COVERINGS
from tui.frame.command_places import Command, question

_SITE_SHEET = "Show the paper for the roof: drawing, chalk lines, cut list, fixings."
_PAPERS = "Show every paper of the job, with the extras to sign, the waste note and the guarantee."
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


JOB: tuple[Command, ...] = (
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
    Command(
        "history",
        "ctrl+o",
        "history",
        "Show what was done of the job, a line each.",
        "job",
        footer=False,
    ),
    Command(
        "notes",
        "ctrl+w",
        "notes",
        "Write a note on the job, or read and change those there are.",
        "job",
        footer=False,
        first=True,
    ),
    Command(
        "folder",
        "ctrl+a",
        "folder",
        "Open the folder of the job: pictures put into it count as its photographs.",
        "job",
        footer=False,
        first=True,
    ),
    Command(
        "customer",
        "ctrl+f",
        "customer",
        "Show the customer: all their jobs, papers and money.",
        "job",
        footer=False,
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
        "call off, close",
        "Mark the job as declined or called off, and why.",
        "job",
        footer=False,
        first=True,
    ),
    Command(
        "delete_enquiry",
        "ctrl+delete",
        "delete enquiry",
        "Delete an enquiry that came to nothing; asks first, and can be undone.",
        "job",
        footer=False,
    ),
    Command("back", "escape", "back", "Go back; asks before losing what you typed.", "job"),
    Command("open", "enter", "open", "Open the job, or show the paper.", "customer"),
    Command("edit", "e", "edit", "Change their name, telephone, e-mail or address.", "customer"),
    Command("statement", "s", "statement", "Show a statement of account to send.", "customer"),
    Command("held", "f10", "what we hold", "Show all you hold on them, to print.", "customer"),
    Command("back", "escape", "back", "Go back.", "customer"),
    Command("open", "enter", "show", "Show the paper, to print, send or copy.", "papers"),
    Command("back", "escape", "back", "Go back.", "papers"),
    Command("open", "enter", "in full", "Show all that changed, before and after.", "history"),
    Command("back", "escape", "back", "Go back.", "history"),
    Command("back", "escape", "back", "Go back.", "entry"),
    Command("delete_note", "delete", "delete", "Delete the note under the cursor.", "notes"),
)
"""On every page of a job."""

PAGES: tuple[Command, ...] = (
    Command("add_slope", "ctrl+n", "add slope", "Add a slope.", "survey", footer=False),
    Command("delete_slope", "delete", "delete", "Delete this slope.", "survey"),
    Command("takeoff", "f10", "take-off", "Show the take-off: lines, cut list, nails.", "survey"),
    Command(
        "none_there",
        "ctrl+t",
        "none there",
        "In the edges, or what comes before stripping: looked, none of them there.",
        "survey",
        footer=False,
    ),
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
        "send",
        "Mark it as sent, on the day you type: it is final then and cannot be changed.",
        "quote",
    ),
    Command(
        "accepted",
        "ctrl+e",
        "accepted",
        "Record that the customer accepted.",
        "quote",
        first=True,
    ),
    Command("paper", "f10", "paper", "Show the quote as the customer sees it.", "quote"),
    Command(
        "confirmation",
        "ctrl+n",
        "what we agreed",
        "Show the confirmation of a yes, for the customer to keep; its text, to copy.",
        "quote",
        footer=False,
    ),
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
    Command("another_day", "ctrl+n", "another day", "Book the job for one more day.", "booking"),
    Command(
        "past_days",
        "ctrl+t",
        "past days",
        "Show the days that have gone by, or put them away.",
        "booking",
        footer=False,
    ),
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
    Command("papers", "f10", "papers", _PAPERS, "stripped"),
    Command(
        "reminders", "ctrl+r", "reminders", "Show or hide the safety reminders in full.", "stripped"
    ),
    Command("tick_all", "ctrl+t", "tick all", "Tick every check as done.", "laid"),
    Command(
        "reminders", "ctrl+r", "reminders", "Show or hide the safety reminders in full.", "laid"
    ),
    Command("papers", "f10", "papers", _PAPERS, "laid"),
    Command("accept_all", "ctrl+t", "accept all", "Accept all rows and save.", "used"),
    Command(
        "summary",
        "f10",
        "summary",
        "Show estimated against used with what it cost, and what the job earned.",
        "used",
        footer=False,
    ),
    Command("step(-1)", "left", "less", "One strip, metre or quarter hour less.", "used"),
    Command("step(1)", "right", "more", "One strip, metre or quarter hour more.", "used"),
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
    Command("papers", "f10", "papers", _PAPERS, "signed_off"),
    Command(
        "send",
        "s,ctrl+t",
        "send",
        "Issue the invoice for the work; one that is issued, mark as sent.",
        "money",
    ),
    Command("deposit", "d", "deposit", "Issue the invoice for the deposit.", "money"),
    Command("money_in", "m", "payment", "Record a payment.", "money"),
    Command(
        "put_right",
        "p",
        "put right",
        "Put a mistake right: credit an invoice, cancel a payment or pay it back.",
        "money",
    ),
    Command(
        "statement",
        "t",
        "statement came",
        "Tick off the statement of what a contractor deducted under CIS.",
        "money",
    ),
    Command(
        "write_off",
        "x",
        "write off",
        "Write off what is owed on an invoice.",
        "money",
        footer=False,
    ),
    Command("papers", "f10", "papers", _PAPERS, "money"),
    Command("open", "enter", "show", "Show the invoice, receipt or note.", "money", footer=False),
    Command("leave", "enter,escape", "back", "Go back; nothing is changed.", "notice"),
    *question(
        "issue",
        "issue it",
        "Issue it. It cannot be changed afterwards.",
        "Go back; nothing is issued.",
    ),
    *question("reprice", "re-price it", "Start a new draft version.", "Go back; nothing changes."),
)
"""On one page of a job, or in a question that it asks."""
