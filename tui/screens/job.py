"""One job: its heading, its trail, the sheet in front, and what the next stage still wants."""

from collections.abc import Callable
from importlib import import_module
from typing import ClassVar, cast

from textual import events
from textual.app import ComposeResult
from textual.dom import DOMNode
from textual.widgets import ContentSwitcher

from domain.checks.check import Situation
from domain.errors import Refused
from domain.sheets import SheetName
from domain.tone import Tone
from tui.commands import key_of
from tui.screens import job_stage
from tui.screens.base import BaseScreen
from tui.sheets.base import Sheet
from tui.widgets.form import Form
from tui.widgets.job_heading import JobHeading
from tui.widgets.key_line import KeyLine
from tui.widgets.missing import Missing
from tui.widgets.trail import TABS, Trail
from tui.widgets.voice import Voice

_SHEETS = {
    SheetName.ENQUIRY: ("enquiry", "EnquirySheet"),
    SheetName.SURVEY: ("survey", "SurveySheet"),
    SheetName.QUOTE: ("quote", "QuoteSheet"),
    SheetName.BOOKING: ("booking", "BookingSheet"),
    SheetName.STRIP: ("stripped", "StrippedSheet"),
    SheetName.LAYING: ("laid", "LaidSheet"),
    SheetName.MATERIALS: ("used", "UsedSheet"),
    SheetName.SIGN_OFF: ("signed_off", "SignedOffSheet"),
    SheetName.MONEY: ("money", "MoneySheet"),
}
"""Module and class of each sheet: loaded when it is first looked at."""


_LOOK_S = 60
"""Seconds between two looks at the calendar on the wall."""


