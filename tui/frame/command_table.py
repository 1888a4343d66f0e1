"""Every command, declared once: footer, palette, help and the key tests are made from this table.

``id`` is the name of the action (``action_<id>``) of the screen or app named in ``where``.
A letter does nothing while a field is being typed in, so what is needed there has a control key.
"""

from tui.frame.command_places import Command
from tui.frame.evening_commands import EVENING
from tui.frame.job_commands import JOB, PAGES
from tui.frame.main_commands import ANYWHERE, DIALOG, LISTS_AND_DETAILS, WEEK_AND_JOBS
from tui.frame.paper_commands import PAPERS_AND_DRAWING

COMMANDS: tuple[Command, ...] = (
    *ANYWHERE,
    *WEEK_AND_JOBS,
    *DIALOG,
    *EVENING,
    *JOB,
    *PAPERS_AND_DRAWING,
    *PAGES,
    *LISTS_AND_DETAILS,
)
"""In the order of the help page; within a place, in that of the line of keys."""
