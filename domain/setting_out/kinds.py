"""The words for roofs, edges and tops, as they stand in the book and in a survey file."""

from enum import StrEnum


class RoofForm(StrEnum):
    """The shapes of roof that can be set out."""

    PENT = "pent"
    LEAN_TO = "lean-to"
    APEX = "apex"
    OFFSET_APEX = "offset-apex"
    """An apex whose ridge is not over the middle."""
    BARN = "barn"
    """An apex with two pitches a side, the lower the steeper."""
    HIP = "hip"
    PYRAMID = "pyramid"
    """Equal triangles over a square, six, eight or any regular number of sides."""
    SLOPES = "slopes"
    """Any other roof, its slopes taped one by one."""

    @property
    def called(self) -> str:
        """What it is called: "offset apex"; in a survey file it is one word."""
        return self.value.replace("offset-", "offset ")

    @property
    def words(self) -> str:
        """What such a roof is called on paper: "offset apex roof"."""
        if self is RoofForm.SLOPES:
            return "roof taped slope by slope"
        return f"{self.called} roof"


class EdgeKind(StrEnum):
    """What stands along an edge of a slope."""

    EAVES = "eaves"
    VERGE = "verge"
    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    TOP = "top"
    """The high edge of a pent."""
    ABUTMENT = "abutment"
    """Against a wall, under a flashing."""
    BREAK = "break"
    """Where a barn roof changes its pitch: the strips of the lower slope are bent over it."""


FREE = frozenset({EdgeKind.EAVES, EdgeKind.VERGE, EdgeKind.TOP})
"""Edges that nothing stands against and nothing covers."""


class Finish(StrEnum):
    """How a slope ends at the top."""

    RIDGE = "ridge"
    TOP = "top"
    """The high edge of a pent."""
    ABUTMENT = "abutment"
    """Against a wall, under a flashing."""
    POINT = "point"
    """A triangle, closed by the hip pieces."""
    BREAK = "break"
    """Under the upper slope of a barn roof, on which the last courses run on."""
