"""The help page as a paper: the keys from the one table of commands, and how a job goes through."""

from domain.checks.stages import REMINDERS
from domain.papers.blocks import Block, Column, Paper, Table, Words
from domain.signs import MEANINGS
from domain.tone import Tone
from tui.frame.command_places import PLACES, Command
from tui.frame.commands import commands, key_of, key_words

_KEYS = Column("key")
_DOES = Column("what it does")

_MOVING = Words(
    (
        "Enter or ↓ moves to the next field, ↑ goes back. Figures worked out for you appear "
        "beside what you type. In a figure, a sum or a date the first key replaces what stood "
        "there, unless an arrow or Home keeps it; + and − move a date by a working day and a "
        "count by one; ctrl+z brings back what was there, ctrl+u clears. In a choice the "
        "arrows left and right choose, and a first letter jumps. In a list the arrows move "
        "and Enter opens. A letter is a command only while nothing is being typed. Escape "
        "goes back to the screen before, from whichever page of a job; from a form that is "
        "asked for it goes back without saving. In the list of jobs it first clears what you "
        "typed to find one, then goes to the list; in the week it does nothing. What is not saved "
        "is lost only if you press it a second time. A question in which nothing is typed has two "
        "answers: y is yes, Enter and Escape are no. The mouse does all of it too; … at the end of "
        "the keys, or ctrl+p, brings up every command."
    ),
    "Getting around",
)
_JOB = (
    (
        "enquiry",
        "Somebody asks. Put down who and where, and the size if they know it: that gives a "
        "rough price while they are on the telephone.",
    ),
    (
        "survey",
        "Measure the roof and look at the deck and the old covering. What it takes is worked "
        "out as you type.",
    ),
    ("quoted", "Look through the price, make the quote final, and send it."),
    ("booked", "They accept. Book the days by the weather, and order what stock does not hold."),
    ("stripped", "The old covering is off. Boards found rotten are an extra to agree."),
    ("laid", "The roof is on. Record what was used, and issue the invoice."),
    ("signed off", "The customer is content and the snags are put right. The money comes in."),
)
"""What is done at each stage, in the order of a job."""
_SETTING_UP = (
    "Do these once, in this order; b in the week brings the first three together. A quote needs "
    "them; the others can wait. What nobody has changed or confirmed is a starting figure, and "
    "says so. To see what a full book looks like, look round the example from there: it is a "
    "book of its own, what you do in it never reaches yours, and leaving it comes back to yours."
)
_THROUGH = (
    "A job begins as an enquiry. The stage says how far the job has got; it can also end as "
    "declined or called off. Each page of the job takes what that part of the work needs, and "
    "below it is a list of what is still needed for the next stage. A stop (■) "
    "cannot be passed. A caution (▲) can, with a note that stays with the job. You "
    "can put a job back a stage if you say why; nothing is lost. You can invoice "
    "once the roof is marked laid."
)
_UNDOING = (
    "F8 never undoes at the first press. It asks: what was saved last of the job or the list in "
    "front, and what would stand there again. F8 once more, or y, is yes. In the week it goes "
    "back through what was done from there since Headlap opened. It never reaches another job, "
    "or what another window saved, and never what was sent, issued or paid: it then says why. "
    "ctrl+y does it again, until something else is saved. A save that changes nothing is none. "
    "The history of a job, ctrl+o, tells each save in a line; Enter shows it in full."
)
_TYPING = (
    "Dates: 25 Nov, 25/11/2026, tomorrow, Thursday, next tue, tue week, +3. Times: 9.30, "
    "half 9, quarter to 9, 5 pm. Lengths: 2.4 m, 2400 mm, 8 ft 3 1/2, 2ft6. Pitch: 26.6, "
    "3/12, 1 in 4. Money: 486, 1,240.50, 1.2k; a rough price may be about 600. Weights: "
    "40 kg, 1.2 t; nails also by the kilogram. A guarantee: 10 years. Ask the merchant, the "
    "maker or the customer rather than guess: an empty field means it is not known yet."
)
_MIND = (
    "What Headlap says about safety and the law is only a reminder. The law, local "
    "rules, the maker's instructions and licensed people come first."
)


def help_paper(places: tuple[str, ...]) -> Paper:
    """The keys of these places, those of anywhere, and the page on how a job goes through."""
    blocks = [_keys(place) for place in (*places, "anywhere") if commands(place)]
    return Paper(
        title="Help: keys, how a job runs, setting up",
        blocks=(
            *blocks,
            _MOVING,
            Words(_THROUGH, "How a job runs"),
            _job(),
            Words(_SETTING_UP, "Setting up"),
            _setting_up(),
            _signs(),
            Words(_UNDOING, "Undo"),
            Words(_TYPING, "What you can type"),
            *_cautions(),
            Words(_MIND, tone=Tone.CAUTION),
        ),
    )


def _job() -> Table:
    """What is done at each stage."""
    return Table((Column("stage"), Column("what you do")), _JOB)


def _setting_up() -> Table:
    """Where each thing is put down that is put down once."""
    details, prices, stock, enquiry = (
        key_words(key_of("anywhere", command))
        for command in ("go('trader')", "go('prices')", "go('stock')", "new_enquiry")
    )
    rows = (
        (details, "Who you are: name, address and telephone, as your papers are to show them."),
        (details, "What you charge: go through the figures that stand there, and change them."),
        (
            prices,
            "What your coverings cost: Enter on a line gives that material a price; "
            f"{key_of('prices', 'fill')} fills the list from one merchant.",
        ),
        (stock, "What is left over from before, if you keep any."),
        (enquiry, "Your first enquiry."),
    )
    return Table((_KEYS, Column("what to put down")), rows)


def _signs() -> Table:
    """What each sign means."""
    rows = tuple((sign.value, meaning) for sign, meaning in MEANINGS.items())
    return Table((Column("sign"), Column("what it means")), rows, "What the signs mean")


def _keys(place: str) -> Table:
    """The commands of a place as a table."""
    rows = [(_spelt(command), command.help) for command in commands(place)]
    return Table((_KEYS, _DOES), tuple(rows), PLACES[place])


def _spelt(command: Command) -> str:
    return " or ".join(key_words(key) for key in command.keys)


def _cautions() -> list[Block]:
    """What to mind before each stage of the work."""
    return [
        Words("\n".join(words), f"Safety before it is marked {stage}")
        for stage, words in REMINDERS.items()
        if words
    ]
