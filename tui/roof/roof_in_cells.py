"""The roof in a few cells, for lists and the week: as it stands, in the trade's own picture."""

from rich.text import Text

from domain.job.on_the_roof import Cover
from domain.job.stage import Stage
from domain.week import PictureState, picture_of
from tui.frame.theme import Palette


def roof_in_cells(picture: PictureState, palette: Palette) -> Text:
    """Five cells: old covering, bare boards, a tarpaulin over them, courses, the ridge on."""
    cells, colour = {
        PictureState.OLD: ("░▒░▒░", palette.quiet),
        PictureState.BARE: ("═════", palette.timber),
        PictureState.SHEETED: ("▃▂▃▂▃", palette.slate),
        PictureState.LAID: ("▆▆▆▆▆", palette.brick),
        PictureState.CLOSED: ("▟███▙", palette.moss),
    }[picture]
    return Text(cells, style=colour, end="")


def stage_cells(stage: Stage, palette: Palette) -> Text:
    """As :func:`roof_in_cells`, where no more than the stage is known."""
    return roof_in_cells(
        picture_of(stage, Cover.OPEN if stage is Stage.STRIPPED else None), palette
    )
