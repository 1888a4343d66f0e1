"""A roof from what was measured of it, whatever its form."""

from collections.abc import Callable, Mapping
from functools import lru_cache

from domain.setting_out.flat_slopes import Roof
from domain.setting_out.forms.hipped import hip, pyramid
from domain.setting_out.forms.level import apex, lean_to, pent
from domain.setting_out.forms.taped import slopes
from domain.setting_out.forms.uneven import barn, offset_apex
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import RoofMeasures

_BUILDERS: Mapping[RoofForm, Callable[[RoofMeasures], Roof]] = {
    RoofForm.PENT: pent,
    RoofForm.LEAN_TO: lean_to,
    RoofForm.APEX: apex,
    RoofForm.OFFSET_APEX: offset_apex,
    RoofForm.BARN: barn,
    RoofForm.HIP: hip,
    RoofForm.PYRAMID: pyramid,
    RoofForm.SLOPES: slopes,
}


def build_roof(measures: RoofMeasures) -> Roof:
    """Make the slopes of a roof from its measures, in the order in which papers number them.

    Raises :class:`Refused`, naming the field as a form shows it, if a measure is missing, absurd or
    contradicts another.
    """
    return _built(measures, measures.pitch and measures.pitch.typed)


@lru_cache(maxsize=32)  # every check of a survey asks for its roof
def _built(measures: RoofMeasures, _typed: str | None) -> Roof:
    """The roof, whose pitch is told as it was typed."""
    return _BUILDERS[measures.form](measures)