class JobScreen(BaseScreen):
    """The job ``job_id``, opened at ``sheet`` or at what is to be done next."""

    place: ClassVar[str] = "job"
    title_words: ClassVar[str] = "a job"
    CSS = """
    JobScreen ContentSwitcher { height: 1fr; margin-top: 1; }
    JobScreen Trail { margin-top: 1; }
    """

    def __init__(self, job_id: int, sheet: SheetName | None = None) -> None:
        super().__init__()
        self.job_id = job_id
        self.situation: Situation | None = None
        self.opened_at = sheet
        self._asked_to_leave = False

    def compose(self) -> ComposeResult:
        """Heading, trail, sheet, what is missing, voice, keys."""
        yield JobHeading()
        yield Trail()
        yield ContentSwitcher(id="sheets")
        yield Missing()
        yield Voice()
        yield KeyLine()

    def on_mount(self) -> None:
        """Notice midnight where the screen is left open: no sheet goes on with yesterday's date."""
        self.set_interval(_LOOK_S, lambda: self.errand(self._keep_to_the_day()))

    async def look_again(self) -> None:
        """Read the job; what was typed stays."""
        await self.renew()

    async def renew(self, anew: Sheet | None = None) -> None:
        """Read the job and show it everywhere; the sheet ``anew`` lets go of what was typed."""
        today = self.desk.today
        situation = await self.desk.ask(lambda book: book.situation(self.job_id, today))
        first, self.situation = self.situation is None, situation
        self.query_one(JobHeading).show(situation)
        self.query_one(Trail).stage = situation.job.stage
        self.query_one(Missing).show(*job_stage.what_is_missing(situation))
        for sheet in self.query(Sheet):
            if sheet.is_mounted:  # one just turned to is shown the record once its parts are there
                sheet.show(situation, anew=sheet is anew)
        if first:
            await self.turn_to(self.opened_at or job_stage.where_to_begin(situation))

    async def turn_to(self, name: SheetName, *, enter: bool = True) -> None:
        """Bring a sheet to the front; ``enter`` puts the cursor into it."""
        if name is SheetName.TRADER:
            self.head.action_go("trader")
            return
        await self._keep_to_the_day()
        switcher = self.query_one(ContentSwitcher)
        if not switcher.query(f"#{name.value}"):
            await self._mount_sheet(name)
        switcher.current = name.value
        self.query_one(Trail).shown = name
        if enter:
            self.front.begin()

    @property
    def front(self) -> Sheet:
        """The sheet in front."""
        switcher = self.query_one(ContentSwitcher)
        return switcher.query_one(f"#{switcher.current}", Sheet)

    @property
    def unsaved(self) -> list[str]:
        """The names of the sheets with something typed that is not on record."""
        return [TABS[sheet.sheet][0] for sheet in self.query(Sheet) if sheet.dirty]

    def namespaces(self) -> list[tuple[str, DOMNode]]:
        """The commands of the sheet in front, then those of the job."""
        own = [(self.front.place, cast("DOMNode", self.front))] if self._is_ready() else []
        return [*own, *super().namespaces()]

    def may_leave(self) -> bool:
        """Whether nothing would be lost; with something typed, only when asked twice."""
        if not self.unsaved or self._asked_to_leave:
            return True
        self._asked_to_leave = True
        sheets = " and ".join(self.unsaved)
        self.say(
            (
                f"Unsaved changes in {sheets}. Press it again to lose them, or "
                f"{key_of('job', 'save')} to save this page."
            ),
            Tone.CAUTION,
        )
        return False

    def action_back(self) -> None:
        """Step back to the screen below."""
        if self.may_leave():
            self.dismiss()

    def action_sheet(self, by: int) -> None:
        """Turn to the next sheet or the one before."""
        self.errand(self.turn_to(self.query_one(Trail).neighbour(by)))

    def action_save(self) -> None:
        """Save the sheet in front."""
        if self._is_ready():
            self.deed(self._save())

    def action_drawing(self) -> None:
        """Show the roof to scale, what goes where: as typed where it is being typed."""
        from tui.screens.drawing import DrawingScreen
        from tui.sheets.papers import show_drawing

        typed = self.front.typed_roof if self._is_ready() else None
        if typed is not None:
            self.app.push_screen(DrawingScreen(typed, f"{self.front.job.ref}, as typed"))
        else:
            self._once_surveyed(show_drawing)

    def action_site_sheet(self) -> None:
        """Show the sheet for the roof on record."""
        from tui.sheets.papers import show_site_sheet

        self._once_surveyed(show_site_sheet)

    def action_next_stage(self) -> None:
        """Call the job by its next stage."""
        if self.situation is not None and self._all_saved():
            self.deed(self._call_next())

    def action_stage_back(self) -> None:
        """A stage back, with a reason; an ended job is taken up again."""
        if self.situation is not None:
            job_stage.step_back(self, self.situation.job)

    def action_end(self) -> None:
        """Write down that the job was declined or called off."""
        if self.situation is not None:
            job_stage.end(self, self.situation.job)

    def on_trail_turned(self, event: Trail.Turned) -> None:
        """Another sheet."""
        event.stop()
        self.errand(self.turn_to(event.sheet, enter=event.enter))

    def on_missing_asked(self, event: Missing.Asked) -> None:
        """The sheet that settles it."""
        event.stop()
        self.errand(self.turn_to(event.sheet))

    def on_form_changed(self, event: Form.Changed) -> None:
        """Typing again means not leaving."""
        event.stop()
        self._asked_to_leave = False
        self.query_one(Voice).hush()

    def on_resize(self, _event: events.Resize) -> None:
        """What is missing takes the lines there are, and every sheet stands as they ask."""
        self.query_one(Missing).fit()
        for sheet in self.query(Sheet):
            sheet.fit()

    async def _mount_sheet(self, name: SheetName) -> None:
        module, kind = _SHEETS[name]
        sheet: Sheet = getattr(import_module(f"tui.sheets.{module}"), kind)()
        await self.query_one(ContentSwitcher).mount(sheet)
        if self.situation is not None:
            sheet.show(self.situation)

    async def _call_next(self) -> None:
        await self._keep_to_the_day()
        if self.situation is not None:
            await job_stage.call_next(self, self.situation)

    async def _keep_to_the_day(self) -> None:
        """Read the job again once midnight has passed: sheets fill in the day, checks go by it."""
        if self.situation is not None and self.situation.today != self.desk.today:
            await self.renew()

    def _is_ready(self) -> bool:
        return self.query_one(ContentSwitcher).current is not None

    def _once_surveyed(self, show: Callable[[Sheet], None]) -> None:
        """Show something of the roof on record, unless the survey says another by now."""
        survey = TABS[SheetName.SURVEY][0]
        if survey in self.unsaved:
            self.say(
                f"Save what you typed under {survey} first: {key_of('job', 'save')}.", Tone.CAUTION
            )
        elif self._is_ready():
            show(self.front)

    def _all_saved(self) -> bool:
        """Tell whether nothing is only typed; a stage is decided by what is on record."""
        if self.unsaved:
            self.say(f"Save what you typed under {' and '.join(self.unsaved)} first.", Tone.CAUTION)
        return not self.unsaved

    async def _save(self) -> None:
        sheet = self.front
        try:
            await sheet.save()
        except Refused as error:
            sheet.refuse(error)
            raise
        self._asked_to_leave = False
