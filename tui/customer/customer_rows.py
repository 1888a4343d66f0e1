"""The rows of a customer's page: their jobs and their papers, a line each."""

from datetime import date

from rich.text import Text
from textual.app import RenderResult
from textual.widget import Widget

from domain.accounts.counter_entries import payment_behind
from domain.customer_record import Happened
from domain.days.calendar import show_day
from domain.estimate.quoting import option_total
from domain.job import Document, DocumentKind, Job
from domain.money import show_money
from domain.signs import Sign
from tui.frame.safe_text import fitted
from tui.frame.theme import PALETTES, Palette
from tui.roof.roof_in_cells import stage_cells

_DATE, _SUM, _OWED = 13, 12, 12
_REF, _STAGE = 6, 17  # the picture of the roof stands with the stage
_NUMBER, _KIND = 8, 16
_WIDE, _NARROW = 100, 68
"""Cells from which what they said has a column, and under which roof and date have none."""


def job_line(job: Job, width: int, p: Palette) -> Text:
    """Reference, stage, place, the last day of it, and what it comes to or what is owed."""
    line = Text(end="").append(f"{job.ref:<{_REF}}", style=p.quiet)
    if width >= _NARROW:
        line.append_text(stage_cells(job.stage, p)).append(" ")
    line.append(f"{fitted(job.ended or job.stage, _STAGE - 6)}", style=p.quiet)
    place, said = _place_and_said(width)
    line.append(fitted(job.site.place, place), style=f"bold {p.ink}")
    line.append(fitted(_said(job), said), style=p.ink)
    if width >= _NARROW:
        last = _last_day(job)
        line.append(f"{_date(last) if last else '':>{_DATE}}", style=p.quiet)
    price = "" if job.quote is None else show_money(option_total(job.quote.counting).gross)
    line.append(f"{price:>{_SUM}}", style=p.ink)
    if not job.documents:
        return line
    if not job.owed:
        return line.append(f"{f'{Sign.GOOD} paid':>{_OWED}}", style=p.moss)
    return line.append(f"{show_money(job.owed):>{_OWED}}", style=p.caution)


def paper_line(job: Job, document: Document, width: int, today: date, p: Palette) -> Text:
    """Number, kind, of which job, date, sum, and whether it is paid."""
    line = Text(end="").append(f"{document.label:<{_NUMBER}}", style=f"bold {p.ink}")
    line.append(fitted(document.kind, _KIND), style=p.ink)
    whose = f"{job.ref}  {job.site.place}" if width >= _NARROW else job.ref
    line.append(fitted(whose, _job_width(width)), style=p.quiet)
    if width >= _NARROW:
        line.append(f"{_date(document.issued_on):>{_DATE}}", style=p.quiet)
    came = document.gross
    if document.kind is DocumentKind.RECEIPT:
        came = payment_behind(job, document).money
    line.append(f"{show_money(came):>{_SUM}}", style=p.ink)
    if not document.kind.asks:
        return line
    if not document.owed and document.written_off:
        return line.append(f"{'written off':>{_OWED}}", style=p.quiet)
    if not document.owed:
        return line.append(f"{f'{Sign.GOOD} paid':>{_OWED}}", style=p.moss)
    late = document.due_on < today
    owed = f"{Sign.CAUTION} " * late + show_money(document.owed)
    return line.append(f"{owed:>{_OWED}}", style=p.caution if late else p.ink)


def happened_line(thing: Happened, width: int, p: Palette) -> Text:
    """The day, of which job, and what it was."""
    line = Text(end="").append(f"{_date(thing.on):>11}  ", style=p.quiet)
    line.append(f"{thing.job.ref:<{_REF}}", style=p.quiet)
    return line.append(fitted(thing.words, width - 13 - _REF), style=p.ink)


class JobTitles(Widget):
    """What the columns of the jobs are."""

    DEFAULT_CSS = "JobTitles { height: 1; }"

    def render(self) -> RenderResult:
        """Draw the titles quietly, each over its column."""
        width = self.size.width - 1  # the list keeps a cell for its bar
        place, said = _place_and_said(width)
        wide = width >= _NARROW
        words = f"{'job':<{_REF}}{'roof  ' if wide else ''}{'stage':<{_STAGE - 6}}"
        words += f"{fitted('place', place)}{fitted('what they said', said)}"
        words += f"{'last day':>{_DATE}}" if wide else ""
        words += f"{'price':>{_SUM}}{'owed':>{_OWED}}"
        return Text(words, style=PALETTES[self.app.theme].quiet)


class PaperTitles(Widget):
    """What the columns of the papers are."""

    DEFAULT_CSS = "PaperTitles { height: 1; }"

    def render(self) -> RenderResult:
        """Draw the titles quietly, each over its column."""
        width = self.size.width - 1
        words = f"{'number':<{_NUMBER}}{'':<{_KIND}}{fitted('job', _job_width(width))}"
        words += f"{'issued':>{_DATE}}" if width >= _NARROW else ""
        words += f"{'sum':>{_SUM}}{'owed':>{_OWED}}"
        return Text(words, style=PALETTES[self.app.theme].quiet)


def _place_and_said(width: int) -> tuple[int, int]:
    """Cells for the place, and for what they said where there is room for it."""
    roof_and_date = 6 + _DATE if width >= _NARROW else 0
    room = max(4, width - _REF - (_STAGE - 6) - roof_and_date - _SUM - _OWED)
    if width < _WIDE:
        return room, 0
    return room * 2 // 5, room - room * 2 // 5


def _job_width(width: int) -> int:
    date_width = _DATE if width >= _NARROW else 0
    return max(4, width - _NUMBER - _KIND - date_width - _SUM - _OWED)


def _said(job: Job) -> str:
    return job.enquiry.said if job.enquiry.said.strip() else job.enquiry.building


def _date(on: date) -> str:
    return f"{show_day(on)} {on.year}"


def _last_day(job: Job) -> date | None:
    """The last day of work on the roof, done or, until it is laid, booked; None without one.

    The day on which something is recorded of it, as its sign-off, is none.
    """
    done = [each.on for each in (job.stripping, job.laying) if each is not None]
    done += [snag.done_on for snag in job.snags if snag.done_on is not None]
    booked = [] if job.laying is not None else [each.day for each in job.days]
    return max((*done, *booked), default=None)
