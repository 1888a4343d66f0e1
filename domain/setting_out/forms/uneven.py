"""Offset apex and barn: rectangles under one ridge, each with its own run and rise."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import TypeAlias

from domain.errors import Refused
from domain.setting_out.checks import overhang, side
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.forms.level import eaves_length
from domain.setting_out.kinds import EdgeKind, Finish
from domain.setting_out.measures import RoofMeasures
from domain.setting_out.rafter import Rafter
from domain.units import Angle, Length, show_mm

_MISMATCH = 20  # mm between runs and span that are told of; common practice
_LEAST_RUN = 100  # mm

_Run: TypeAlias = tuple[str, Length | None]
"""A run with the id of its field."""


def offset_apex(measures: RoofMeasures) -> Roof:
    """Build two slopes of their own length that meet at a ridge."""
    eaves, span = eaves_length(measures), _span(measures)
    over = overhang("eaves_overhang", measures.eaves_overhang)
    front, back = _runs(("front_run", measures.front_run), ("back_run", measures.back_run), span)
    rafters = (
        _rafter("front", front, over, measures.front_rise),
        _rafter("back", back, over, measures.back_rise),
    )
    return Roof(
        measures.form,
        tuple(_rectangle(eaves, rafter, Finish.RIDGE) for rafter in rafters),
        ridge_runs=(eaves,),
        pitch=_least_pitch(rafters),
        cautions=tuple(_at_odds("Front run and back run", front + back, span)),
    )


def barn(measures: RoofMeasures) -> Roof:
    """Build two lower slopes, and on each an upper one that begins at the break."""
    eaves, span = eaves_length(measures), _span(measures)
    over = overhang("eaves_overhang", measures.eaves_overhang)
    half = span / 2 if span else None
    low, high = _runs(("lower_run", measures.lower_run), ("upper_run", measures.upper_run), half)
    rafters = (
        _rafter("lower", low, over, measures.lower_rise),
        _rafter("upper", high, Fraction(0), measures.upper_rise),
    )
    upper = replace(_rectangle(eaves, rafters[1], Finish.RIDGE), lower_edge=EdgeKind.BREAK)
    lower = replace(_rectangle(eaves, rafters[0], Finish.BREAK), beyond=upper.length)
    return Roof(
        measures.form,
        (lower, lower, upper, upper),
        ridge_runs=(eaves,),
        pitch=_least_pitch(rafters),
        cautions=tuple(_at_odds("Twice the lower and the upper run", 2 * (low + high), span)),
    )


def _span(measures: RoofMeasures) -> Fraction | None:
    """Return the span, None if it was not measured: the runs are enough."""
    return side("span", measures.span) if measures.span else None


def _runs(one: _Run, other: _Run, whole: Fraction | None) -> tuple[Fraction, Fraction]:
    """Return both runs; one that was not measured is what the other leaves of the whole."""
    (field, first), (other_field, second) = one, other
    if first and second:
        return side(field, first), side(other_field, second)
    if first is None and second is not None:
        return _runs(other, one, whole)[::-1]
    if first is None or whole is None:
        missing = field if first is None else other_field
        raise Refused(missing, "", "Give both runs, or the span and one of them.")
    run = side(field, first)
    if whole - run < _LEAST_RUN:
        remedy = f"It must leave {_LEAST_RUN} mm or more of {show_mm(whole)} for the other run."
        raise Refused(field, first.typed, remedy)
    return run, whole - run


def _rafter(which: str, run: Fraction, over: Fraction, rise: Length | None) -> Rafter:
    """Return the rafter of one slope; its rise is the one measure of how steep it is."""
    fields = (f"{which}_run", f"{which}_rise")
    if rise is None:
        raise Refused(fields[1], "", "Give how far the slope rises over its run.")
    return Rafter(run, over, rise, run_field=fields[0], rise_field=fields[1])


def _rectangle(eaves: Fraction, rafter: Rafter, finish: Finish) -> Slope:
    """Return one slope between two verges."""
    return Slope(
        eaves,
        rafter.length(),
        top=eaves,
        inset=Fraction(0),
        finish=finish,
        pitch=rafter.angle(),
    )


def _least_pitch(rafters: Iterable[Rafter]) -> Angle | None:
    """Return the least pitch: a covering must keep water out there too."""
    pitches = [pitch for rafter in rafters if (pitch := rafter.angle())]
    return min(pitches, key=lambda pitch: pitch.degrees)


def _at_odds(words: str, together: Fraction, span: Fraction | None) -> Iterator[str]:
    """Tell of runs that do not make the span; the runs count."""
    if span is not None and abs(together - span) > _MISMATCH:
        yield f"{words} make {show_mm(together)}, the span is {show_mm(span)}: using the runs."
