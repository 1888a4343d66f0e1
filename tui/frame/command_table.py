"""Every command, declared once: footer, palette, help and the key tests are made from this table.

``id`` is the name of the action (``action_<id>``) of the screen or app named in ``where``.
A letter does nothing while a field is being typed in, so what is needed there has a control key.
"""

from collections.abc import Iterable
from functools import cache

from tui.frame.command_places import Command
from tui.frame.main_commands import ANYWHERE, DIALOG, LISTS_AND_DETAILS, WEEK_AND_JOBS

_MAIN = (*ANYWHERE, *WEEK_AND_JOBS, *DIALOG, *LISTS_AND_DETAILS)
_PLACES_OF_MAIN = frozenset(command.where for command in _MAIN)


@cache
def every_command() -> tuple[Command, ...]:
    """In the order of the help page; within a place, in that of the line of keys."""
    from tui.frame.evening_commands import EVENING  # the first screen needs none of these
    from tui.frame.job_commands import JOB, PAGES
    from tui.frame.paper_commands import PAPERS_AND_DRAWING

    main = (*ANYWHERE, *WEEK_AND_JOBS, *DIALOG, *EVENING)
    return (*main, *JOB, *PAPERS_AND_DRAWING, *PAGES, *LISTS_AND_DETAILS)


def commands_near(places: Iterable[str]) -> tuple[Command, ...]:
    """All commands among which those of these places are."""
    return _MAIN if _PLACES_OF_MAIN.issuperset(places) else every_command()
