"""What was used: a row a material and kind of hours, filled with the estimate, soon corrected."""

from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from typing import ClassVar

from rich.text import Text
from textual import events
from textual.widget import Widget
from textual.widgets import Static

from domain.books.margin import bought_for
from domain.checks.check import Situation
from domain.errors import Refused
from domain.estimate.basis import PricingBasis
from domain.estimate.quoting import basis_of
from domain.estimate.stock import short_words
from domain.estimate.usage import Outcome, UsageRecord, in_hand, leftovers_to_stock
from domain.job import Job
from domain.money import Pence
from domain.page_names import PageName
from domain.papers.materials_paper import materials_paper
from domain.quantity import show_quantity
from domain.signs import Sign
from domain.tone import Tone
from domain.typing_slips import Slip, used_slips
from tui.frame.commands import key_of
from tui.job.materials.materials_list import MaterialsList, MaterialsTitles
from tui.job.materials.materials_rows import (
    MaterialRow,
    confirm,
    detail,
    earned_words,
    material_rows,
    quantity_of,
    stepped,
    stepped_by_pack,
)
from tui.job.materials.materials_rows import (
    typed as with_figures,
)
from tui.job.page import JobPage
from tui.widgets.line_list import LineList
from tui.widgets.slip_words import is_that_right

_LONGEST = 7  # characters of a figure
_FIGURES_ONLY = (
    f"Type figures only here. {key_of('used', 'accept_all')} accepts all rows and saves."
)
_ROOM = 80
"""Columns from which what the job earned stands with what it took."""


