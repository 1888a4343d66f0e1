"""The survey: the roof measured and looked at, with what it takes worked out as it is typed."""

import asyncio
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import replace
from functools import partial
from typing import ClassVar

from textual.containers import Container, Vertical
from textual.widget import Widget

from domain.checks.check import Part, Situation
from domain.checks.safe_to_strip import FRAGILE
from domain.cutting.plan import Watch
from domain.drawing.drawing_parts import Drawing
from domain.estimate.supplies import PricesAndStock
from domain.integer_programme import Stopped
from domain.job import NONE_THERE, Job, OldKind
from domain.page_names import PageName
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import TapedSlope
from domain.snapshot import from_json, to_json
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.job.coverings.show_coverings import show_coverings
from tui.job.page import JobPage
from tui.job.roof_views import show_takeoff
from tui.job.survey.slope_dialog import SlopeDialog
from tui.job.survey.slope_list import SlopeList
from tui.job.survey.survey_fields import FIELDS, FOLDED, LENGTHS, NONE_THERE_ROWS
from tui.job.survey.survey_reading import (
    boards_told,
    nail_told,
    survey_from_fields,
    survey_typed,
    unlikely_sides,
)
from tui.job.survey.takeoff_as_typed import (
    WORKING_OUT,
    Figure,
    TakeoffAsTyped,
    at_once,
    counting,
    length_note,
    suspected,
    work_out,
)
from tui.job.survey.takeoff_beside import TakeoffBeside
from tui.widgets.folding_form import FoldingForm
from tui.widgets.line_list import LineList

_PAUSE_S = 0.3
"""Seconds without a key before the take-off is counted anew."""

_SLOPES = "slopes"
"""What the slopes are kept by, among the fields that were typed."""

_FORM, _BESIDE = 72, 25
"""Columns that the fields take at most where the window is wide, the rest for the take-off; and
what the take-off has where it is not."""
_NONE_THERE = f"{key_of('survey', 'none_there')}: none there"
_GROUPS = {title: _NONE_THERE if title in NONE_THERE_ROWS else "" for title in FOLDED}
_LEAST = 76
"""Columns under which the take-off stands above the fields."""

_PATIENCE_S = 0.4
"""Seconds that a count may take before the page says how far it is, each time anew."""


