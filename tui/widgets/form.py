"""A form that reads like a page: label, what was typed, unit, and beside it what is worked out."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import suppress
from datetime import date
from typing import TYPE_CHECKING, ClassVar, cast

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from domain.days.calendar import show_date
from domain.days.dates import read_date, read_until
from domain.errors import Refused
from domain.tone import Tone
from domain.typing_slips import Slip, far_date, far_last_day, past_day
from storage.texts import TooLong, is_of
from tui.frame.message_line import Says
from tui.frame.safe_text import one_line
from tui.frame.screen import move_cursor
from tui.widgets.choice import ChoiceField
from tui.widgets.field_row import Field, FieldRow
from tui.widgets.line_input import LineInput, Takes
from tui.widgets.said_under import SaidUnder
from tui.widgets.slip_words import is_that_right

if TYPE_CHECKING:
    from tui.frame.program import Program

YES_NO = ("yes", "no")
_HOW_TO_CHOOSE = "Choose with ← and →, or type how one begins; ↓ goes on."


class Form(VerticalScroll, can_focus=False, inherit_bindings=False):
    """Fields under one another; knows what stood in them at first, so if anything was typed."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "step(-1)", "up", show=False),
        Binding("down", "step(1)", "down", show=False),
        Binding("enter", "next_field", "next field", show=False),
    ]
    DEFAULT_CSS = """
    Form { height: 1fr; scrollbar-size-vertical: 1; }
    Form > .section { color: $ink; text-style: bold; margin-top: 1; height: 1; }
    Form > .section.-first { margin-top: 0; }
    Form > .slip { height: auto; padding: 0 1 0 23; color: $caution; display: none; }
    Form > .slip.-stop { color: $stop; padding: 0 1 0 4; }
    Form > .told { height: auto; padding: 0 1 0 2; color: $slate; text-overflow: ellipsis; }
    Form > .told { text-wrap: nowrap; }
    Form > .told.-good { color: $moss; }
    Form > .told.-caution { color: $caution; text-wrap: wrap; }
    Form > .told.-stop { color: $stop; text-wrap: wrap; }
    """

    class Changed(Message):
        """Something was typed or chosen."""

        def __init__(self, form: "Form") -> None:
            self.form = form
            super().__init__()

    def __init__(self, fields: Iterable[Field], *, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(id=id)
        self.fields = tuple(fields)
        # Kept here instead of queried: a result may come when the rows are no longer mounted.
        self._rows = {field.id: FieldRow(field) for field in self.fields}
        self._at_first: dict[str, str] = {f.id: "" for f in self.fields}
        self._given: dict[str, str] = {}
        self._asked: set[Slip] = set()
        self._noted: dict[str, tuple[str, Tone]] = {}
        self._folded: frozenset[str] = frozenset()
        self._under = SaidUnder(self.fields)

    def compose(self) -> ComposeResult:
        """Yield a line for each field, with the headings between."""
        for field in self.fields:
            if field.section:
                yield self.heading(field)
            yield self._rows[field.id]
            yield self._under.lines[field.id]

    def heading(self, field: Field) -> Widget:
        """What stands over the first field of a section."""
        first = "-first" if field is self.fields[0] else ""
        return Static(Content(field.section), classes=f"section {first}")

    def on_mount(self) -> None:
        """Put in what was given before there were widgets."""
        self.fill(self._given)

    def fill(self, values: Mapping[str, str]) -> None:
        """Set the fields, and take this as what stood there at first. Others are emptied."""
        self._given = dict(values)
        if not self.is_mounted and not self.is_attached:
            return
        for field in self.fields:
            text = one_line(values.get(field.id, ""))
            self._at_first[field.id] = text
            widget = self._rows[field.id].entry
            with self.prevent(Input.Changed, ChoiceField.Changed):
                if isinstance(widget, LineInput):
                    widget.fill(text)
                else:
                    widget.value = text
            self._forget(field.id)
        self._show_and_hide()

    def put(self, field_id: str, text: str) -> None:
        """Type something into a field, as the person might."""
        self._rows[field_id].entry.value = one_line(text)

    @property
    def values(self) -> dict[str, str]:
        """What stands in the fields now, as typed; fields that do not belong there are empty."""
        return {
            field_id: row.entry.value if self._belongs(row.field) else ""
            for field_id, row in self._rows.items()
        }

    @property
    def typed(self) -> dict[str, str]:
        """What differs from what stood there at first, by field."""
        now = {field_id: row.entry.value for field_id, row in self._rows.items()}
        return {
            field_id: text for field_id, text in now.items() if text != self._at_first[field_id]
        }

    @property
    def dirty(self) -> bool:
        """Whether anything differs from what stood there at first."""
        return bool(self.typed)

    @property
    def labels(self) -> dict[str, str]:
        """What each field is called."""
        return {field.id: field.label for field in self.fields}

    def put_back(self, typed: Mapping[str, str]) -> None:
        """Type again what :attr:`typed` gave; what is of no field here is passed by."""
        for field_id in typed.keys() & self._rows.keys():
            self.put(field_id, typed[field_id])

    def note(self, field_id: str, text: str, tone: Tone = Tone.PLAIN) -> None:
        """What is worked out from a field, written beside it (the field must have a unit).

        What stands there already is not written again: that would lay out all of the screen.
        """
        before, before_tone = self._noted.get(field_id, ("", None))
        if before == text and before_tone in (tone, None):
            return
        self._noted[field_id] = text, tone
        note = self._rows[field_id].beside
        if tone is not before_tone:
            note.set_classes(f"note -{tone.value}")
        if bool(text) is not bool(before):
            self._rows[field_id].set_class(bool(text), "-noted")
        note.update(Content(one_line(text)))

    def tell(self, field_id: str, words: str, tone: Tone = Tone.PLAIN, keys: str = "") -> None:
        """Say something in a line under a field; without words the line is taken away.

        ``keys`` stands in a line below: what each key does with it. A caution takes as many lines
        as it needs.
        """
        told = "\n".join(filter(None, (one_line(words), keys))) if words else ""
        if new := self._under.tell(field_id, told, tone):
            self.mount(new, after=self._under.lines[field_id])
        self._under.show(field_id, shown=self._rows[field_id].display)

    def refuse(self, error: Refused) -> str:
        """Go to the field that is refused, say under it what would do, and return the sentence.

        That calls it by its label. What was typed stays. A field of elsewhere is called by its own
        words.
        """
        row = self._row_of(error)
        if row is None:
            return str(error)
        self._under.take_back_refusals()
        self._under.say(row.field.id, error.remedy, Tone.STOP)
        self.focus_first(row.field.id)
        self.call_after_refresh(self._keep_in_sight)
        return error.sentence(row.field.label)

    def on_resize(self) -> None:
        """Keep the field with the cursor in sight: what is said below takes lines of the form."""
        self.call_after_refresh(self._keep_in_sight)

    def _keep_in_sight(self) -> None:
        """The field with the cursor, and what is said under it."""
        for field_id, row in self._rows.items():
            if row.entry.has_focus:
                for widget in (self._under.lines[field_id], row):
                    if widget.display:
                        widget.scroll_visible(animate=False, immediate=True)

    def holds(self, error: Refused) -> bool:
        """Whether one of the fields is the one that is refused."""
        return self._row_of(error) is not None

    def _row_of(self, error: Refused) -> FieldRow | None:
        named = self._rows.get(error.field)
        if not isinstance(error, TooLong):
            return named
        rows = [named, *self._rows.values()] if named else self._rows.values()
        return next(
            (
                row
                for row in rows
                if self._belongs(row.field) and is_of(row.entry.value, error.text)
            ),
            None,
        )

    def asks_about(self, slips: Iterable[Slip]) -> str:
        """Say under each field what may be a slip, and return what is to be asked of it.

        It is asked once: saving again without another change saves. The cursor goes to the first.
        """
        new = [slip for slip in slips if slip not in self._asked and slip.field in self._rows]
        for field_id in {slip.field for slip in new}:
            of_field = [slip for slip in new if slip.field == field_id]
            self._asked.update(of_field)
            self._under.say(field_id, "\n".join(slip.words for slip in of_field), Tone.CAUTION)
        if new:
            self.focus_first(new[0].field)
            self.call_after_refresh(self._keep_in_sight)
        return is_that_right([slip.words for slip in new])

    def lacking(self) -> str:
        """Name the fields that are needed and empty, and go to the first; "" for none.

        "" for a single one too: whoever reads it says what would do.
        """
        empty = [f for f in self.fields if f.needed and not self.values[f.id].strip()]
        if len(empty) < 2:
            return ""
        self._rows[empty[0].id].entry.focus()
        *others, last = (field.label.lower() for field in empty)
        return f"Still missing: {', '.join(others)} and {last}."

    def far_dates(self, today: date) -> Iterator[Slip]:
        """The dates typed that are over a year from today, or past where they should lie ahead.

        A last day may be years ahead, as :meth:`far_last_days` has it.
        """
        yield from self.far_last_days(today)
        for field in self.fields:
            text = self.values[field.id]
            takes = field.takes
            if takes not in (Takes.DATE, Takes.DONE, Takes.COMING) or field.id not in self.typed:
                continue
            with suppress(Refused):
                done = takes is Takes.DONE
                day = read_date(field.id, text, today, done=done) if text.strip() else today
                slip = far_date(field.id, day, today)
                if slip is None and takes is Takes.COMING:
                    slip = past_day(field.id, day, today)
                if slip is not None:
                    yield slip

    def far_last_days(self, today: date) -> Iterator[Slip]:
        """The last days typed that are further ahead than anything is likely to run."""
        for field in self.fields:
            text = self.values[field.id]
            if field.takes is Takes.LAST_DAY and field.id in self.typed and text.strip():
                with suppress(Refused):
                    day = read_until(field.id, text, today, today)
                    slip = far_last_day(field.id, day, today)
                    if slip is not None:
                        yield slip

    def fold(self, field_ids: Collection[str]) -> None:
        """Put these fields out of sight, and no others; what stands in them stays."""
        self._folded = frozenset(field_ids)
        for field_id, row in self._rows.items():
            row.display = field_id not in self._folded
        self._show_and_hide()

    def bring_out(self, field_id: str) -> None:
        """Bring a field into sight that is folded away."""
        self.fold(self._folded - {field_id})

    def focus_first(self, field_id: str | None = None) -> None:
        """Put the cursor into the named field, or the first."""
        named = field_id or self.fields[0].id
        self.bring_out(named)
        entry = self._rows[named].entry
        entry.focus()
        if field_id:  # the framework scrolls by where it stood before the form was seen
            self.call_after_refresh(self.scroll_to_center, entry, animate=False)

    def action_step(self, by: int) -> None:
        """Go to the field above or below; from the first or last, out of the form.

        The framework goes by where a field stood when last drawn, and would pass over one that a
        choice has just brought on.
        """
        if not self._go_by(by):
            move_cursor(self.screen, by)

    def action_next_field(self) -> None:
        """Go to the next field that is shown; from the last nowhere."""
        self._go_by(1)

    def _go_by(self, by: int) -> bool:
        """Go so many fields on, and tell whether there was one."""
        stops = self._stops()
        to = next(at for at, stop in enumerate(stops) if stop.has_focus) + by
        if 0 <= to < len(stops):
            stops[to].focus()
            return True
        return False

    def _stops(self) -> list[Widget]:
        """Where the cursor can stand, from above."""
        return [row.entry for row in self._rows.values() if row.display]

    def to_section(self, by: int) -> None:
        """Go to the next heading, or back to that of this section and then to the one before."""
        starts = [place for place, field in enumerate(self.fields) if field.section]
        entries = [self._rows[field.id].entry for field in self.fields]
        at = next((place for place, entry in enumerate(entries) if entry.has_focus), 0)
        ahead = [place for place in starts if (place > at if by > 0 else place < at)]
        if ahead:
            to = ahead[0 if by > 0 else -1]
            entries[to].focus(scroll_visible=False)
            heading = self.query(".section")[starts.index(to)]
            self.scroll_to_widget(heading, top=True, animate=False)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Pass on that something was typed; a date that goes with it becomes today."""
        event.stop()
        typed_in = (event.input.id or "").removeprefix("field-")
        self._forget(typed_in)
        for field in self.fields:
            if field.today_with == typed_in:
                self._date_with(field.id, event.value)
        self.post_message(self.Changed(self))

    def on_choice_field_changed(self, event: ChoiceField.Changed) -> None:
        """Pass on that something was chosen, and show the fields that go with it."""
        event.stop()
        self._forget((event.choice.id or "").removeprefix("field-"))
        self._show_and_hide()
        self.post_message(self.Changed(self))

    def on_choice_field_swallowed(self, event: ChoiceField.Swallowed) -> None:
        """Say that nothing is typed there: it was meant for the next field, perhaps."""
        event.stop()
        field_id = (event.choice.id or "").removeprefix("field-")
        wrong = Refused(field_id, one_line(event.text), _HOW_TO_CHOOSE)
        self.post_message(Says(wrong.sentence(self.labels[field_id]), Tone.CAUTION))

    def _date_with(self, field_id: str, name: str) -> None:
        """Today, once there is a name; nothing again if the name is taken out and it still is."""
        entry = self._rows[field_id].entry
        today = show_date(cast("Program", self.app).open_book.today)
        if name.strip() and not entry.value:
            entry.value = today
        elif not name.strip() and entry.value == today:
            entry.value = ""

    def _forget(self, field_id: str) -> None:
        """What was said of a field is out of date once it is changed."""
        self._asked = {slip for slip in self._asked if slip.field != field_id}
        self._under.take_back(field_id)

    def _belongs(self, field: Field) -> bool:
        """Whether a field is asked for as the others stand, folded away or not."""
        if field.only_for is None:
            return True
        other, *values = field.only_for
        return self._rows[other].entry.value in values

    def _show_and_hide(self) -> None:
        for field in self.fields:
            shown = self._belongs(field) and field.id not in self._folded
            self._rows[field.id].display = shown
            self._under.show(field.id, shown=shown)
