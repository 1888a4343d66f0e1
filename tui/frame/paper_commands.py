"""The commands of what is looked at: papers, the roof drawn to scale, help."""

from tui.frame.command_places import Command

PAPERS_AND_DRAWING: tuple[Command, ...] = (
    Command("print", "p", "pdf", "Save as an A4 PDF to print.", "paper"),
    Command(
        "save",
        "ctrl+s",
        "save as text",
        "Save as plain text, in the folder of papers.",
        "paper",
        footer=False,
    ),
    Command("open_pdf", "o", "open", "Save as PDF and open it.", "paper"),
    Command(
        "draft",
        "m",
        "e-mail",
        "Draft an e-mail to the customer with the PDF attached, and open it.",
        "paper",
    ),
    Command(
        "copy",
        "c",
        "copy",
        "Copy a short message to the customer; of a paper of your own, its text.",
        "paper",
    ),
    Command(
        "turn_over",
        "f10",
        "other version",
        "Switch between the accepted and the latest version.",
        "paper",
    ),
    Command("back", "escape", "back", "Go back.", "paper"),
    Command("drawing", "ctrl+d", "drawing", "See the roof to scale.", "takeoff"),
    Command("fewest", "s", "fewest", "Show the fewest strips, or the plan to work by.", "drawing"),
    Command("zoom(1)", "plus,equals_sign", "larger", "Draw the roof larger.", "drawing"),
    Command("zoom(-1)", "minus", "smaller", "Draw the roof smaller.", "drawing"),
    Command("fit", "f", "all of it", "Fit the roof to the screen.", "drawing"),
    Command("turn", "tab", "list", "Go from the roof to the list and back.", "drawing"),
    Command("back", "escape", "back", "Go back.", "drawing"),
    Command("back", "escape", "back", "Go back.", "help"),
)
"""In a paper, the take-off, the drawing and the help page."""