class SurveyPage(JobPage):
    """What a roof cannot do without, the rest in groups; beside it the roof and what it takes."""

    page: ClassVar[PageName] = PageName.SURVEY
    place: ClassVar[str] = "survey"
    DEFAULT_CSS = """
    SurveyPage > Container { layout: horizontal; height: 1fr; }
    SurveyPage.-above > Container { layout: vertical; }
    SurveyPage > Container > Vertical { width: 1fr; height: 1fr; }
    SurveyPage SlopeList { margin-bottom: 1; }
    SurveyPage.-low SlopeList { margin-bottom: 0; }
    SurveyPage Form { width: 1fr; }
    SurveyPage FieldRow > .label { width: 20; }
    SurveyPage FieldRow > Input, SurveyPage FieldRow > Input.-short { width: 15; }
    SurveyPage FieldRow > Input.-wide { width: 1fr; }
    SurveyPage FieldRow > .unit { width: 19; }
    SurveyPage FieldRow > .note { padding: 0; }
    SurveyPage.-narrow FieldRow > .unit { width: auto; padding: 0 0 0 1; }
    SurveyPage.-narrow FieldRow.-noted > .unit { display: none; }
    SurveyPage.-narrow FieldRow.-noted > .note { padding: 0 1; }
    """

    def __init__(self) -> None:
        super().__init__()
        # Kept here instead of queried: the page may be gone by the time it is told.
        self._view, self._slopes, self._form = (
            TakeoffBeside(),
            SlopeList(),
            FoldingForm(FIELDS, _GROUPS),
        )
        self._frame = Container(self._view, Vertical(self._slopes, self._form))
        self._sources: PricesAndStock | None = None
        self._wanted: dict[str, str] = {}
        self._so_far: tuple[int, int] | None = None
        self._counting = False

    def begin(self) -> None:
        """At the first field: the slopes stand above it, and most roofs have none."""
        self._form.focus_first()

    def begin_at(self, part: Part) -> None:
        """Open the group that is named as the part."""
        if part in _GROUPS:
            self._form.enter(part)

    def body(self) -> Iterable[Widget]:
        """The take-off first, so that it stands above; beside, it is docked to the right."""
        yield self._frame

    def fill(self, situation: Situation) -> None:
        """Put what is recorded into the fields."""
        survey = situation.job.survey
        self._form.fill(survey_typed(survey))
        self._slopes.fill(survey.measures.slopes if survey else ())

    def follow(self, situation: Situation) -> None:  # noqa: ARG002  read again when it is drawn
        """The take-off, at the prices and stock of now."""
        self._work_out()

    def on_unmount(self) -> None:
        """Nobody waits for the count any more: what runs is stopped."""
        self._wanted = {}

    def part(self, job: Job) -> object:
        """Return what this page keeps of the job: the survey."""
        return job.survey

    @property
    def typed(self) -> dict[str, str]:
        """What was typed, and the slopes if they were changed."""
        slopes = {_SLOPES: to_json(self._slopes.slopes)} if self._slopes.dirty else {}
        return super().typed | slopes

    def put_back(self, typed: Mapping[str, str]) -> None:
        """Type it again; slopes that cannot be read stay as they are recorded."""
        super().put_back(typed)
        if _SLOPES in typed:
            with suppress(KeyError, ValueError):
                slopes = from_json(tuple[TapedSlope, ...], typed[_SLOPES])
                self._slopes.put(0, *slopes, over=len(self._slopes.slopes))

    @property
    def dirty(self) -> bool:
        """Whether anything was typed, or the slopes were changed."""
        return super().dirty or self._slopes.dirty

    @property
    def typed_roof(self) -> Drawing | None:
        """The roof last worked out, once it has caught up with the typing."""
        return self._view.drawing if self.dirty and not self._view.behind else None

    def on_slope_list_changed(self) -> None:
        """The take-off follows the slopes; the screen hears of the change too."""
        self._work_out()

    def on_form_changed(self) -> None:
        """The take-off follows what is typed; the screen hears of the change too."""
        if self._situation is not None:  # the choices tell of themselves before they are filled
            self._work_out()

    def fit(self) -> None:
        """The take-off beside the fields, or above them where they would not have room."""
        super().fit()
        columns = self.app.size.width
        self._view.above = columns < _LEAST
        self.set_class(self._view.above, "-above")
        beside = _BESIDE if self.has_class("-narrow") else columns - _FORM
        self._view.styles.width = None if self._view.above else beside

    def as_typed(self) -> Job:
        """The job with the survey as it is typed."""
        values, before = self._form.values, self.job.survey
        today, slopes = self.open_book.today, self._slopes.slopes
        return replace(self.job, survey=survey_from_fields(values, before, today, slopes))

    def asks_first(self) -> str:
        """Ask, besides, about sides far from those that were said on the telephone."""
        asked = (
            super().asks_first(),
            self._form.asks_about(unlikely_sides(self._form.values, self.job.enquiry.nominal)),
        )
        return " ".join(filter(None, asked))

    async def save(self) -> None:
        """Write what was typed. Raises :class:`domain.errors.HeadlapError`."""
        job = self.job
        survey = survey_from_fields(
            self._form.values, job.survey, self.open_book.today, self._slopes.slopes
        )
        await self.record(lambda book: book.save_survey(job, survey), "Saved: the survey.")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's own
        """The commands of the slopes are in force only while they are asked for."""
        if action == "delete_slope":
            return self._slopes.cursor is not None
        return action != "add_slope" or self._slopes.display

    def on_another_slope_wanted(self) -> None:
        """Add a slope."""
        self.action_add_slope()

    def action_add_slope(self) -> None:
        """Add a slope after the one under the cursor, or at the end."""
        cursor = self._slopes.cursor
        self._ask_for(len(self._slopes.slopes) if cursor is None else cursor + 1, None)

    def action_delete_slope(self) -> None:
        """Take the slope under the cursor out of the list."""
        cursor = self._slopes.cursor
        if cursor is not None:
            self._slopes.put(cursor, over=1)

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Change a slope."""
        event.stop()
        self._ask_for(event.row, self._slopes.slopes[event.row])

    def action_none_there(self) -> None:
        """Answer what is still open of the group in front: it was looked for and is not there."""
        title = self._form.group_in_front
        if title not in NONE_THERE_ROWS:
            groups = " or ".join(f"“{group}”" for group in NONE_THERE_ROWS)
            words = f"Go to {groups} first: it answers the group you are in."
            self.job_screen.say(words, Tone.CAUTION)
            return
        for name in NONE_THERE_ROWS[title]:
            if not self._form.values[name].strip():
                self._form.put(name, NONE_THERE)
        self.job_screen.say(
            f"{title}: looked, none there. {key_of('job', 'save')} saves it.", Tone.QUIET
        )

    def action_side_by_side(self) -> None:
        """Show the roof in each covering."""
        show_coverings(self)

    def action_takeoff(self) -> None:
        """Show the take-off of what is recorded as a paper."""
        if self.dirty:
            self.job_screen.say(
                f"Save what you typed first: {key_of('job', 'save')}.", Tone.CAUTION
            )
        else:
            show_takeoff(self)

    def _ask_for(self, at: int, slope: TapedSlope | None) -> None:
        """Ask for a slope; it is put into the list, and is recorded with the survey."""

        async def put(taped: TapedSlope) -> None:
            self._slopes.put(at, taped, over=0 if slope is None else 1)
            self.job_screen.say(
                f"The slope is in the list: {key_of('job', 'save')} saves the survey."
            )

        before = self._slopes.slopes[:at]
        self.app.push_screen(SlopeDialog(at + 1, slope, before, put))

    def _work_out(self) -> None:
        """Show at once what is quick, and have the take-off counted, one at a time."""
        self._wanted = self._form.values
        self._slopes.display = self._wanted["form"] == RoofForm.SLOPES.value
        self._view.behind = True
        self._view.stop = suspected(self._wanted, self.open_book.today)
        self._show_at_once()
        for key in LENGTHS:
            self._form.note(key, length_note(key, self._wanted[key]))
        self._form.note("replace_m", boards_told(self._wanted))
        told, is_open = nail_told(self._wanted, self.situation.trader.nailing.shingle_nail)
        self._form.note("nail_mm", told, Tone.CAUTION if is_open else Tone.PLAIN)
        fragile = self._wanted["old_kind"] == OldKind.CEMENT_SHEET.value
        self._form.tell("old_kind", FRAGILE if fragile else "", Tone.CAUTION)
        if not self._counting:
            self._counting = True
            self.job_screen.in_background(self._counted())

    def _show_at_once(self) -> None:
        """The roof to scale and roughly what it takes: the rest follows."""
        found = at_once(self._wanted, self._sources, self.situation.trader, self._slopes.slopes)
        self._view.figures, self._view.slopes = found.figures, found.slopes

    async def _counted(self) -> None:
        try:
            if self._sources is None:
                self._sources = await self._prices_and_stock()
                self._show_at_once()
            while self.is_attached and self._view.behind:
                values = self._wanted
                await asyncio.sleep(_PAUSE_S)
                if values is self._wanted:
                    await self._count(values)
        finally:
            self._counting = False

    async def _count(self, values: dict[str, str]) -> None:
        self._sources = await self._prices_and_stock()
        self._so_far = None
        trader, watch = self.situation.trader, self._goes_on(values)
        told = (values, self._sources, trader, watch, self._slopes.slopes, self.job)
        found = await self._waited_for(partial(work_out, *told), lambda: counting(self._so_far))
        self._show(values, found)
        if found.worked_out is not None and self._is_wanted(values):
            rest = partial(found.worked_out, lambda: values is self._wanted)
            with suppress(Stopped):
                found = await self._waited_for(rest, lambda: WORKING_OUT)
                self._show(values, found)
        self._view.behind = not self._is_wanted(values)

    async def _waited_for(
        self, work: Callable[[], TakeoffAsTyped], told: Callable[[], Figure]
    ) -> TakeoffAsTyped:
        """What is worked out in a thread; while it takes long, the page tells how far it is."""
        count = asyncio.ensure_future(asyncio.to_thread(work))
        while not (await asyncio.wait({count}, timeout=_PATIENCE_S))[0]:
            self._view.counting = told()
        self._view.counting = None
        return await count

    def _show(self, values: dict[str, str], found: TakeoffAsTyped) -> None:
        if self._is_wanted(values):
            self._view.figures, self._view.slopes = found.figures, found.slopes
            self._view.drawing = found.drawing

    def _is_wanted(self, values: dict[str, str]) -> bool:
        return self.is_attached and values is self._wanted

    async def _prices_and_stock(self) -> PricesAndStock:
        """The prices and the stock of now."""
        job_id, today = self.job.id, self.open_book.today
        return await self.open_book.ask(lambda book: book.sources(job_id, today))

    def _goes_on(self, values: dict[str, str]) -> Watch:
        """Keeps how far the count of these values is; it goes on while nothing else is wanted."""

        def watch(found: int, at_least: int) -> bool:
            self._so_far = found, at_least
            return values is self._wanted

        return watch
