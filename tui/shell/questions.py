"""Questions on the command line: only ever asked of somebody who can answer."""

import sys
from typing import TextIO

from domain.errors import HeadlapError


class NoTerminal(HeadlapError):
    """There is no terminal to show the book on."""

    def __init__(self) -> None:
        super().__init__(
            "Headlap needs a terminal: start it in one. headlap week prints the week without."
        )


def is_answered() -> bool:
    """Whether a person is there to read a question and to answer it."""
    return _is_terminal(sys.stdin) and _is_terminal(sys.stdout)


def demand_terminal() -> None:
    """Raise :class:`NoTerminal` unless there is one to read keys from and to draw on.

    Textual draws on the standard error output, so that what is printed can go elsewhere.
    """
    if not (_is_terminal(sys.__stdin__) and _is_terminal(sys.__stderr__)):
        raise NoTerminal


def _is_terminal(stream: TextIO | None) -> bool:
    """Whether there is a terminal; None for what was closed before the program began."""
    return stream is not None and stream.isatty()


def says_yes(to: str) -> bool:
    """Ask for a yes, in full, to do something: "restore it"."""
    return answer(f"Type yes to {to}: ").lower() == "yes"


def answer(question: str) -> str:
    """Return what is typed; nothing if the terminal is gone."""
    try:
        return input(question).strip()
    except EOFError:
        return ""
