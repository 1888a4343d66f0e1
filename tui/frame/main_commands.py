"""The commands of the screens that every evening begins with, and of what is open anywhere."""

from tui.frame.command_places import Command, question

_BOOKS = "Go to the year's books: purchases, miles and the quarter."

ANYWHERE: tuple[Command, ...] = (
    Command("help", "f1,question_mark", "help", "Show the keys and what they do.", "anywhere"),
    Command("go('week')", "f2,w", "the week", "Go to this week.", "anywhere", footer=False),
    Command("go('jobs')", "f3,j", "jobs", "Go to the list of all jobs.", "anywhere", footer=False),
    Command("go('prices')", "f4", "prices", "Go to material prices.", "anywhere", footer=False),
    Command("go('stock')", "f5", "stock", "Go to your leftover stock.", "anywhere", footer=False),
    Command("go('books')", "v", "books", _BOOKS, "anywhere", footer=False),
    Command("go('trader')", "f6", "your details", "Go to your details.", "anywhere", footer=False),
    Command("go('backups')", "f11,r", "backups", "Go to the backups.", "anywhere", footer=False),
    Command("new_enquiry", "f7,n", "new enquiry", "Add a new enquiry.", "anywhere", footer=False),
    Command(
        "undo",
        "f8",
        "undo",
        "Say what was saved last of the job or list in front; again, undo it.",
        "anywhere",
    ),
    Command(
        "redo",
        "ctrl+y",
        "redo",
        "Do again what was undone, until something else is saved.",
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
)
"""From every screen."""

WEEK_AND_JOBS: tuple[Command, ...] = (
    Command("open", "enter", "open", "Open the highlighted line.", "week"),
    Command("used", "u", "materials", "Record materials and hours used.", "week"),
    Command(
        "invoice",
        "i",
        "the invoice",
        "Go to invoices and payments of the job.",
        "week",
        footer=False,
    ),
    Command(
        "send",
        "s,ctrl+t",
        "send",
        "Make the quote final or issue the invoice, and save it as PDF; then mark it as sent.",
        "week",
    ),
    Command(
        "draft",
        "m",
        "e-mail",
        "Draft an e-mail with the quote or invoice attached, and open it.",
        "week",
        footer=False,
    ),
    Command(
        "copy",
        "c",
        "copy",
        "Copy a short message to the customer about the quote or invoice.",
        "week",
        footer=False,
    ),
    Command("open_pdf", "o", "pdf", "Open the quote or invoice.", "week", footer=False),
    Command("forecast", "f", "forecast", "Type the forecast of the coming days.", "week"),
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
    Command(
        "tomorrow",
        "t",
        "tomorrow",
        "Save the site sheet and the load list of tomorrow's work as PDFs.",
        "week",
        footer=False,
    ),
    Command(
        "orders",
        "g",
        "orders",
        "Go to what is to be ordered for the coming jobs, and what is on its way.",
        "week",
        footer=False,
    ),
    Command(
        "setup",
        "b",
        "set up",
        "Set up the book in three steps, or look round the example.",
        "week",
        footer=False,
    ),
    Command(
        "job",
        "e",
        "the job",
        "Open the job of the highlighted line, at the page that settles it.",
        "week",
        footer=False,
    ),
    Command(
        "miles",
        "d",
        "miles",
        "Accept the miles of today's jobs; any other day's are in the books.",
        "week",
        footer=False,
    ),
    Command("find", "slash,ctrl+f", "find", "Find a job by customer, place or reference.", "week"),
    Command("put_off", "l", "later", "Not tonight: put the line off until another day.", "week"),
    Command("open", "enter", "open", "Open the highlighted job.", "jobs"),
    Command(
        "find", "slash,ctrl+f", "find", "Type to find by customer, place or reference.", "jobs"
    ),
    Command("customer", "c", "customer", "Show the customer of the highlighted job.", "jobs"),
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
)
"""In the week, and in the list of all jobs."""

DIALOG: tuple[Command, ...] = (
    Command("open", "enter", "go on", "Open it with what was typed in it.", "unsaved"),
    Command("throw_away", "delete", "throw away", "Throw it away.", "unsaved"),
    Command("back", "escape", "later", "Keep it for the next start.", "unsaved"),
    Command("save", "ctrl+s", "save", "Save what was typed.", "dialog"),
    Command("leave", "escape", "back", "Go back; asks before losing what you typed.", "dialog"),
    Command(
        "take_over",
        "ctrl+f",
        "their details",
        "Take over the details of the customer who may be asking; again, of the next.",
        "enquiry",
        first=True,
    ),
    *question(
        "undo", "undo it", "Undo what is named, and nothing else.", "Go back; nothing is undone."
    ),
    *question(
        "restore",
        "restore it",
        "Put the backup in the place of the book.",
        "Go back; nothing is restored.",
    ),
    *question(
        "delete",
        "delete it",
        "Delete what is named, and nothing else.",
        "Go back; nothing is deleted.",
    ),
)
"""In every form that is asked for, and in every question."""

LISTS_AND_DETAILS: tuple[Command, ...] = (
    Command("open", "enter", "new price", "Set a new price and its start date.", "prices"),
    Command(
        "add", "a", "add", "Add a price from another merchant or for another colour.", "prices"
    ),
    Command(
        "fill",
        "s",
        "fill the list",
        "Fill what has no price: one merchant for all, and starting figures to change.",
        "prices",
    ),
    Command("confirm", "y", "all right", "Take the starting figures as your own.", "prices"),
    Command("open", "enter", "open", "Take the step, or look round the example.", "setup"),
    Command("back", "escape", "back", "Go back.", "setup"),
    Command("back", "escape", "back", "Go back.", "prices"),
    Command("open", "enter", "change", "Put the highlighted line right.", "books"),
    Command("purchase", "plus", "purchase", "Record something bought or paid.", "books"),
    Command("miles", "m", "miles", "Record miles driven.", "books"),
    Command("accept", "a", "accept", "Accept all miles that are proposed.", "books"),
    Command("paper", "p", "paper", "Show the quarter as a paper to print.", "books"),
    Command(
        "spreadsheet",
        "x",
        "spreadsheet",
        "Save every item and the totals as a CSV file, for an update or the accountant.",
        "books",
        footer=False,
    ),
    Command(
        "headings",
        "h",
        "headings",
        "Keep expenses by the headings of the update, or as one sum.",
        "books",
        footer=False,
    ),
    Command("turn(1)", "right", "next", "Show the next quarter.", "books", footer=False),
    Command("turn(-1)", "left", "previous", "Show the quarter before.", "books", footer=False),
    Command("back", "escape", "back", "Go back.", "books"),
    Command("open", "enter", "stocktake", "Correct the stock to your count.", "stock"),
    Command("put_in", "plus", "add", "Add leftovers to stock.", "stock"),
    Command("take_out", "minus", "take out", "Take stock out.", "stock"),
    Command("back", "escape", "back", "Go back.", "stock"),
    Command(
        "open",
        "enter",
        "mark ordered",
        "Record that the list was ordered; of an order on its way, say how much is here.",
        "orders",
    ),
    Command(
        "all_ordered", "a", "all ordered", "Record every list as ordered.", "orders", footer=False
    ),
    Command("here", "h", "mark here", "All of the order is here: put it into stock.", "orders"),
    Command("part", "d", "part here", "Part of the order is here: say how much.", "orders"),
    Command("copy", "c", "copy", "Copy the list or order as a text for the merchant.", "orders"),
    Command("paper", "p", "paper", "Show the list or order as a paper.", "orders", footer=False),
    Command(
        "other_day",
        "e",
        "another day",
        "The order comes on another day.",
        "orders",
        footer=False,
    ),
    Command(
        "cancel",
        "z",
        "cancel",
        "Cancel the order, or what of it is still to come.",
        "orders",
        footer=False,
    ),
    Command(
        "telephone",
        "t",
        "telephone",
        "Keep the telephone number of the merchant.",
        "orders",
        footer=False,
    ),
    Command(
        "in_hand",
        "m",
        "in hand",
        "Everything for the job of Tonight's line is in stock: its materials are in hand.",
        "orders",
        footer=False,
    ),
    Command(
        "spreadsheet",
        "x",
        "spreadsheet",
        "Save the list with prices as a CSV file for a spreadsheet.",
        "orders",
        footer=False,
    ),
    Command("next_list(1)", "right", "next", "Show the next list.", "orders", footer=False),
    Command("next_list(-1)", "left", "previous", "Show the list before.", "orders", footer=False),
    Command("back", "escape", "back", "Go back.", "orders"),
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
    Command(
        "confirm",
        "f10",
        "all right",
        "Save, and take the starting figures as your own.",
        "trader",
        footer=False,  # the heading names it while there is one
    ),
    Command("backups", "ctrl+b", "backups", "See the backups, and restore one.", "trader"),
    Command("back", "escape", "back", "Go back; asks before losing what you typed.", "trader"),
    Command("open", "enter", "restore", "Restore the highlighted backup; asks first.", "backups"),
    Command("back_up", "plus", "back up now", "Back up the book now.", "backups"),
    Command("check", "c", "check", "Look through this book for damage and gaps.", "backups"),
    Command("back", "escape", "back", "Go back.", "backups"),
)
"""In prices, stock, the trader's details and the backups."""
