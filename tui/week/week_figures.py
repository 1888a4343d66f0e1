"""Label and amount, one under the other: the week's money."""

from rich.text import Text
from textual.app import RenderResult
from textual.reactive import reactive
from textual.widget import Widget

from domain.days.calendar import show_hours
from domain.money import show_money
from domain.quantity import to_quarter
from domain.week import Figures
from tui.frame.theme import PALETTES


class WeekFigures(Widget):
    """What the week came to, and what is owed."""

    DEFAULT_CSS = "WeekFigures { width: 24; height: auto; padding: 0 0 0 2; }"

    figures: reactive[Figures | None] = reactive(None, layout=True)

    def render(self) -> RenderResult:
        """Amounts lined up at the right, brighter than their labels."""
        p, f = PALETTES[self.app.theme], self.figures
        if f is None:
            return Text("")
        owed, late = f"bold {p.ink}" if f.owed else p.ink, p.caution if f.late else p.ink
        rows = [
            ("quoted", show_money(f.quoted), p.ink),
            ("accepted", show_money(f.accepted), p.ink),
            ("invoiced", show_money(f.invoiced), p.ink),
            ("paid", show_money(f.paid), p.moss if f.paid else p.ink),
            ("hours", show_hours(to_quarter(f.hours)), p.ink),
            None,
            ("owed to you", show_money(f.owed), owed),
            ("overdue", show_money(f.late), late),
        ]
        text = Text()
        text.append("This week\n\n", style=f"bold {p.ink}")
        for row in rows:
            if row is not None:
                label, amount, style = row
                text.append(f"{label:<12}", style=p.quiet)
                text.append(f"{amount:>10}", style=style)
            text.append("\n")
        return text
