"""How the materials of a roof are bought."""

from dataclasses import dataclass, field
from fractions import Fraction

from domain.coverings.felt import FELT, Felt
from domain.coverings.registry import Covering
from domain.coverings.square_butt import SQUARE_BUTT
from domain.errors import Refused
from domain.takeoff.fixings import NailBoxes
from domain.takeoff.rolls import UNDERLAY, RollMaterial


@dataclass(frozen=True, slots=True)
class Packing:
    """How materials are bought, and what stock holds already. Usual packs: common practice."""

    strips_per_pack: int = SQUARE_BUTT.per_pack
    underlay: RollMaterial = UNDERLAY
    felt_roll: Fraction = FELT.roll
    """Length of a roll, mm."""
    adhesive_tin: Fraction = Fraction(30_000)
    """Millimetres of lap that a tin of adhesive sticks."""
    nail_boxes: NailBoxes = field(default_factory=NailBoxes)
    loose_strips: int = 0
    """Of the covering, in stock."""

    def __post_init__(self) -> None:
        if self.strips_per_pack < 1:
            raise Refused("strips_per_pack", self.strips_per_pack, "Give 1 or more.")
        if self.adhesive_tin <= 0:
            raise Refused("lap_adhesive", self.adhesive_tin, "Give the metres of lap a tin does.")


def usual_packing(covering: Covering) -> Packing:
    """Return how a covering and what it takes are bought where nothing else is known."""
    if isinstance(covering, Felt):
        return Packing(felt_roll=covering.roll)
    return Packing(strips_per_pack=covering.per_pack)
