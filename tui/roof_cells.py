"""The roof in a few cells, for lists and the week: the state it is in, in the trade's own picture."""

from rich.text import Text

from domain.job.job import Stage
from tui.theme import Palette

WIDTH = 5
"""Cells of one picture."""


def roof_cells(stage: Stage, palette: Palette) -> Text:
    """Five cells: old covering, bare boards, courses, closed by its ridge."""
    if stage.rank < Stage.STRIPPED.rank:
        return Text("░▒░▒░", style=palette.quiet, end="")
    if stage is Stage.STRIPPED:
        return Text("═════", style=palette.caution, end="")
    if stage is Stage.LAID:
        return Text("▆▆▆▆▆", style=palette.brick, end="")
    return Text("▟███▙", style=palette.moss, end="")
