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
from tui.frame.safe_text import one_line, shortened
from tui.frame.theme import PALETTES
from tui.widgets.field_row import Field
from tui.widgets.form import Form

_TITLE = 21
"""Cells up to what is said of a group: the labels of its fields, and the edge of what is typed."""
_TOLD = 32
"""Cells up to what of it is open, or stands there."""


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

    open_fields: reactive[tuple[str, ...]] = reactive(())
    """What of it is open, by the labels of its fields."""
    given: reactive[tuple[str, ...]] = reactive(())
    """What stands in its fields, each with its label."""
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
        """Its name, how far it is answered and, while it is folded, what of it that fits."""
        p = PALETTES[self.app.theme]
        focus = f"bold underline {p.verdigris}" if self.has_focus else f"bold {p.ink}"
        line = Text(end="").append(self.title, style=focus)
        line.append(" …" if not self.is_open else "", style=p.verdigris)
        line.append(" " * max(1, _TITLE - line.cell_len))
        if self.open_fields:
            line.append(f"{len(self.open_fields)} open", style=p.ink)
        elif self.given:
            line.append(f"{Sign.GOOD} {len(self.given)} given", style=p.moss)
        else:
            return line.append("if there are any", style=p.quiet)
        if self.is_open:
            return line.append(f"  {self.answer}" if self.open_fields else "", style=p.quiet)
        told = ", ".join(self.open_fields).lower() if self.open_fields else ", ".join(self.given)
        line.append(" " * max(2, _TOLD - line.cell_len))
        return line.append(shortened(told, self.size.width - line.cell_len - 1), style=p.quiet)

    def action_open(self) -> None:
        """Open it, and go into it."""
        self.post_message(self.Opened(self.title, enter=True))

    def on_click(self, event: events.Click) -> None:
        """Open it, or fold it again."""
        event.stop()
        self.post_message(self.Opened(self.title, enter=not self.is_open))


class FoldingForm(Form):
    """A form whose later sections are groups, at first folded.

    As many stay open as there is room for, at least the one opened last. A group opens by its
    heading, and whenever the cursor comes into one of its fields. ``groups`` are their headings,
    each with the words for the key that answers all of it, if there is one.
    """

    def __init__(self, fields: Iterable[Field], groups: Mapping[str, str]) -> None:
        super().__init__(fields)
        self._headings = {title: GroupHeading(title, key) for title, key in groups.items()}
        self._group_of: dict[str, str] = {}
        title = ""
        for field in self.fields:
            title = field.section or title
            self._group_of[field.id] = title if title in self._headings else ""
        self._open: tuple[str, ...] = ()

    def on_mount(self) -> None:
        """Begin with every group folded."""
        self._unfold(())

    def heading(self, field: Field) -> Widget:
        """What stands over a group can be opened."""
        return self._headings.get(field.section) or super().heading(field)

    def open_group(self, title: str) -> None:
        """Open one group; those opened before it are folded where the room is needed."""
        wanted = (*(name for name in self._open if name != title), title)
        while len(wanted) > 1 and self._lines_of(wanted) > self.size.height:
            wanted = wanted[1:]
        self._unfold(wanted)

    def fold_group(self, title: str) -> None:
        """Fold one group."""
        self._unfold(tuple(name for name in self._open if name != title))

    def _unfold(self, titles: tuple[str, ...]) -> None:
        """Open these groups and fold the others."""
        self._open = titles
        for name, heading in self._headings.items():
            heading.is_open = name in titles
        self.fold([field for field, group in self._group_of.items() if group not in ("", *titles)])

    def _lines_of(self, titles: tuple[str, ...]) -> int:
        """The lines of the form with these groups open, its own heading with them."""
        in_sight = (
            self._belongs(row.field)
            for field, row in self._rows.items()
            if self._group_of[field] in ("", *titles)
        )
        return 1 + len(self._headings) + sum(in_sight)

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
        if group and group not in self._open:
            self.open_group(group)

    def on_group_heading_opened(self, event: GroupHeading.Opened) -> None:
        """Open the group and go into it at what is open; or fold it."""
        event.stop()
        if event.enter:
            self.enter(event.title)
        else:
            self.fold_group(event.title)

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
            heading.open_fields = tuple(row.field.label for row in empty if row.field.asked)
            heading.given = tuple(
                f"{row.field.label.lower()} {one_line(row.entry.value).strip()}"
                for row in belong
                if row.entry.value.strip() not in ("", row.field.usual)
            )
