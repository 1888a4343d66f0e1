"""A square code read back from the cells that it is drawn in."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

_DARK = {" ": (0, 0), "▀": (1, 0), "▄": (0, 1), "█": (1, 1)}
_PIXELS = 4
"""A module is so many pixels a side."""


def modules(drawn: Sequence[str]) -> list[list[int]]:
    """Each line of characters as two rows of modules, 1 is dark."""
    return [[_DARK[cell][half] for cell in line] for line in drawn for half in (0, 1)]


def read_back(drawn: Sequence[str]) -> npt.NDArray[np.uint8]:
    """The picture that a camera would see: black on white."""
    grey = np.array([[255 * (1 - dark) for dark in row] for row in modules(drawn)], np.uint8)
    return grey.repeat(_PIXELS, axis=0).repeat(_PIXELS, axis=1)
