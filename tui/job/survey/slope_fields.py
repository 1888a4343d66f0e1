"""One slope of a roof that is taped slope by slope, as it is typed and as a line of the list."""

from collections.abc import Mapping, Sequence
from enum import StrEnum
from fractions import Fraction
from typing import TypeVar

from domain.errors import Refused
from domain.exact import half_up
from domain.setting_out.forms.taped import slope_of
from domain.setting_out.kinds import EdgeKind, Finish
from domain.setting_out.measures import FINISHES, SIDES, TapedSlope
from domain.units import parse_length, parse_offset
from tui.widgets.field_row import Field
from tui.widgets.line_input import Takes

K = TypeVar("K", bound=StrEnum)

_TOPPED = ("finish", *(finish.value for finish in FINISHES if finish is not Finish.POINT))

FIELDS = (
    Field("eaves", "Eaves", "edge to edge", example="4.3 m", takes=Takes.FIGURE),
    Field("length", "Length", "up the slope", example="1443 mm", takes=Takes.FIGURE),
    Field("finish", "Finish", choices=tuple(finish.value for finish in FINISHES)),
    Field(
        "top", "Top", "if not as the eaves", example="3.05 m", only_for=_TOPPED, takes=Takes.FIGURE
    ),
    Field("inset", "Inset", "of the top at the left", example="0 or -1.25 m", takes=Takes.FIGURE),
    Field("left_edge", "Left edge", choices=tuple(edge.value for edge in SIDES)),
    Field("right_edge", "Right edge", choices=tuple(edge.value for edge in SIDES)),
)
"""Ids are those by which a slope refuses a measure, so that a refusal finds its field."""


def slope_typed(slope: TapedSlope | None, before: Sequence[TapedSlope]) -> dict[str, str]:
    """Return what stands in the fields; a new slope goes on from the one ``before`` it."""
    if slope is None:
        last = before[-1] if before else None
        return {
            "length": last.length.typed if last else "",
            "finish": Finish.RIDGE.value,
            "left_edge": last.right_edge.value if last else EdgeKind.VERGE.value,
            "right_edge": EdgeKind.VERGE.value,
        }
    return {
        "eaves": slope.eaves.typed,
        "length": slope.length.typed,
        "finish": slope.finish.value,
        "top": slope.top.typed if slope.top else "",
        "inset": slope.inset.typed if slope.inset else "",
        "left_edge": slope.left_edge.value,
        "right_edge": slope.right_edge.value,
    }


def read_slope(values: Mapping[str, str]) -> TapedSlope:
    """Return what was typed as a value. Raises :class:`Refused` for what makes no slope."""
    top, inset = values["top"], values["inset"]
    slope = TapedSlope(
        eaves=parse_length("eaves", values["eaves"], zero=False),
        length=parse_length("length", values["length"], zero=False),
        finish=_chosen("finish", Finish, values["finish"]),
        top=parse_length("top", top) if top.strip() else None,
        inset=parse_offset("inset", inset) if inset.strip() else None,
        left_edge=_chosen("left_edge", EdgeKind, values["left_edge"]),
        right_edge=_chosen("right_edge", EdgeKind, values["right_edge"]),
    )
    slope_of(slope)
    return slope


def slope_line(number: int, taped: TapedSlope) -> str:
    """A slope on one line: number, lengths in millimetres, edges from left to right."""
    slope = slope_of(taped)
    lengths = (("eaves", slope.eaves), ("up", slope.length), ("top", slope.top))
    told = "  ".join(f"{word} {_mm(length):>6}" for word, length in lengths)
    edges = f"{slope.left_edge}, {slope.finish}, {slope.right_edge}"
    return f"{number:>2}  {told}  inset {_mm(slope.inset):>6}  {edges}"


def _chosen(field: str, kind: type[K], value: str) -> K:
    if not value:
        raise Refused(field, "", "Choose one with the arrow keys.")
    return kind(value)


def _mm(length: Fraction) -> str:
    return f"{half_up(length):,}".replace("-", "−")
