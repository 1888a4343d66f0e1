"""One slope of a roof that is taped slope by slope."""

from collections.abc import Awaitable, Callable, Sequence
from typing import Any

from domain.setting_out.measures import TapedSlope
from tui.job.survey.slope_fields import FIELDS, read_slope, slope_typed
from tui.widgets.form_dialog import FormDialog

_WORDS = (
    "Stand at the eaves and look up. Inset = how far the top left corner is in "
    "from the bottom left corner; a minus figure if it is out (at a valley). "
    "A number alone is in mm."
)


class SlopeDialog(FormDialog[TapedSlope]):
    """Asks for the measures of one slope and what stands along its edges."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    SlopeDialog FieldRow > .label { width: 12; }
    SlopeDialog FieldRow > Input { width: 22; }
    """

    def __init__(
        self,
        number: int,
        slope: TapedSlope | None,
        before: Sequence[TapedSlope],
        save: Callable[[TapedSlope], Awaitable[Any]],
    ) -> None:
        """``slope`` is the one in the list, None for a new one; ``before`` those ahead of it."""
        super().__init__(
            f"Slope {number}",
            FIELDS,
            read_slope,
            save,
            words=_WORDS,
            values=slope_typed(slope, before),
        )
