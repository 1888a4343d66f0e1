"""A roof from what was measured of it: the way in to the forms, and the values they deal in."""

from collections.abc import Callable, Mapping

from domain.setting_out.forms.hipped import hip, pyramid
from domain.setting_out.forms.level import apex, lean_to, pent
from domain.setting_out.forms.taped import slope_of, slopes
from domain.setting_out.forms.uneven import barn, offset_apex
from domain.setting_out.kinds import EdgeKind, Finish, Form
from domain.setting_out.measures import FINISHES, MEASURES_OF, SIDES, RoofMeasures, TapedSlope
from domain.setting_out.values import Edge, Roof, Slope

__all__ = [
    "FINISHES",
    "MEASURES_OF",
    "SIDES",
    "Edge",
    "EdgeKind",
    "Finish",
    "Form",
    "Roof",
    "RoofMeasures",
    "Slope",
    "TapedSlope",
    "build_roof",
    "slope_of",
]

_BUILDERS: Mapping[Form, Callable[[RoofMeasures], Roof]] = {
    Form.PENT: pent,
    Form.LEAN_TO: lean_to,
    Form.APEX: apex,
    Form.OFFSET_APEX: offset_apex,
    Form.BARN: barn,
    Form.HIP: hip,
    Form.PYRAMID: pyramid,
    Form.SLOPES: slopes,
}


def build_roof(measures: RoofMeasures) -> Roof:
    """Make the slopes of a roof from its measures, in the order in which papers number them.

    Raises :class:`Refused`, naming the field as a form shows it, if a measure is missing, absurd or
    contradicts another.
    """
    return _BUILDERS[measures.form](measures)