class MaterialsPage(JobPage):
    """Left and right change a row, figures type it, Enter accepts it, a key accepts all and saves.

    No letter is a command: it may be the unit behind a figure.
    """

    page: ClassVar[PageName] = PageName.MATERIALS
    place: ClassVar[str] = "used"
    DEFAULT_CSS = """
    MaterialsPage MaterialsList { height: auto; max-height: 7; }
    MaterialsPage #detail { height: 2; margin-top: 1; }
    MaterialsPage #earned { height: auto; max-height: 2; color: $quiet; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[MaterialRow, ...] = ()
        self._at_first: tuple[MaterialRow, ...] = ()
        self._figures = ""
        self._asked: set[Slip] = set()
        self._asked_untouched = False
        self._basis: PricingBasis | None = None
        self._bought: Pence = 0

    def body(self) -> Iterable[Widget]:
        """Titles, rows, and what became of the row under the cursor."""
        yield MaterialsTitles()
        yield MaterialsList()
        yield Static("", id="detail")
        yield Static("", id="earned")

    def fill(self, situation: Situation) -> None:
        """Put what was recorded into the rows, else the estimate."""
        quote = situation.job.quote
        self._basis = basis_of(quote) if quote is not None else None
        self._rows = self._at_first = material_rows(situation.job)
        self._figures = ""
        self._asked.clear()
        self._asked_untouched = False
        self._to_part(Outcome.USED)
        self.job_screen.in_background(self._look_up_bought(situation.job))

    async def _look_up_bought(self, job: Job) -> None:
        """What else was bought for the job, such as boards, goes off what it earned."""
        paid = await self.open_book.ask(lambda book: book.bought_for(job.id))
        self._bought = bought_for(job, paid)
        self._show()

    def part(self, job: Job) -> object:
        """Return what this page keeps of the job: what was recorded of materials and hours."""
        return job.usages

    @property
    def typed(self) -> dict[str, str]:
        """The quantities of each row that was changed: ``50 used, 0 wasted, …``."""
        pairs = zip(self._rows, self._at_first, strict=True)
        return {
            now.usage.element: ", ".join(
                f"{show_quantity(quantity_of(now, part))} {part}" for part in now.parts
            )
            for now, first in pairs
            if now.usage != first.usage
        }

    @property
    def labels(self) -> dict[str, str]:
        """What each row is called."""
        return {row.usage.element: row.words for row in self._rows}

    def put_back(self, typed: Mapping[str, str]) -> None:
        """Set the rows again; the quantity of a row that is gone is passed by."""
        for number, row in enumerate(self._rows):
            for each in filter(None, typed.get(row.usage.element, "").split(", ")):
                quantity, _, part = each.partition(" ")
                with suppress(Refused, ValueError):
                    now = with_figures(self._rows[number], Outcome(part), quantity)
                    self._replace(number, now)

    @property
    def dirty(self) -> bool:
        """Whether a figure was changed."""
        return any(
            now.usage != first.usage for now, first in zip(self._rows, self._at_first, strict=True)
        )

    def action_step(self, by: int) -> None:
        """A strip, a metre, a cartridge or a quarter of an hour less or more."""
        row = self._row
        if row is not None:
            self._change(stepped(row, self._part, by))

    def action_pack(self, by: int) -> None:
        """Count a pack less or more in the row under the cursor."""
        row, quote = self._row, self.situation.job.quote
        if row is not None and quote is not None:
            self._change(stepped_by_pack(row, self._part, by, quote.counting.basis))

    def action_next_part(self) -> None:
        """What was wasted, left over, returned; and back to what was used."""
        row = self._row
        if row is not None:
            at = row.parts.index(self._part)
            self._to_part(row.parts[(at + 1) % len(row.parts)])

    def action_accept_all(self) -> None:
        """Confirm all rows as they stand, and save them."""
        self._rows = tuple(map(confirm, self._rows))
        self._show()
        self._save_as_accepted()

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Another row: what is typed next is a new figure, of what was used."""
        event.stop()
        self._to_part(Outcome.USED)

    def on_materials_list_pointed(self, event: MaterialsList.Pointed) -> None:
        """Go to the part of the row that was clicked."""
        event.stop()
        row = self._row
        self._to_part(event.part if row is not None and event.part in row.parts else Outcome.USED)

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """The row is right: on to the next; after the last one all is saved."""
        event.stop()
        self._replace(event.row, confirm(self._rows[event.row]))
        ahead = [number for number, row in enumerate(self._rows) if not row.accepted]
        if ahead:
            following = next((n for n in ahead if n > event.row), ahead[0])
            self.query_one(MaterialsList).cursor = following
        else:
            self._save_as_accepted()

    def _save_as_accepted(self) -> None:
        """Save, and ask again what is open: rows that are accepted answer no question."""
        self._asked.clear()
        self.job_screen.save_first()

    def on_key(self, event: events.Key) -> None:
        """Figures type the quantity, Backspace takes the last away; a letter does nothing."""
        row, character = self._row, event.character or ""
        if event.key == "backspace":
            figures = self._figures[:-1]
        elif character and character in "0123456789.":
            figures = (self._figures + character)[:_LONGEST]
        elif character.isalnum():
            event.stop()
            event.prevent_default()
            self.job_screen.say(_FIGURES_ONLY, Tone.QUIET)
            return
        else:
            return
        event.stop()
        event.prevent_default()
        if row is not None:
            self._type(row, figures)

    def asks_first(self) -> str:
        """Go to the first row that may be a slip and say so under the rows; each is asked once.

        So are the rows that nobody has looked at: they would be recorded as estimated.
        """
        quote = self.situation.job.quote
        held = in_hand(quote.counting.basis) if quote is not None else {}
        slips = used_slips((row.usage for row in self._rows), held)
        new = [slip for slip in slips if slip not in self._asked]
        self._asked |= set(new)
        untouched = self._untouched()
        if new:
            elements = [row.usage.element for row in self._rows]
            self.query_one(MaterialsList).cursor = elements.index(new[0].field)
            self._caution("; ".join(slip.words for slip in new))
            return is_that_right([slip.words for slip in new])
        if untouched and not self._asked_untouched:
            self._asked_untouched = True
            self.query_one(MaterialsList).cursor = self._rows.index(untouched[0])
            rows = "1 row is" if len(untouched) == 1 else f"{len(untouched)} rows are"
            self._caution(f"{rows} still as estimated, not accepted")
            return _as_estimated(untouched, len(self._rows))
        return ""

    def _untouched(self) -> list[MaterialRow]:
        """The rows that were neither changed nor accepted."""
        pairs = zip(self._rows, self._at_first, strict=True)
        return [row for row, first in pairs if not row.accepted and row.usage == first.usage]

    def _caution(self, words: str) -> None:
        line = Text(f"{Sign.CAUTION} {words}", style=self.palette.tone(Tone.CAUTION))
        self.call_after_refresh(self.query_one("#detail", Static).update, line)

    def as_typed(self) -> Job:
        """The job with the rows as they stand."""
        return replace(self.job, usages=tuple(row.usage for row in self._rows))

    async def save(self) -> None:
        """Record it; what is left over goes to stock."""
        job, usages = self.job, tuple(row.usage for row in self._rows)
        if not usages:
            self.job_screen.say(
                "Price the job first: there is nothing to compare with.", Tone.QUIET
            )
            return
        ordered = await self.open_book.ask(lambda book: book.goes_through_stock(job.id))
        moves = leftovers_to_stock(job, usages, self.open_book.today, ordered=ordered)
        short = await self.open_book.ask(lambda book: book.would_be_short(job.id, moves))
        words = "Saved: materials and hours used." + (" Leftovers are in stock." if moves else "")
        await self.record(lambda book: book.record_usage(job, UsageRecord(usages, moves)), words)
        if short:
            self.job_screen.say(f"Saved. {short_words(short)}", Tone.CAUTION)

    @property
    def undo_waits(self) -> str:
        """What undo says while figures are not saved: it would reach for what lies before them."""
        return f"These figures are not saved yet: {key_of('job', 'save')} saves them." * self.dirty

    def action_summary(self) -> None:
        """Show estimated against used, what the job earned as quoted, and what it left as paid."""
        self.job_screen.in_worker(self._summary())

    async def _summary(self) -> None:
        from tui.papers.paper_screen import PaperScreen

        job = self.situation.job
        paid = await self.job_screen.open_book.ask(lambda book: book.paid_for(job.id))
        self.app.push_screen(PaperScreen(materials_paper(job, paid)))

    @property
    def _row(self) -> MaterialRow | None:
        cursor = self.query_one(MaterialsList).cursor
        return self._rows[cursor] if cursor < len(self._rows) else None

    @property
    def _part(self) -> Outcome:
        return self.query_one(MaterialsList).part

    def _to_part(self, part: Outcome) -> None:
        """The keys change this part from now on."""
        self._figures = ""
        self.query_one(MaterialsList).part = self.query_one(MaterialsTitles).part = part
        self._show()

    def _type(self, row: MaterialRow, figures: str) -> None:
        try:
            changed = with_figures(row, self._part, figures)
        except Refused as error:
            self.job_screen.say(str(error), Tone.CAUTION)
            return
        self._figures = figures
        self._replace(self.query_one(MaterialsList).cursor, changed)

    def _change(self, row: MaterialRow) -> None:
        self._figures = ""
        self._replace(self.query_one(MaterialsList).cursor, row)

    def _replace(self, number: int, row: MaterialRow) -> None:
        self._rows = (*self._rows[:number], row, *self._rows[number + 1 :])
        self._show()
        self.job_screen.typed_again()

    def _show(self) -> None:
        rows, p = self.query_one(MaterialsList), self.palette
        rows.show(len(self._rows), lambda number, width: rows.draw_row(self._rows[number], width))
        words, tone = "No quote yet. Price the job and its materials will appear here.", Tone.QUIET
        row = self._row
        if row is not None:
            words, tone = detail(row, self._basis)
        self.query_one("#detail", Static).update(Text(words, style=p.tone(tone)))
        whole = self.app.size.width >= _ROOM
        earns = earned_words(self.situation.job, self._rows, self._bought, whole=whole)
        self.query_one("#earned", Static).update(Text(earns))


def _as_estimated(untouched: Sequence[MaterialRow], rows: int) -> str:
    """Ask whether the rows that nobody has looked at are to be recorded, and say where they are."""
    count = len(untouched)
    them = "1 row" if count == 1 else f"{count} rows"
    if count == rows:
        return f"Nothing changed: record {them} as estimated?"
    first = untouched[0].words
    return f"Record {them} as estimated, {first}{'' if count == 1 else ' first'}?"
