"""The roof of a job as it stands today, three lines of half-blocks: two rows of a gable a line."""

from collections.abc import Mapping

from rich.color import Color
from rich.style import Style
from rich.text import Text
from textual.app import RenderResult
from textual.reactive import reactive
from textual.widget import Widget

from domain.job import Stage
from domain.setting_out.kinds import RoofForm
from tui.frame.theme import PALETTES, Palette

WIDTH = 16
ROWS = 6
"""Rows of the picture, two a line of text."""

Cell = str | None
"""The colour of one half-block; None is the sky."""


class RoofPicture(Widget):
    """Old covering, tired and patchy; bare boards; courses; closed by its ridge."""

    ALLOW_SELECT = False
    DEFAULT_CSS = f"RoofPicture {{ width: {WIDTH}; height: 3; }}"

    stage = reactive(Stage.ENQUIRY)
    form = reactive(RoofForm.APEX)

    def render(self) -> RenderResult:
        """The picture in the colours in force."""
        palette = PALETTES[self.app.theme]
        return half_block_text(gable_cells(self.form, self.stage, palette), palette.ground)


def gable_cells(form: RoofForm, stage: Stage, palette: Palette) -> list[list[Cell]]:
    """The half-blocks of a roof, row by row from the ridge down."""
    return [
        [
            _covering(stage, row, place, palette) if first <= place < last else None
            for place in range(WIDTH)
        ]
        for row, (first, last) in enumerate(_outline(form))
    ]


def half_block_text(rows: list[list[Cell]], ground: str) -> Text:
    """Draw pairs of rows as lines of text; shape is kept where there is no colour."""
    lines = []
    for upper, lower in zip(rows[::2], rows[1::2], strict=True):
        line = Text(end="")
        for above, below in zip(upper, lower, strict=True):
            line.append_text(_half_block(above, below, ground))
        lines.append(line)
    return Text("\n", end="").join(lines)


def _half_block(above: Cell, below: Cell, ground: str) -> Text:
    if above is None and below is None:
        return Text(" ", end="")
    if above is None:
        return Text("▄", style=str(below), end="")
    if above == below:
        return Text("█", style=above, end="")
    return Text("▀", Style(color=Color.parse(above), bgcolor=Color.parse(below or ground)), end="")


_HALVES: Mapping[RoofForm, tuple[int, ...]] = {
    RoofForm.APEX: (0, 1, 3, 4, 6, 7),
    RoofForm.PYRAMID: (0, 1, 3, 4, 6, 7),
    RoofForm.BARN: (1, 3, 5, 6, 7, 7),
    RoofForm.HIP: (3, 4, 5, 5, 6, 7),
    RoofForm.SLOPES: (3, 4, 5, 5, 6, 7),
}
"""How far the roof reaches to either side of its middle, row by row."""


def _outline(form: RoofForm) -> list[tuple[int, int]]:
    """From where to where the roof reaches in each row, looked at from the gable."""
    half = WIDTH // 2
    if form in _HALVES:
        return [(half - 1 - step, half + 1 + step) for step in _HALVES[form]]
    if form is RoofForm.OFFSET_APEX:
        return [(10 - step, min(WIDTH, 12 + step)) for step in (0, 2, 4, 6, 8, 10)]
    # A pent or lean-to rises to the right; its high edge stands upright.
    return [(WIDTH - 2 - step, WIDTH) for step in (1, 4, 6, 9, 11, 14)]


def _covering(stage: Stage, row: int, place: int, p: Palette) -> Cell:
    """What lies at a place: chosen by the stage, so that the roof is seen to change."""
    if stage.rank < Stage.STRIPPED.rank:
        patch = (row * 7 + place * 5 + place // 3) % 6
        return None if patch == 5 else p.quiet if patch in (0, 3) else p.line
    if stage is Stage.STRIPPED:
        return p.timber if row % 2 else p.line
    if stage is Stage.SIGNED_OFF and row == 0:
        return p.moss
    joint = (place + (row % 2) * 2) % 4 == 0
    return p.line if joint and row else p.brick
