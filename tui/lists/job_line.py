"""A job as a line of the list, and what its columns are."""

from datetime import date

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
"""Cells from which there is room for the roof and the day beside what it comes to."""


def job_line(job: JobLine, width: int, today: date, p: Palette) -> Text:
    """The line in so many cells: reference, stage, place, customer, day and sum."""
    name = _name_width(width)
    wide = width >= _WIDE
    line = Text(f"{job.ref}  ", style=p.quiet, end="")
    if wide:
        line.append_text(stage_cells(job.stage, p)).append(" ")
    line.append(f"{fitted(job.ended or job.stage, 11)}", style=p.quiet)
    line.append_text(_named(job.place, "no place yet", name, f"bold {p.ink}", p.quiet))
    line.append_text(_named(job.customer, "no name yet", name, p.ink, p.quiet, " "))
    if wide:
        line.append(f"{_when(job.day, today):>8}", style=p.quiet)
    money, style = (job.gross, p.ink) if not job.owed else (job.owed, p.caution)
    line.append(f"{'' if money is None else show_money(money):>11}", style=style)
    line.append(" owed" if job.owed else "     ", style=p.caution)
    return line


def _named(words: str, missing: str, width: int, style: str, quiet: str, gap: str = "") -> Text:
    """A name in so many cells, or quietly that it is not known yet."""
    known = bool(one_line(words).strip())
    return Text(gap + fitted(words if known else missing, width), style if known else quiet, end="")


def _when(day: date | None, today: date) -> str:
    """The day, or month and year where the day alone would be taken for a nearer one."""
    if day is None:
        return ""
    return show_day(day) if is_nearest(day, today) else f"{MONTHS[day.month - 1][:3]} {day.year}"


def _name_width(width: int) -> int:
    """Cells for the place, and as many for the customer."""
    return max(10, (width - (48 if width >= _WIDE else 34)) // 2)


class JobHeadings(Widget):
    """What the columns of the list are."""

    DEFAULT_CSS = "JobHeadings { height: 1; margin: 0 2; }"

    def render(self) -> RenderResult:
        """Quiet, over their columns."""
        width = self.size.width - 1  # the list keeps a cell for its scroll bar
        name, wide = _name_width(width), width >= _WIDE
        line = f"{'job':<{12 if wide else 6}}{'stage':<11}{'place':<{name}} {'customer':<{name}}"
        line += f"{'day':>8}" if wide else ""
        return Text(f"{line}{'price':>11}", style=PALETTES[self.app.theme].quiet)
