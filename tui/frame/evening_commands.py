"""The commands of what a line of Tonight opens, to be done from where it stands."""

from tui.frame.command_places import Command, question

EVENING: tuple[Command, ...] = (
    Command(
        "open",
        "enter",
        "move",
        "Move the job to the highlighted day; the digit before a day goes to it.",
        "ring",
    ),
    Command("stays", "s", "stays", "Record that the customer was rung and the day stays.", "ring"),
    Command("no_answer", "a", "no answer", "Record that nobody answered: back tomorrow.", "ring"),
    Command("copy", "c", "copy", "Copy a text message that asks for the highlighted day.", "ring"),
    Command(
        "code",
        "t",
        "code",
        "Show that message as a square code, which a telephone's camera opens.",
        "ring",
    ),
    Command(
        "booking",
        "b",
        "booking page",
        "Go to the booking page, for any other day.",
        "ring",
        footer=False,
    ),
    Command("leave", "escape", "back", "Go back; nothing is recorded.", "ring"),
    Command("leave", "escape,enter", "back", "Go back to the call.", "code"),
    Command(
        "copy",
        "c",
        "copy reminder",
        "Copy the reminder; the line is back in a week if it is still owed.",
        "chase",
    ),
    Command("payment", "m", "payment", "Record a payment of the invoice.", "chase"),
    Command(
        "will_pay",
        "p",
        "will pay on …",
        "Record the day they say they will pay: the line is back on it.",
        "chase",
    ),
    Command("money", "i", "the invoice", "Go to invoices and payments of the job.", "chase"),
    Command("leave", "escape", "back", "Go back; nothing is recorded.", "chase"),
    Command(
        "renew",
        "p",
        "price again",
        "Price the quote again at today's prices, and send it.",
        "quote_call",
    ),
    Command(
        "came_to_nothing",
        "d",
        "declined",
        "Record that the quote came to nothing: the job is declined.",
        "quote_call",
    ),
    Command(
        "no_answer", "a", "no answer", "Record that nobody answered: back tomorrow.", "quote_call"
    ),
    Command("quote", "q", "the quote", "Go to the quote page.", "quote_call"),
    Command("leave", "escape", "back", "Go back; nothing is recorded.", "quote_call"),
    *question(
        "tied_down",
        "tied down",
        "Record that the tarpaulin is tied down for the night.",
        "Go back; the line stays.",
    ),
)
"""In the calls that are made, and the reminders that are sent, of an evening."""
