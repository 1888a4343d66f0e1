"""What is worked out from a survey as it is typed: a column beside it, or a few lines above it."""

from dataclasses import replace

from rich.text import Text
from textual.app import RenderResult
from textual.reactive import reactive
from textual.widget import Widget

from domain.drawing.drawing_parts import Drawing, DrawnSlope
from domain.signs import BEFORE_WORDS, Sign
from domain.tone import Tone
from tui.frame.safe_text import one_line
from tui.frame.theme import PALETTES, Palette
from tui.job.survey.takeoff_as_typed import Figure
from tui.roof.small_drawing import small_roof_lines

_LABEL, _SHORT_LABEL, _FEW = 11, 10, 26
"""Cells of a label; and where there are few to a line, how many that are."""
_ROOF = 7
"""Lines kept for the roof, however many figures there are, with one between."""
_GAP = "   "


class TakeoffBeside(Widget):
    """Figures as a column, or run together on lines when ``above``; a stop before all of them.

    Its size hangs on nothing that it shows: what changes is painted, and nothing is laid out anew.
    """

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    TakeoffBeside { dock: right; width: 25; min-width: 25; height: 1fr; padding: 0 0 0 1; }
    TakeoffBeside.-above { dock: none; width: 1fr; min-width: 0; height: 3; padding: 0; }
    """

    figures: reactive[tuple[Figure, ...]] = reactive(())
    """What was worked out last."""
    slopes: reactive[tuple[DrawnSlope, ...]] = reactive(())
    """The roof to scale, drawn small where there is room."""
    drawing: reactive[Drawing | None] = reactive(None)
    """The roof that was counted last."""
    counting: reactive[Figure | None] = reactive(None)
    """That the next figures are still being worked out, if it takes a while."""
    stop = reactive("")
    """A sentence that stops the work; empty if nothing does."""
    above = reactive(False)
    """Whether it stands above the form and has few lines."""
    behind = reactive(False)
    """Whether something was typed since: the figures are drawn quietly until they follow."""

    def __init__(self) -> None:
        super().__init__()
        self._sketched: tuple[tuple[DrawnSlope, ...], int, int, Palette] | None = None
        self._sketch: list[Text] = []

    def watch_above(self) -> None:
        """Put the figures beside the form or above it, as the width allows."""
        self.set_class(self.above, "-above")

    def render(self) -> RenderResult:
        """Price, stop, then the other figures and the roof; where lines are few, the first two."""
        p = PALETTES[self.app.theme]
        parts = (
            [Text(f"{Sign.STOP} stop  {one_line(self.stop)}", style=p.stop)] if self.stop else []
        )
        if self.above:
            return Text("\n").join([*self._price(p), *parts]) if parts else self._run_on(p)
        width, height = max(1, self.content_size.width), self.content_size.height
        kept = 0 if self.stop or not self.slopes else _ROOF
        figures = list(self._all)
        told: list[Text] = []
        if parts and self._price(p):  # the stop is long, and what they ask for is what it costs
            told += self._lines(figures.pop(0), width, p)
        for part in parts:
            told += part.wrap(self.app.console, width)
        for figure in figures:
            lines = self._lines(figure, width, p)
            if len(told) + len(lines) <= max(height - kept, 1):
                told += lines
        roof = self._roof(width, height - len(told) - 1, p) if kept else []
        return Text("\n").join([*told, Text(""), *roof])

    def _roof(self, width: int, height: int, p: Palette) -> list[Text]:
        """The roof drawn small: while only figures change, as it was drawn last."""
        wanted = self.slopes, width, height, p
        before = self._sketched
        if before is None or before[0] is not wanted[0] or before[1:] != wanted[1:]:
            self._sketched, self._sketch = wanted, small_roof_lines(*wanted)
        return self._sketch

    def _price(self, p: Palette) -> list[Text]:
        """What comes first, if it is a figure: what it comes to; nothing while that is unknown."""
        first = next(iter(self._all), None)
        is_price = first is not None and bool(first.label)
        return [self._told(first, f"{first.label} ", p)] if first and is_price else []

    @property
    def _all(self) -> tuple[Figure, ...]:
        """How far it is, and the figures."""
        return (self.counting, *self.figures) if self.counting else self.figures

    def _lines(self, figure: Figure, width: int, p: Palette) -> list[Text]:
        """The label, and beside it what it comes to: what goes on stays under its beginning."""
        if not figure.label:
            return list(self._told(figure, "", p).wrap(self.app.console, width))
        label = _LABEL if width > _FEW else _SHORT_LABEL
        first = f"{figure.label} "
        words = self._told(replace(figure, label=""), "", p)
        lines = list(words.wrap(self.app.console, max(1, width - max(label, len(first)))))
        begins = (f"{first:<{label}}", *(" " * label for _ in lines[1:]))
        return [
            Text.assemble((begin, p.quiet), line) for begin, line in zip(begins, lines, strict=True)
        ]

    def _run_on(self, p: Palette) -> Text:
        """As many figures to a line as it holds, none broken; sentences first, on their own."""
        told = Text("\n").join(self._told(f, "", p) for f in self._all if not f.label)
        column = 0
        for figure in (f for f in self.figures if f.label):
            part = self._told(figure, f"{figure.label.lower()} ", p)
            fits = column and column + len(_GAP) + part.cell_len <= self.size.width
            told.append(_GAP if fits else "\n" if told else "").append_text(part)
            column = part.cell_len + (column + len(_GAP) if fits else 0)
        return told

    def _told(self, figure: Figure, label: str, p: Palette) -> Text:
        words = BEFORE_WORDS.get(figure.tone, "") + one_line(figure.words)
        return Text.assemble(
            (label if figure.label else "", p.quiet), (words, self._style(figure.tone, p))
        )

    def _style(self, tone: Tone, p: Palette) -> str:
        if self.behind or tone is Tone.QUIET:
            return p.quiet
        tones = {Tone.CAUTION: p.caution, Tone.GOOD: p.moss, Tone.STRONG: f"bold {p.verdigris}"}
        return tones.get(tone, f"bold {p.ink}")
