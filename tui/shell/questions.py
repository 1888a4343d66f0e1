"""Questions on the command line: only ever asked of somebody who can answer."""

import sys


def is_answered() -> bool:
    """Whether a person is there to read a question and to answer it."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def says_yes(to: str) -> bool:
    """Ask for a yes, in full, to do something: "restore it"."""
    return answer(f"Type yes to {to}: ").lower() == "yes"


def answer(question: str) -> str:
    """Return what is typed; nothing if the terminal is gone."""
    try:
        return input(question).strip()
    except EOFError:
        return ""
