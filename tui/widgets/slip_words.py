"""What is asked when a save stops at what may be a slip."""

from collections.abc import Sequence

from tui.frame.commands import key_of

SAVE_AGAIN = f"{key_of('dialog', 'save')} again to save."
"""Ends what is said when a save stops at what may be a slip."""
_NAMED = 2
"""So many slips are named in the question; each stands under its field as well."""


def is_that_right(words: Sequence[str]) -> str:
    """Ask about what may be slips: ``£400.00 is more than the £372.83 owed: is that right?``."""
    more = f", and {len(words) - _NAMED} more" if len(words) > _NAMED else ""
    return f"{'; '.join(words[:_NAMED])}{more}: is that right?" if words else ""


def not_saved_yet(question: str) -> str:
    """What is said when a save stops at a question: the key that saved answers it with yes."""
    return f"{question} {SAVE_AGAIN}"
