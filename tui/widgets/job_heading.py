"""The top of the job screen: who and where, the roof today, and what is next."""

from datetime import date

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.widgets import Static

from domain.calendar import show_date, show_day
from domain.checks.check import Situation
from domain.job import Job, Stage
from domain.roof import Form
from tui.safe_text import one_line
from tui.theme import PALETTES
from tui.widgets.roof_picture import RoofPicture


class JobHeading(Horizontal):
    """Three lines: reference and place, customer, access; picture; stage, day, what is next."""

    DEFAULT_CSS = """
    JobHeading { height: 3; padding: 0 2; }
    JobHeading > #who { width: 1fr; height: 3; text-wrap: nowrap; text-overflow: ellipsis; }
    JobHeading > RoofPicture { margin: 0 2; }
    JobHeading > #stands { width: 22; height: 3; text-wrap: nowrap; text-overflow: ellipsis; }
    """

    def compose(self) -> ComposeResult:
        """Left, the picture, right."""
        yield Static("", id="who")
        yield RoofPicture()
        yield Static("", id="stands")

    def show(self, situation: Situation) -> None:
        """Draw the job as it stands."""
        job, p = situation.job, PALETTES[self.app.theme]
        who = Text(f"{job.ref}  ", style=p.quiet, end="")
        who.append(one_line(_place(job)), style=f"bold {p.ink}")
        who.append(f"\n      {one_line(_customer(job))}", style=p.ink)
        who.append(f"\n      {one_line(job.site.access)}", style=p.quiet)
        self.query_one("#who", Static).update(who)
        picture = self.query_one(RoofPicture)
        picture.stage = job.stage
        picture.form = job.survey.measures.form if job.survey else Form.APEX
        stands = Text(job.ended or job.stage, style=f"bold {p.brick}", end="")
        for words in (_day_of(job, situation.today), next_words(job, situation.today)):
            stands.append(f"\n{words}" if words else "", style=p.quiet)
        self.query_one("#stands", Static).update(stands)


def next_words(job: Job, today: date) -> str:
    """What comes next, with its day if it has one: ``next: lay, Thu 25 Jun``."""
    if job.ended is not None:
        return ""
    if job.stage is Stage.ENQUIRY and job.enquiry.visit_on:
        return f"next: visit, {show_day(job.enquiry.visit_on)}"
    ahead = [d for d in job.days if d.day >= today]
    if ahead and job.stage in (Stage.BOOKED, Stage.STRIPPED):
        return f"next: {one_line(ahead[0].task)}, {show_day(ahead[0].day)}"
    if job.stage is Stage.QUOTED and job.quote and job.quote.holds_until:
        return f"holds until {show_date(job.quote.holds_until)}"
    return f"next: {_NEXT[job.stage]}" if job.stage in _NEXT else ""


_NEXT = {
    Stage.ENQUIRY: "agree a visit",
    Stage.SURVEY: "write up, quote",
    Stage.QUOTED: "hear from them",
    Stage.BOOKED: "strip",
    Stage.STRIPPED: "lay",
    Stage.LAID: "sign off, invoice",
}


def _day_of(job: Job, today: date) -> str:
    """``day 1 of 2``, on a booked day."""
    days = sorted({d.day for d in job.days})
    return f"day {days.index(today) + 1} of {len(days)}" if today in days else ""


def _place(job: Job) -> str:
    """The place, with the town if the address tells more than it."""
    return job.site.place or job.site.address or "place not known"


def _customer(job: Job) -> str:
    return " · ".join(part for part in (job.customer.name, job.customer.phone) if part.strip())
