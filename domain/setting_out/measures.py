"""What is measured of a roof, by its form. None always means: not measured."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.units import Angle, Length


@dataclass(frozen=True, slots=True)
class TapedSlope:
    """One slope taped by itself, looked at from below the eaves."""

    eaves: Length
    length: Length
    """From the eaves to the top, up the slope."""
    finish: Finish
    """One of :data:`FINISHES`."""
    top: Length | None = None
    """Length of the top edge; not measured counts as that of the eaves, of a point as none."""
    inset: Length | None = None
    """How far the left end of the top lies in from that of the eaves; less than 0 if it lies out.

    Not measured counts as none, but only where the top is as long as the eaves.
    """
    left_edge: EdgeKind = EdgeKind.VERGE
    """One of :data:`SIDES`."""
    right_edge: EdgeKind = EdgeKind.VERGE
    """One of :data:`SIDES`."""


FINISHES = (Finish.RIDGE, Finish.TOP, Finish.ABUTMENT, Finish.POINT)
"""How a slope that is taped by itself can end at the top."""

SIDES = (EdgeKind.VERGE, EdgeKind.HIP, EdgeKind.VALLEY, EdgeKind.ABUTMENT)
"""What can stand along the sides of a slope that is taped by itself."""


@dataclass(frozen=True, slots=True)
class RoofMeasures:
    """What was measured of the whole roof; :data:`MEASURES_OF` says what each form takes."""

    form: RoofForm
    length: Length | None = None
    """Of the building along the ridge or the eaves, on plan."""
    span: Length | None = None
    """Of the building across, on plan."""
    rise: Length | None = None
    """Over the span of a pent or lean-to, over half the span of an apex or hip, of a pyramid over
    the distance from the middle of a side to the centre."""
    pitch: Angle | None = None
    """Wins over the rise."""
    slope_length: Length | None = None
    """Taped up the slope from edge to edge; wins over what pitch or rise give."""
    eaves_length: Length | None = None
    """Taped along the eaves from edge to edge, of a hip roof along its long sides.

    Wins over length and overhangs.
    """
    eaves_overhang: Length | None = None
    """On plan, as all overhangs; not measured counts as none."""
    verge_overhang: Length | None = None
    top_overhang: Length | None = None
    """At the high edge; a pent alone has one."""
    front_run: Length | None = None
    """Of an offset apex, on plan from one wall to under the ridge."""
    front_rise: Length | None = None
    back_run: Length | None = None
    """From under the ridge to the other wall."""
    back_rise: Length | None = None
    lower_run: Length | None = None
    """Of a barn roof, on plan from the wall to under the break."""
    lower_rise: Length | None = None
    upper_run: Length | None = None
    """From under the break to under the ridge."""
    upper_rise: Length | None = None
    sides: int | None = None
    """Of a pyramid: how many."""
    side: Length | None = None
    """Of a pyramid: one side along the eaves, overhang included."""
    slopes: tuple[TapedSlope, ...] = ()
    """Taped one by one."""


_WALLS = ("length", "span")
_STEEPNESS = ("rise", "pitch", "slope_length")
_OVERHANGS = ("eaves_overhang", "verge_overhang")

MEASURES_OF: Mapping[RoofForm, tuple[str, ...]] = MappingProxyType(
    {
        RoofForm.PENT: (*_WALLS, *_STEEPNESS, "eaves_length", *_OVERHANGS, "top_overhang"),
        RoofForm.LEAN_TO: (*_WALLS, *_STEEPNESS, "eaves_length", *_OVERHANGS),
        RoofForm.APEX: (*_WALLS, *_STEEPNESS, "eaves_length", *_OVERHANGS),
        RoofForm.OFFSET_APEX: (
            *(*_WALLS, "front_run", "front_rise", "back_run", "back_rise"),
            *("eaves_length", *_OVERHANGS),
        ),
        RoofForm.BARN: (
            *(*_WALLS, "lower_run", "lower_rise", "upper_run", "upper_rise"),
            *("eaves_length", *_OVERHANGS),
        ),
        RoofForm.HIP: (*_WALLS, *_STEEPNESS, "eaves_length", "eaves_overhang"),
        RoofForm.PYRAMID: ("sides", "side", *_STEEPNESS),
        RoofForm.SLOPES: ("pitch", "slopes"),
    }
)
"""The measures that each form of roof takes, by their names in :class:`RoofMeasures`."""
