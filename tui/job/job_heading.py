"""The top of the job screen: who and where, the roof today, and what is next."""

from datetime import date

from rich.cells import cell_len
from rich.text import Text
from textual import events
from textual.app import ComposeResult, RenderResult
from textual.containers import Horizontal
from textual.geometry import Size
from textual.reactive import reactive
from textual.widget import Widget

from domain.checks.check import Situation
from domain.job import Job
from domain.setting_out.kinds import RoofForm
from domain.week.next_step import next_step
from tui.frame.safe_text import one_line, shortened
from tui.frame.screen import BaseScreen
from tui.frame.theme import PALETTES
from tui.roof.roof_today import RoofPicture

_SET_IN = 6
"""Cells by which what follows stands in: the reference's width."""
_CUSTOMER_LINE = 1
"""The line of the heading with the customer's name."""


class WhoAndWhere(Widget):
    """Reference and place; customer and telephone; access.

    Where a line is too short for name and number, the number goes down beside the access.
    """

    DEFAULT_CSS = "WhoAndWhere { width: 1fr; height: 3; }"

    job: reactive[Job | None] = reactive(None)

    def render(self) -> RenderResult:
        """Three lines, none broken."""
        job, p = self.job, PALETTES[self.app.theme]
        if job is None:
            return Text("")
        width = self.size.width - _SET_IN
        place = job.site.place or one_line(job.site.address) or "place not known"
        text = Text(f"{job.ref:<{_SET_IN}}", style=p.quiet, end="")
        text.append(shortened(place, width), style=f"bold {p.ink}")
        name, phone = one_line(job.customer.name), one_line(job.customer.phone)
        called = " · ".join(part for part in (name, phone) if part.strip())
        noted = f"note: {one_line(job.own_notes[-1].words)}" if job.own_notes else ""
        below = " · ".join(part for part in (one_line(job.site.access), noted) if part.strip())
        if name and phone and cell_len(called) > width:
            called, below = name, " · ".join(part for part in (phone, below) if part.strip())
        text.append(f"\n{'':{_SET_IN}}{shortened(called, width)}", style=p.ink)
        return text.append(f"\n{'':{_SET_IN}}{shortened(below, width)}", style=p.quiet)

    async def on_click(self, event: events.Click) -> None:
        """On the customer's line show the customer; elsewhere it is the heading's."""
        if event.y == _CUSTOMER_LINE:
            event.stop()
            await self.run_action("screen.customer")


class StandsAt(Widget):
    """The stage; which of its days it is; what comes next."""

    DEFAULT_CSS = "StandsAt { width: auto; min-width: 24; max-width: 32; height: 3; }"

    situation: reactive[Situation | None] = reactive(None, layout=True)

    def render(self) -> RenderResult:
        """Up to three lines, none broken."""
        situation, p = self.situation, PALETTES[self.app.theme]
        if situation is None:
            return Text("")
        job, today = situation.job, situation.today
        text = Text(end="").append(job.ended or job.stage, style=f"bold {p.verdigris}")
        for words in (_day_of(job, today), one_line(next_step(job, today))):
            if words:
                text.append(f"\n{words}", style=p.quiet)
        return text

    def get_content_width(self, container: Size, viewport: Size) -> int:
        """As wide as the longest of its lines: none is cut."""
        del container, viewport
        if self.situation is None:
            return 0
        return cell_len(next_step(self.situation.job, self.situation.today))


class JobHeading(Horizontal):
    """Three lines: who and where, the roof as it stands, how far the job has come."""

    DEFAULT_CSS = """
    JobHeading { height: 3; padding: 0 2; }
    JobHeading > RoofPicture { margin: 0 1; }
    """

    def compose(self) -> ComposeResult:
        """Yield who and where, the picture of the roof, and how far the job is."""
        yield WhoAndWhere()
        yield RoofPicture()
        yield StandsAt()

    async def on_click(self) -> None:
        """Show what was done of the job."""
        await self.run_action("screen.history")

    def show(self, situation: Situation) -> None:
        """Draw who, where, picture and stage of a job as it stands now."""
        job = situation.job
        self.query_one(WhoAndWhere).job = job
        self.query_one(StandsAt).situation = situation
        picture = self.query_one(RoofPicture)
        picture.stage = job.stage
        picture.form = job.survey.measures.form if job.survey else RoofForm.APEX


def _day_of(job: Job, today: date) -> str:
    """``day 1 of 2``, on a booked day."""
    days = sorted({d.day for d in job.days})
    return f"day {days.index(today) + 1} of {len(days)}" if today in days else ""


def show_customer(screen: BaseScreen, situation: Situation | None) -> None:
    """Show the customer with all their jobs; a page of them that lies below is gone back to."""
    from tui.customer.customer_screen import CustomerScreen

    key = situation.job.customer.id if situation is not None else None
    stack = screen.app.screen_stack
    below = stack[stack.index(screen) - 1]
    if isinstance(below, CustomerScreen) and below.customer_id == key:
        screen.action_back()
    elif key is not None:
        screen.app.push_screen(CustomerScreen(key))
