"""Courses up a slope, and the rows of shingles they are made of.

Lengths are exact millimetres; heights are measured up the slope from the eaves.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from domain.coverings.shingle import Shingle
from domain.errors import Refused
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import EdgeKind, Finish
from domain.units import show_mm


@dataclass(frozen=True, slots=True)
class Row:
    """What one course covers of its slope, before it is cut into pieces."""

    slope: int
    """Index of the slope in :attr:`domain.setting_out.flat_slopes.Roof.slopes`."""
    course: int
    """1 is at the eaves."""
    u0: Fraction
    """Left end, from the slope's left eaves corner."""
    u1: Fraction
    """Right end."""
    offset: Fraction
    """Joints and cut-outs stand at u ≡ offset (mod a tab): half a tab if odd, 0 if even."""
    left_loss: Fraction
    """What a left piece loses where it is nailed: the edge has moved in by then."""
    right_loss: Fraction
    """As ``left_loss``, of a right piece."""


@dataclass(frozen=True, slots=True)
class Courses:
    """How the courses go up one slope."""

    covered: Fraction
    """What the finish covers of the slope."""
    count: int
    """Of the courses laid."""
    exposure: Fraction
    """Of every course but the last."""
    final_exposure: Fraction
    """Of the last course laid."""
    chalk_lines: tuple[Fraction, ...]
    """Height of the top edge of every course laid; a line is struck at each."""
    past_edge: Fraction = Fraction(0)
    """How far below the slope's lower edge course 1 begins."""

    def butt(self, course: int) -> Fraction:
        """Return the height of a course's lower edge."""
        return (course - 1) * self.exposure - self.past_edge


def lay_courses(slope: Slope, shingle: Shingle) -> Courses:
    """Divide a slope into the fewest courses, eased so that none is a sliver.

    Common practice: no exposure is above the gauge, and the final one not above its own gauge. At a
    break the last courses are bent over it. Raises :class:`Refused` if the slope is too short or
    narrow for the covering.
    """
    covered = _covered_by_finish(slope.finish, shingle)
    past = shingle.past_edge
    exposed = slope.length + past - covered
    bent = slope.finish is Finish.BREAK
    count, exposure, final = _bent(exposed, shingle) if bent else _divided(exposed, shingle)
    laid = (
        count if slope.finish is not Finish.POINT else _open_rows(slope, exposure, count, shingle)
    )
    last_butt = (laid - 1) * exposure - past
    nailed_off = not bent and last_butt + shingle.nailed_at >= slope.length
    if exposed <= 0 or nailed_off:
        raise _too_short(slope, covered, count, shingle)
    top = slope.length + slope.beyond
    heights = (k * exposure + shingle.height - past for k in range(laid))
    return Courses(
        covered=covered,
        count=laid,
        exposure=exposure,
        final_exposure=final if laid == count else exposure,
        chalk_lines=tuple(min(height, top) for height in heights),
        past_edge=past,
    )


def rows_of_slope(index: int, slope: Slope, courses: Courses, shingle: Shingle) -> tuple[Row, ...]:
    """Return the row of every course laid on a slope, given its index in the roof."""
    laid = []
    for course in range(1, courses.count + 1):
        butt = courses.butt(course)
        u0, u1 = _reach(slope, butt, shingle)
        nailed = butt + shingle.nailed_at
        row = Row(
            slope=index,
            course=course,
            u0=u0,
            u1=u1,
            offset=shingle.half_tab if course % 2 else Fraction(0),
            left_loss=slope.left(nailed) - _past(slope.left_edge, shingle) - u0,
            right_loss=u1 - slope.right(nailed) - _past(slope.right_edge, shingle),
        )
        laid.append(row)
    return tuple(laid)


def _covered_by_finish(finish: Finish, shingle: Shingle) -> Fraction:
    """Return how far down from the top the finish covers the slope; common practice."""
    if finish is Finish.BREAK:
        return Fraction(0)
    if finish is Finish.TOP:
        return shingle.height - shingle.cut_out - shingle.turned_down
    if finish is Finish.ABUTMENT:
        return shingle.flashing
    return shingle.half_tab


def _divided(exposed: Fraction, shingle: Shingle) -> tuple[int, Fraction, Fraction]:
    """Return how many courses there are, the exposure of all but the last, and of the last."""
    count = 1 + max(0, ceil((exposed - shingle.final_gauge) / shingle.gauge))
    even = exposed / count
    if even <= shingle.final_gauge:
        return count, even, even
    return count, (exposed - shingle.final_gauge) / (count - 1), shingle.final_gauge


def _bent(exposed: Fraction, shingle: Shingle) -> tuple[int, Fraction, Fraction]:
    """The same where the last courses are bent over a break: all are exposed alike."""
    count = max(1, ceil(exposed / shingle.gauge))
    return count, exposed / count, exposed / count


def _past(edge: EdgeKind, shingle: Shingle) -> Fraction:
    """What strips reach past the side of a slope."""
    return shingle.past_edge if edge is EdgeKind.VERGE else Fraction(0)


def _reach(slope: Slope, butt: Fraction, shingle: Shingle) -> tuple[Fraction, Fraction]:
    """Return the ends of the row whose lower edge stands at a height.

    Over a break its sides go on upright.
    """
    heights = (butt, min(butt + shingle.height, slope.length))
    left, right = (_past(edge, shingle) for edge in (slope.left_edge, slope.right_edge))
    return min(map(slope.left, heights)) - left, max(map(slope.right, heights)) + right


def _open_rows(slope: Slope, exposure: Fraction, count: int, shingle: Shingle) -> int:
    """Count the rows below the point that the hip pieces there do not close over."""
    past = shingle.past_edge
    reaches = (_reach(slope, k * exposure - past, shingle) for k in range(count))
    laid = sum(1 for u0, u1 in reaches if u1 - u0 > shingle.tab)
    if not laid:
        remedy = f"Give more than {show_mm(shingle.tab)}: narrower rows lie under the hip pieces."
        raise Refused("eaves_length", show_mm(slope.eaves), remedy)
    return laid


def _too_short(slope: Slope, covered: Fraction, count: int, shingle: Shingle) -> Refused:
    """Make the refusal of a slope, with the next whole millimetre that can be laid.

    The last course is nailed below the top if its exposure is more than the height of its nails
    over what the finish covers.
    """
    least_exposure = max(Fraction(0), shingle.nailed_at - covered)
    least = Fraction(floor(covered + count * least_exposure - shingle.past_edge) + 1)
    remedy = f"Too short for {shingle.words}: needs at least {show_mm(least)}."
    return Refused("slope_length", show_mm(slope.length), remedy)
