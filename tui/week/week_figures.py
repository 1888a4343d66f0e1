"""Label and amount, one under the other: the week's money."""

from typing import TypeAlias

from rich.text import Text
from textual.app import RenderResult
from textual.reactive import reactive
from textual.widget import Widget

from domain.days.calendar import show_hours
from domain.money import show_money
from domain.quantity import to_quarter
from domain.week import Figures
from tui.frame.theme import PALETTES, Palette

_Figure: TypeAlias = tuple[str, str, str]
"""Label, amount and its colour."""


class WeekFigures(Widget):
    """What the week came to, and what is owed."""

    DEFAULT_CSS = "WeekFigures { height: auto; }"

    figures: reactive[Figures | None] = reactive(None, layout=True)
    title = reactive("This week", layout=True)
    """Which days they are of."""
    in_a_line = reactive(False, layout=True)
    """Whether there is room for one line alone: what is owed, and what came of the week."""

    def render(self) -> RenderResult:
        """Amounts brighter than their labels, one under the other or in a line."""
        p, f = PALETTES[self.app.theme], self.figures
        if f is None:
            return Text("")
        owed, late = f"bold {p.ink}" if f.owed else p.ink, p.caution if f.late else p.ink
        owing = [
            ("owed to you", show_money(f.owed), owed),
            ("overdue", show_money(f.late), late),
        ]
        if self.in_a_line:
            booked, _, to_come = _to_come(f, p)
            rows = [booked, to_come, owing[0]] if f.lie_ahead else [*_done(f, p)[2:4], *owing]
            return _line(rows, self.size.width, p)
        week = _to_come(f, p) if f.lie_ahead else _done(f, p)
        return _column(self.title, [*week, ("", "", p.ink), *owing], p)


def _done(f: Figures, p: Palette) -> list[_Figure]:
    """What a week came to."""
    return [
        ("quoted", show_money(f.quoted), p.ink),
        ("accepted", show_money(f.accepted), p.ink),
        ("invoiced", show_money(f.invoiced), p.ink),
        ("paid", show_money(f.paid), p.moss if f.paid else p.ink),
        ("hours", show_hours(to_quarter(f.hours)), p.ink),
    ]


def _to_come(f: Figures, p: Palette) -> list[_Figure]:
    """What a week is to bring."""
    return [
        ("booked", show_money(f.booked), p.ink),
        ("hours", show_hours(f.hours_booked), p.ink),
        ("to come in", show_money(f.to_come_in), p.moss if f.to_come_in else p.ink),
    ]


def _column(title: str, rows: list[_Figure], p: Palette) -> Text:
    text = Text()
    text.append(f"{title}\n\n", style=f"bold {p.ink}")
    for label, amount, style in rows:
        text.append(f"{label:<14}", style=p.quiet)
        text.append(f"{amount:>12}\n", style=style)
    return text


def _line(rows: list[_Figure], width: int, p: Palette) -> Text:
    """As many as there is room for, those that matter least left out first."""
    while len(rows) > 1 and sum(len(f"{label} {amount}   ") for label, amount, _ in rows) > width:
        rows = rows[1:]
    text = Text(end="")
    for label, amount, style in rows:
        text.append(f"{label} ", style=p.quiet)
        text.append(amount, style=style)
        text.append("   ")
    return text
