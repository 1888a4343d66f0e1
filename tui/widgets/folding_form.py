"""A form of which all but the beginning is folded: a heading a group, with how many are open."""

from collections.abc import Iterable, Mapping
from typing import ClassVar

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from domain.signs import Sign
from tui.frame.theme import PALETTES
from tui.widgets.field_row import Field
from tui.widgets.form import Form

_TITLE = 21
"""Cells up to what is said of a group: the labels of its fields, and the edge of what is typed."""


class GroupHeading(Widget, can_focus=True):
    """``The deck …   6 open``: Enter or a click opens the group."""

    ALLOW_SELECT = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,right", "open", "open", show=False),
    ]
    DEFAULT_CSS = """
    GroupHeading { height: 1; width: 1fr; }
    GroupHeading:focus { background: $line; }
    """

    open_fields = reactive(0)
    """How many of its fields are open."""
    given = reactive(0)
    """In how many something stands."""
    is_open = reactive(False)
    """Whether its fields are in sight."""

    class Opened(Message):
        """The group is to be opened, or folded again if it is open."""

        def __init__(self, title: str, *, enter: bool) -> None:
            self.title, self.enter = title, enter
            super().__init__()

    def __init__(self, title: str, answer: str = "") -> None:
        super().__init__()
        self.title, self.answer = title, answer

    def render(self) -> RenderResult:
        """Its name, and how far it is answered."""
        p = PALETTES[self.app.theme]
        under = " underline" if self.has_focus else ""
        line = Text(self.title, style=f"bold {p.ink}{under}", end="")
        line.append(" …" if not self.is_open else "", style=p.verdigris)
        line.append(" " * max(1, _TITLE - line.cell_len))
        if self.open_fields:
            line.append(f"{self.open_fields} open", style=p.ink)
            return line.append(f"  {self.answer}" if self.is_open else "", style=p.quiet)
        if self.given:
            return line.append(f"{Sign.GOOD} {self.given} given", style=p.moss)
        return line.append("if there are any", style=p.quiet)

    def action_open(self) -> None:
        """Open it, and go into it."""
        self.post_message(self.Opened(self.title, enter=True))

    def on_click(self, event: events.Click) -> None:
        """Open it, or fold it again."""
        event.stop()
        self.post_message(self.Opened(self.title, enter=not self.is_open))


class FoldingForm(Form):
    """A form whose later sections are groups: one is open at a time, at first none.

    A group opens by its heading, and whenever the cursor comes into one of its fields. ``groups``
    are their headings, each with the words for the key that answers all of it, if there is one.
    """

    def __init__(self, fields: Iterable[Field], groups: Mapping[str, str]) -> None:
        super().__init__(fields)
        self._headings = {title: GroupHeading(title, key) for title, key in groups.items()}
        self._group_of: dict[str, str] = {}
        title = ""
        for field in self.fields:
            title = field.section or title
            self._group_of[field.id] = title if title in self._headings else ""
        self._open = ""

    def on_mount(self) -> None:
        """Begin with every group folded."""
        self.open_group("")

    def heading(self, field: Field) -> Widget:
        """What stands over a group can be opened."""
        return self._headings.get(field.section) or super().heading(field)

    def open_group(self, title: str) -> None:
        """Open one group and fold the others; none for an empty title."""
        self._open = title
        for name, heading in self._headings.items():
            heading.is_open = name == title
        self.fold([field for field, group in self._group_of.items() if group not in ("", title)])

    @property
    def group_in_front(self) -> str:
        """The group that the cursor is in or on; empty if it is in none."""
        focused = self.screen.focused
        for title, heading in self._headings.items():
            if focused is heading:
                return title
        return next(
            (self._group_of[name] for name, row in self._rows.items() if row.entry is focused), ""
        )

    def bring_out(self, field_id: str) -> None:
        """Open the group of a field."""
        group = self._group_of[field_id]
        if group and group != self._open:
            self.open_group(group)

    def on_group_heading_opened(self, event: GroupHeading.Opened) -> None:
        """Open the group and go into it at what is open; or fold it."""
        event.stop()
        if event.enter:
            self.enter(event.title)
        else:
            self.open_group("")

    def enter(self, title: str) -> None:
        """Open a group, and put the cursor into its first field that is open."""
        self.open_group(title)
        rows = [self._rows[field] for field, group in self._group_of.items() if group == title]
        shown = [row for row in rows if row.display]
        first = next((r for r in shown if r.field.asked and not r.entry.value), shown[0])
        first.entry.focus()
        self.call_after_refresh(self._bring_into_sight, self._headings[title], shown[-1])

    def _bring_into_sight(self, heading: Widget, last: Widget) -> None:
        """As much of a group as there is room for, its heading before its end."""
        for widget in (last, heading):
            widget.scroll_visible(animate=False, immediate=True)

    def to_section(self, by: int) -> None:
        """Go to the next heading, or the one before; from the first to the first field."""
        places: list[Widget] = [self._rows[self.fields[0].id].entry, *self._headings.values()]
        titles = ["", *self._headings]
        at, on = titles.index(self.group_in_front), self.screen.focused
        if by < 0 and on is not places[at]:
            by = 0  # to that of this section first
        places[max(0, min(at + by, len(places) - 1))].focus()

    def _stops(self) -> list[Widget]:
        """Where the cursor can stand, from above: headings, and the fields in sight."""
        stops: list[Widget] = []
        for field in self.fields:
            if field.section in self._headings:
                stops.append(self._headings[field.section])
            if self._rows[field.id].display:
                stops.append(self._rows[field.id].entry)
        return stops

    def _show_and_hide(self) -> None:
        super()._show_and_hide()
        self._count()

    def _forget(self, field_id: str) -> None:
        super()._forget(field_id)
        self._count()

    def _count(self) -> None:
        """Tell at each heading how many are open."""
        for title, heading in self._headings.items():
            rows = [self._rows[f] for f, group in self._group_of.items() if group == title]
            belong = [row for row in rows if self._belongs(row.field)]
            empty = [row for row in belong if not row.entry.value.strip()]
            heading.open_fields = sum(row.field.asked for row in empty)
            heading.given = sum(
                row.entry.value.strip() not in ("", row.field.usual) for row in belong
            )
