"""Courses up a slope, and the rows of shingles they are made of.

Lengths are exact millimetres; heights are measured up the slope from the eaves.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from domain.coverings.shingle import Shingle
from domain.errors import Refused
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import Finish
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

    def butt(self, course: int) -> Fraction:
        """Return the height of a course's lower edge; course 1 is at the eaves."""
        return (course - 1) * self.exposure


def lay_courses(slope: Slope, shingle: Shingle) -> Courses:
    """Divide a slope into the fewest courses, eased so that none is a sliver.

    Common practice: no exposure is above the gauge, and the final one not above its own gauge.
    Raises :class:`Refused` if the slope is too short or narrow for the covering.
    """
    covered = _covered_by_finish(slope.finish, shingle)
    exposed = slope.length - covered
    count = 1 + max(0, ceil((exposed - shingle.final_gauge) / shingle.gauge))
    exposure, final = _eased(exposed, count, shingle)
    laid = (
        count if slope.finish is not Finish.POINT else _open_rows(slope, exposure, count, shingle)
    )
    last_butt = (laid - 1) * exposure
    if exposed <= 0 or last_butt + shingle.nailed_at >= slope.length:
        raise _too_short(slope, covered, count, shingle)
    return Courses(
        covered=covered,
        count=laid,
        exposure=exposure,
        final_exposure=final if laid == count else exposure,
        chalk_lines=tuple(min(k * exposure + shingle.height, slope.length) for k in range(laid)),
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
            left_loss=slope.left(nailed) - u0,
            right_loss=u1 - slope.right(nailed),
        )
        laid.append(row)
    return tuple(laid)


def _covered_by_finish(finish: Finish, shingle: Shingle) -> Fraction:
    """Return how far down from the top the finish covers the slope; common practice."""
    if finish is Finish.TOP:
        return shingle.height - shingle.cut_out - shingle.turned_down
    if finish is Finish.ABUTMENT:
        return shingle.flashing
    return shingle.half_tab


def _eased(exposed: Fraction, count: int, shingle: Shingle) -> tuple[Fraction, Fraction]:
    """Return the exposure of every course but the last, and of the last."""
    even = exposed / count
    if even <= shingle.final_gauge:
        return even, even
    return (exposed - shingle.final_gauge) / (count - 1), shingle.final_gauge


def _reach(slope: Slope, butt: Fraction, shingle: Shingle) -> tuple[Fraction, Fraction]:
    """Return the ends of the row whose lower edge stands at a height."""
    upper = min(butt + shingle.height, slope.length)
    u0 = min(slope.left(butt), slope.left(upper))
    return u0, max(slope.right(butt), slope.right(upper))


def _open_rows(slope: Slope, exposure: Fraction, count: int, shingle: Shingle) -> int:
    """Count the rows below the point that the hip pieces there do not close over."""
    reaches = (_reach(slope, k * exposure, shingle) for k in range(count))
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
    least = Fraction(floor(covered + count * least_exposure) + 1)
    remedy = f"Too short for {shingle.words}: needs at least {show_mm(least)}."
    return Refused("slope_length", show_mm(slope.length), remedy)
