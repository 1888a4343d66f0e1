"""Roofs to plan: drawn at random, or of a size that is asked for. Lengths are millimetres."""

import random
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi, radians, tan

from domain.coverings.registry import SHINGLES
from domain.coverings.shingle import Shingle
from domain.exact import half_up_root
from domain.setting_out.courses import Row, lay_courses, rows_of_slope
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import EdgeKind, Finish
from domain.takeoff.edging import ridge_pieces


@dataclass(frozen=True, slots=True)
class Rows:
    """A roof as it is planned."""

    rows: tuple[Row, ...]
    shingle: Shingle
    ridge_pieces: int
    covered: float
    """Strips as long as its courses together, without any joint, and its ridge pieces."""


def rectangles(shingle: Shingle, eaves: int, *slopes: tuple[int, Finish]) -> Rows:
    """Slopes of a length and a finish, all along the same eaves, with a ridge over two of them."""
    along = Fraction(eaves)
    made = [Slope(along, Fraction(up), along, Fraction(0), finish) for up, finish in slopes]
    ridged = any(finish is Finish.RIDGE for _, finish in slopes)
    return _set_out(made, [along] * ridged, shingle)


def apex(shingle: Shingle, eaves: int, length: int) -> Rows:
    """Two equal slopes that meet at a ridge."""
    return rectangles(shingle, eaves, *[(length, Finish.RIDGE)] * 2)


def hip(shingle: Shingle, length: int, span: int, pitch: float) -> Rows:
    """Two trapezoids and two triangles, 100 over the eaves."""
    run = span // 2 + 100
    up, ridge = round(run / cos(radians(pitch))), length - span
    sides = [_hipped(length + 200, up, ridge)] * 2 + [_hipped(span + 200, up, 0)] * 2
    runs = [Fraction(ridge)] * bool(ridge) + [_hip_run(up, Fraction(run))] * 4
    return _set_out(sides, runs, shingle)


def pyramid(shingle: Shingle, sides: int, side: int, pitch: float) -> Rows:
    """Equal triangles on a regular polygon."""
    up = round(side / (2 * tan(pi / sides)) / cos(radians(pitch)))
    runs = [_hip_run(up, Fraction(side, 2))] * sides
    return _set_out([_hipped(side, up, 0)] * sides, runs, shingle)


def taped(shingle: Shingle, slopes: int) -> Rows:
    """So many slopes between hips, none like another."""
    chance = random.Random(1)
    made = [_leaning(4000 + 137 * n, 2500 + 53 * n, chance) for n in range(slopes)]
    return _set_out(made, [slope.length for slope in made], shingle)


def _rectangular(chance: random.Random) -> Rows:
    one, other = chance.randint(700, 4000), chance.randint(700, 3000)
    lower, upper = (other, Finish.BREAK), (one, Finish.RIDGE)
    forms: tuple[tuple[tuple[int, Finish], ...], ...] = (
        ((one, Finish.TOP),),
        ((one, Finish.ABUTMENT),),
        (upper, upper),
        (upper, (other, Finish.RIDGE)),
        (lower, lower, upper, upper),
    )
    return rectangles(_shingle(chance), chance.randint(1200, 12000), *chance.choice(forms))


def _hip(chance: random.Random) -> Rows:
    span = chance.randint(1200, 6000)
    return hip(_shingle(chance), chance.randint(span, 12000), span, chance.uniform(15, 45))


def _pyramid(chance: random.Random) -> Rows:
    sides, side = chance.randint(4, 12), chance.randint(900, 3000)
    return pyramid(_shingle(chance), sides, side, chance.uniform(15, 45))


def _taped(chance: random.Random) -> Rows:
    """Slopes taped one by one, none like another."""
    slopes = [
        _leaning(chance.randint(1500, 6000), chance.randint(900, 3000), chance)
        for _ in range(chance.randint(2, 4))
    ]
    return _set_out(slopes, [slope.length for slope in slopes], _shingle(chance))


FORMS: Mapping[str, Callable[[random.Random], Rows]] = {
    "pent, lean-to, apex, offset apex, barn": _rectangular,
    "hip": _hip,
    "pyramid": _pyramid,
    "taped slope by slope": _taped,
}
"""Every kind of roof that is drawn at random."""


def _shingle(chance: random.Random) -> Shingle:
    return chance.choice(list(SHINGLES.values()))


def _hipped(eaves: int, up: int, top: int) -> Slope:
    finish = Finish.RIDGE if top else Finish.POINT
    inset = Fraction(eaves - top, 2)
    return Slope(
        Fraction(eaves), Fraction(up), Fraction(top), inset, finish, EdgeKind.HIP, EdgeKind.HIP
    )


def _leaning(eaves: int, up: int, chance: random.Random) -> Slope:
    top, inset = chance.randint(eaves // 3, eaves), chance.randint(-300, 600)
    ends = (Fraction(eaves), Fraction(up), Fraction(top), Fraction(inset))
    return Slope(*ends, Finish.RIDGE, EdgeKind.HIP, EdgeKind.HIP)


def _hip_run(up: int, across: Fraction) -> Fraction:
    return Fraction(half_up_root(up**2 + across**2))


def _set_out(slopes: Sequence[Slope], runs: Sequence[Fraction], shingle: Shingle) -> Rows:
    laid = tuple(
        row
        for index, slope in enumerate(slopes)
        for row in rows_of_slope(index, slope, lay_courses(slope, shingle), shingle)
    )
    closing = ridge_pieces(runs, shingle)
    together = sum(row.u1 - row.u0 for row in laid) + closing * shingle.tab
    return Rows(laid, shingle, closing, float(together / shingle.width))
