"""Label and amount, one under the other: the money of the days that are shown."""

from collections.abc import Sequence
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
    title = reactive("", layout=True)
    """Which days they are of: ``23 to 29 Nov``."""
    in_a_line = reactive(False, layout=True)
    """Whether there is room for one line alone: what is owed, and what came of the days."""

    async def on_click(self) -> None:
        """Go to what is owed."""
        await self.run_action("app.go('owed')")

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
            figures = [booked, to_come] if f.lie_ahead else _done(f, p)[2:4]
            shown = owing if f.late else owing[:1]
            return _line(shown, self.title, figures, self.size.width, p)
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


def _line(
    owing: Sequence[_Figure], days: str, of_days: Sequence[_Figure], width: int, p: Palette
) -> Text:
    """What is owed, then the figures of the days; those that matter least are left out first."""
    lines = (
        _in_a_row(first, f"{days}: " if rest else "", rest, p)
        for first, rest in (
            (owing, of_days),
            (owing, of_days[1:]),
            (owing[:1], of_days[1:]),
            (owing[:1], ()),
        )
    )
    return next((line for line in lines if line.cell_len <= width), Text(""))


def _in_a_row(owing: Sequence[_Figure], days: str, of_days: Sequence[_Figure], p: Palette) -> Text:
    text = Text(end="")
    for figures, title in ((owing, ""), (of_days, days)):
        text.append("   " if title else "")
        text.append(title, style=p.quiet)
        for number, (label, amount, style) in enumerate(figures):
            text.append(f"{'   ' if number else ''}{label} ", style=p.quiet)
            text.append(amount, style=style)
    return text
