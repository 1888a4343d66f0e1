"""The survey: the roof measured and looked at, with what it takes worked out as it is typed."""

import asyncio
from collections.abc import Callable, Iterable
from typing import ClassVar

from textual.containers import Container
from textual.widget import Widget

from domain.checks.check import Situation
from domain.cutting.plan import Watch
from domain.estimate.supplies import Sources
from domain.job import Job
from domain.papers.blocks import Tone
from domain.sheets import SheetName
from tui.reading.survey import FIELDS, LENGTHS, read_survey, survey_typed
from tui.reading.takeoff import counting, figures, length_note, suspected
from tui.sheets.base import Sheet
from tui.sheets.papers import show_coverings, show_drawing, show_site_sheet, show_takeoff
from tui.widgets.form import Form
from tui.widgets.worked_out import WorkedOut

_PAUSE_S = 0.3
"""Seconds without a key before the take-off is counted anew."""

_PATIENCE_S = 0.4
"""Seconds that a count may take before the sheet says how far it is, each time anew."""


class SurveySheet(Sheet):
    """A form in sections; the take-off beside it, above it where the window is narrow."""

    sheet: ClassVar[SheetName] = SheetName.SURVEY
    place: ClassVar[str] = "survey"
    DEFAULT_CSS = """
    SurveySheet > Container { layout: horizontal; height: 1fr; }
    SurveySheet.-narrow > Container { layout: vertical; }
    SurveySheet Form { width: 1fr; }
    SurveySheet FieldRow > .label { width: 21; }
    SurveySheet FieldRow > Input { width: 15; }
    SurveySheet FieldRow > Input.-wide { width: 1fr; }
    SurveySheet FieldRow > .unit { width: 19; }
    SurveySheet FieldRow > .note { padding: 0; }
    """

    def __init__(self) -> None:
        super().__init__()
        # Held on to, not looked for: the sheet may be taken down while it is still being told.
        self._view, self._form = WorkedOut(), Form(FIELDS)
        self._frame = Container(self._view, self._form)
        self._wanted: dict[str, str] = {}
        self._so_far: tuple[int, int] | None = None
        self._counting = False

    def body(self) -> Iterable[Widget]:
        """The take-off first, so that it stands above; beside, it is docked to the right."""
        yield self._frame

    def fill(self, situation: Situation) -> None:
        """What is on record."""
        self._form.fill(survey_typed(situation.job.survey))

    def follow(self, situation: Situation) -> None:  # noqa: ARG002  read again when it is drawn
        """The take-off, at the prices and the store of now."""
        self._work_out()

    def on_unmount(self) -> None:
        """Nobody waits for the count any more: what runs is stopped."""
        self._wanted = {}

    def part(self, job: Job) -> object:
        """The survey."""
        return job.survey

    def on_form_changed(self) -> None:
        """The take-off follows what is typed; the screen hears of the change too."""
        if self._situation is not None:  # the choices tell of themselves before they are filled
            self._work_out()

    def fit(self) -> None:
        """The take-off beside the fields, or above them."""
        super().fit()
        self._view.narrow = self.has_class("-narrow")

    async def save(self) -> None:
        """Write what was typed. Raises :class:`domain.errors.HeadlapError`."""
        job = self.job
        survey = read_survey(self._form.values, job.survey, self.desk.today)
        await self.record(lambda book: book.save_survey(job, survey), "Saved: the survey.")

    def action_side_by_side(self) -> None:
        """Show the roof in each covering."""
        show_coverings(self)

    def action_takeoff(self) -> None:
        """Show the take-off of what is on record as a paper."""
        self._once_saved(show_takeoff)

    def action_site_sheet(self) -> None:
        """Show the sheet for the roof on record."""
        self._once_saved(show_site_sheet)

    def action_drawing(self) -> None:
        """Show the roof on record to scale."""
        self._once_saved(show_drawing)

    def _once_saved(self, show: Callable[[Sheet], None]) -> None:
        if self.dirty:
            self.job_screen.say("Save what you typed first: ctrl+s.", Tone.CAUTION)
        else:
            show(self)

    def _work_out(self) -> None:
        """Show at once what is quick, and have the take-off counted, one at a time."""
        self._wanted = self._form.values
        self._view.behind = True
        self._view.stop = suspected(self._wanted, self.situation)
        for key in LENGTHS:
            self._form.note(key, length_note(key, self._wanted[key]))
        if not self._counting:
            self._counting = True
            self.job_screen.errand(self._counted())

    async def _counted(self) -> None:
        try:
            while self.is_attached and self._view.behind:
                values = self._wanted
                await asyncio.sleep(_PAUSE_S)
                if values is self._wanted:
                    await self._count(values)
        finally:
            self._counting = False

    async def _count(self, values: dict[str, str]) -> None:
        today = self.desk.today
        job_id = self.job.id
        sources = await self.desk.ask(
            lambda book: Sources(book.prices(), book.free_stock(job_id), today)
        )
        self._so_far = None
        count = asyncio.ensure_future(
            asyncio.to_thread(figures, values, sources, self._goes_on(values))
        )
        while not (await asyncio.wait({count}, timeout=_PATIENCE_S))[0]:
            self._view.counting = counting(self._so_far)
        self._view.counting = None
        if self.is_attached and values is self._wanted:
            self._view.figures = await count
            self._view.behind = False

    def _goes_on(self, values: dict[str, str]) -> Watch:
        """Keeps how far the count of these values is; it goes on while nothing else is wanted."""

        def watch(found: int, at_least: int) -> bool:
            self._so_far = found, at_least
            return values is self._wanted

        return watch
