"""What is made of the table of commands: bindings, and their keys in words."""

from textual.binding import Binding

from tui.frame.command_places import Command
from tui.frame.command_table import commands_near

_SHOWN = {
    "escape": "esc",
    "question_mark": "?",
    "slash": "/",
    "left_square_bracket": "[",
    "right_square_bracket": "]",
    "pagedown": "pgdn",
    "pageup": "pgup",
    "plus": "+",
    "equals_sign": "=",
    "minus": "−",
    "right": "→",
    "left": "←",
}


def commands(*where: str) -> list[Command]:
    """The commands of these places, in the order of the table."""
    return [c for c in commands_near(where) if c.where in where]


def bindings(*where: str) -> list[Binding]:
    """The commands of these places as Textual's key bindings."""
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


def key_words(key: str) -> str:
    """A key as line of keys, messages and help write it: ``ctrl+s``, ``pgdn``, ``F4``."""
    held, plain = ("ctrl+", key[5:]) if key.startswith("ctrl+") else ("", key)
    if plain[0] == "f" and plain[1:].isdigit():
        plain = plain.upper()
    return held + _SHOWN.get(plain, plain)


def key_of(where: str, command_id: str) -> str:
    """The key of a command in words, for a message that names it. Raises StopIteration for none."""
    return next(key_words(c.keys[0]) for c in commands(where) if c.id == command_id)
