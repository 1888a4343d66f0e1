"""The help page as a paper: the keys from the one table of commands, and how a job goes through."""

from domain.papers.blocks import Block, Column, Paper, Table, Words
from domain.stages import REMINDERS
from domain.tone import Tone
from tui.commands import PLACES, Command, commands
from tui.widgets.key_line import key_words

_KEYS = Column("key")
_DOES = Column("what it does")

_MOVING = Words(
    "Enter or the arrow down goes on to the next line of a form, the arrow up goes back, and what "
    "is worked out stands beside what you typed. In a choice the arrows left and right choose, and "
    "a first letter jumps. In a list the arrows move and Enter opens. A letter is a command only "
    "while nothing is being typed: Escape leaves a field. The mouse does all of it too; … at the "
    "end of the keys, or ctrl+p, brings every command there is.",
    "Moving about",
)
_THROUGH = (
    "A job begins as an enquiry. Its stage says what is already true: survey, quoted, booked, "
    "stripped, laid, signed off; it can also end as declined or called off. Each sheet of the job "
    "takes what that part of the work needs, and below it stands what is still missing before "
    "the next stage. A stop (■) cannot be passed. A caution (▲) can, with a note that stays on "
    "the job. Going back is allowed, with a reason, and loses nothing. The invoice can be issued "
    "once the roof is laid."
)
_DATES = (
    "Dates: 25 Nov, 25/11/2026, today, tomorrow, Thursday, +3. Lengths: 2.4 m, 2400 mm, "
    "7 ft 10 1/2 in. Money: 486 or 1,240.50. Ask the merchant, the maker or the customer rather "
    "than guess: an empty field says that it is not known yet."
)
_MIND = (
    "What Headlap says of safety and law is a reminder. Local rules, the maker's instructions and "
    "licensed practice come first."
)


def help_paper(places: tuple[str, ...]) -> Paper:
    """The keys of these places, those of anywhere, and the page on how a job goes through."""
    blocks = [_keys(place) for place in (*places, "anywhere") if commands(place)]
    return Paper(
        title="Keys, and how it goes",
        blocks=(
            *blocks,
            _MOVING,
            Words(_THROUGH, "How a job goes through"),
            Words(_DATES, "What may be typed"),
            *_cautions(),
            Words(_MIND, tone=Tone.CAUTION),
        ),
    )


def _keys(place: str) -> Table:
    """The commands of a place as a table."""
    rows = [(_spelt(command), command.help) for command in commands(place)]
    return Table((_KEYS, _DOES), tuple(rows), PLACES[place])


def _spelt(command: Command) -> str:
    return " or ".join(key_words(key) for key in command.keys)


def _cautions() -> list[Block]:
    """What to mind before each stage of the work."""
    return [
        Words("\n".join(words), f"To mind before it is {stage}")
        for stage, words in REMINDERS.items()
    ]
