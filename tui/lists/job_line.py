"""A job as a line of the list, and what its columns are."""

from collections.abc import Sequence
from datetime import date
from itertools import dropwhile

from rich.cells import cell_len
from rich.text import Text
from textual.app import RenderResult
from textual.widget import Widget

from domain.days.calendar import MONTHS, is_nearest, show_day
from domain.money import show_money
from storage.week_and_jobs import JobLine
from tui.frame.safe_text import fitted, one_line
from tui.frame.theme import PALETTES, Palette
from tui.roof.roof_in_cells import stage_cells

_WIDE = 66
"""Cells from which there is room for the day beside what it comes to."""
_ROOF = 90
"""Cells from which there is room for the roof too, without cutting names for it."""

_TITLES = frozenset({"mr", "mrs", "ms", "miss", "dr", "&"})

_DAY = 12
"""Cells of the day: of one that has gone by its month and year, and that it was."""


def job_line(job: JobLine, width: int, today: date, p: Palette) -> Text:
    """The line in so many cells: reference, stage, place, customer, day and sum."""
    place, customer = _names(width)
    wide = width >= _WIDE
    line = Text(f"{job.ref}  ", style=p.quiet, end="")
    if width >= _ROOF:
        line.append_text(stage_cells(job.stage, p)).append(" ")
    line.append(f"{fitted(job.ended or job.stage, 11)}", style=p.quiet)
    line.append_text(_named(job.place, "no place yet", place, f"bold {p.ink}", p.quiet))
    line.append_text(_named(job.customer, "no name yet", customer, p.ink, p.quiet, " "))
    if wide:
        line.append(f" {_when(job.days, today):>{_DAY}}", style=p.quiet)
    money, style = (job.gross, p.ink) if not job.owed else (job.owed, p.caution)
    line.append(f"{'' if money is None else show_money(money):>11}", style=style)
    line.append(" owed" if job.owed else "     ", style=p.caution)
    return line


def _named(words: str, missing: str, width: int, style: str, quiet: str, gap: str = "") -> Text:
    """A name in so many cells, or quietly that it is not known yet."""
    known = bool(one_line(words).strip())
    told = name_within(words, width) if known else missing
    return Text(gap + fitted(told, width), style if known else quiet, end="")


def name_within(name: str, width: int) -> str:
    """A name in so many cells if it can be: “&” for “and”, then without “Mr and Mrs”.

    What is still too long is cut at its end by whoever draws it.
    """
    whole = one_line(name).strip()
    brief = whole.replace(" and ", " & ")
    words = brief.split()
    bare = " ".join(dropwhile(lambda word: word.rstrip(".").lower() in _TITLES, words))
    return next((each for each in (whole, brief) if cell_len(each) <= width), bare or brief)


def _when(days: Sequence[date], today: date) -> str:
    """The next day booked; where all have gone by, the last, and that it was.

    Month and year stand where the day alone would be taken for a nearer one.
    """
    if not days:
        return ""
    day = next((each for each in days if each >= today), days[-1])
    month = f"{MONTHS[day.month - 1][:3]} {day.year}"
    words = show_day(day) if is_nearest(day, today) else month
    return f"was {words}" if day < today else words


def _names(width: int) -> tuple[int, int]:
    """Cells for the place and for the customer; the trader knows a job by its place."""
    roof, day = (6 if width >= _ROOF else 0), (1 + _DAY if width >= _WIDE else 0)
    each = max(10, (width - 34 - roof - day) // 2)
    more = min(2, each - 10)
    return each + more, each - more


class JobHeadings(Widget):
    """What the columns of the list are."""

    DEFAULT_CSS = "JobHeadings { height: 1; margin: 0 2; }"

    def render(self) -> RenderResult:
        """Quiet, over their columns."""
        width = self.size.width - 1  # the list keeps a cell for its scroll bar
        (place, customer), wide = _names(width), width >= _WIDE
        line = f"{'job':<6}{'roof  ' if width >= _ROOF else ''}{'stage':<11}"
        line += f"{'place':<{place}} {'customer':<{customer}}"
        line += f" {'next day':>{_DAY}}" if wide else ""
        return Text(f"{line}{'price':>11}", style=PALETTES[self.app.theme].quiet)
