"""One line of a form: label, what is typed or chosen, unit, and what is worked out beside it."""

from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Static

from tui.widgets.choice import ChoiceField
from tui.widgets.line_input import LineInput, Takes

_FIGURES = (Takes.FIGURE, Takes.COUNT, Takes.QUARTERS)
_SHORT = 15
"""Cells that a hint has in the input of a figure."""


@dataclass(frozen=True, slots=True)
class Field:
    """One line of a form."""

    id: str
    """A name good for a widget id; also the key in the form's values."""
    label: str
    """What stands before it, and what a refusal calls it; free to change."""
    unit: str = ""
    choices: tuple[str, ...] = ()
    """If any, the value is one of these or empty; otherwise it is typed."""
    called: tuple[str, ...] = ()
    """What the choices are called, each in its place, where that is not the value itself."""
    hint: str = ""
    """Shown while the field is empty: what goes there, or what it means if it stays empty."""
    example: str = ""
    """Shown instead, as an example: by itself it would look like something typed."""
    takes: Takes = Takes.WORDS
    """What is typed, if it is not chosen."""
    section: str = ""
    """A heading above this line."""
    today_with: str = ""
    """Of a date: becomes today once something is typed into the field of this id."""
    needed: bool = False
    """Whether nothing can be saved while it is empty: all that is missing is said at once."""
    asked: bool = False
    """Whether it counts as open while it is empty, where a form folds."""
    usual: str = ""
    """What stands in it from the beginning: where a form folds, that is not counted as given."""
    only_for: tuple[str, ...] | None = None
    """Shown only while the field whose id stands first has one of the values after it."""


_LEADS = "→"
"""In place of a unit it leads to what is worked out: seen once there is something."""


class FieldRow(Horizontal):
    """Label, input or choice, unit, note."""

    DEFAULT_CSS = """
    FieldRow { height: 1; }
    FieldRow > .label { width: 22; color: $quiet; }
    FieldRow > .unit { width: auto; min-width: 3; padding: 0 1; color: $quiet; }
    FieldRow > .unit.-leads { display: none; }
    FieldRow.-noted > .unit.-leads { display: block; }
    FieldRow > .note { width: 1fr; color: $slate; padding: 0 1; height: 1; }
    FieldRow > .note { text-wrap: nowrap; text-overflow: ellipsis; }
    FieldRow > Input { width: 30; height: 1; border: none; padding: 0 1; background: $panel; }
    FieldRow > Input.-wide { width: 1fr; }
    FieldRow > Input.-short { width: 17; }
    FieldRow > Input > .input--placeholder { color: $quiet; text-style: italic; }
    FieldRow > Input:focus { border: none; background: $line; }
    FieldRow > Input > .input--selection { text-style: reverse; }
    FieldRow > Input.-refused { color: $stop; }
    FieldRow > .note.-caution { color: $caution; } FieldRow > .note.-stop { color: $stop; }
    FieldRow > .note.-good { color: $moss; } FieldRow > .note.-quiet { color: $quiet; }
    """

    def __init__(self, field: Field) -> None:
        super().__init__(id=f"row-{field.id}")
        self.field = field
        self.entry: LineInput | ChoiceField = self._entry()
        self.beside = Static("", classes="note")

    def compose(self) -> ComposeResult:
        """The parts of the line."""
        yield Static(Content(self.field.label), classes="label")
        yield self.entry
        if self.field.unit:
            leads = " -leads" if self.field.unit == _LEADS else ""
            yield Static(Content(self.field.unit), classes=f"unit{leads}")
            yield self.beside

    def _entry(self) -> LineInput | ChoiceField:
        """What is typed or chosen in."""
        if self.field.choices:
            return ChoiceField(
                self.field.choices, called=self.field.called, id=f"field-{self.field.id}"
            )
        placeholder = _placeholder(self.field)
        short = self.field.takes in _FIGURES and len(placeholder) <= _SHORT
        return LineInput(
            placeholder=placeholder,
            id=f"field-{self.field.id}",
            classes="-short" if short else "" if self.field.unit else "-wide",
            takes=self.field.takes,
        )


def _placeholder(field: Field) -> str:
    """An example, or a hint in brackets: neither reads as typed, even without colour."""
    if field.example:
        return f"e.g. {field.example}"
    return f"({field.hint})" if field.hint else ""
