"""A roof at once, before its strips are planned: each slope to scale, with its courses."""

from collections.abc import Iterator
from fractions import Fraction

from domain.coverings.felt import Felt
from domain.coverings.registry import Covering
from domain.coverings.shingle import Shingle
from domain.drawing.drawing_parts import DrawnCourse, DrawnSlope
from domain.drawing.slopes import outline_of
from domain.errors import Refused
from domain.setting_out.courses import lay_courses
from domain.setting_out.flat_slopes import Roof, Slope


def sketched(roof: Roof, covering: Covering | None) -> tuple[DrawnSlope, ...]:
    """Draw every slope in a covering, or bare: courses and rows without the pieces they are of."""
    alike = {slope: _courses(slope, covering) for slope in dict.fromkeys(roof.slopes)}
    return tuple(_slope(n, slope, alike[slope]) for n, slope in enumerate(roof.slopes, 1))


def _courses(slope: Slope, covering: Covering | None) -> tuple[DrawnCourse, ...]:
    if isinstance(covering, Shingle):
        return tuple(_of_shingles(slope, covering))
    if isinstance(covering, Felt):
        return tuple(_even(slope, covering.width - covering.side_lap))
    return ()


def _of_shingles(slope: Slope, shingle: Shingle) -> Iterator[DrawnCourse]:
    """The courses; none on a slope too short for them, which the take-off says in words."""
    try:
        courses = lay_courses(slope, shingle)
    except Refused:
        return
    for number in range(1, courses.count + 1):
        butt, last = courses.butt(number), number == courses.count
        yield _course(number, butt, butt + (courses.final_exposure if last else courses.exposure))


def _even(slope: Slope, height: Fraction) -> Iterator[DrawnCourse]:
    """Rows up a slope, the last as high as is left."""
    number = 1
    while (number - 1) * height < slope.length:
        yield _course(number, (number - 1) * height, min(number * height, slope.length))
        number += 1


def _course(number: int, butt: Fraction, top: Fraction) -> DrawnCourse:
    return DrawnCourse(number, butt, top, set_to=butt, pieces=(), joints=())


def _slope(number: int, slope: Slope, courses: tuple[DrawnCourse, ...]) -> DrawnSlope:
    shown = courses[0].top - courses[0].butt if courses else _BARE
    return DrawnSlope(
        number=number,
        slope=slope,
        exposure=min(shown, _BARE),
        outline=outline_of(slope),
        courses=courses,
        closed=(),
        chalk_lines=(),
        edges=(),
        laid_in="course",
        top_words="",
    )


_BARE = Fraction(145)
"""What a line shows of a slope at the closest, as if it were a course."""
