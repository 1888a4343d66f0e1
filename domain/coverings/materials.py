"""What is bought for a roof: every covering, and what goes under it and holds it."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import ClassVar, Self

from domain.coverings.registry import COVERINGS

_OTHERS: Mapping[str, tuple[str, str, str]] = MappingProxyType(
    {
        "underlay": ("underlay", "m", "roll"),
        "nails": ("shingle nails", "nail", "box"),
        "felt-nails": ("felt nails", "nail", "box"),
        "mastic": ("bitumen mastic", "cartridge", "cartridge"),
        "adhesive": ("lap adhesive", "m", "tin"),
        "drip-trim": ("drip trim", "m", "length"),
        "fascia": ("fascia", "m", "length"),
        "barge-boards": ("barge boards", "m", "length"),
        "gutter": ("gutter", "m", "length"),
    }
)
"""Of what is no covering, by its key: what people call it, its unit, and what it is bought in."""


class Material(str):
    """A material by its key in the book, which for a covering is the covering's own.

    Raises ``ValueError`` for a key that no material has.
    """

    __slots__ = ()

    UNDERLAY: ClassVar["Material"]
    SHINGLE_NAILS: ClassVar["Material"]
    FELT_NAILS: ClassVar["Material"]
    MASTIC: ClassVar["Material"]
    ADHESIVE: ClassVar["Material"]
    DRIP_TRIM: ClassVar["Material"]
    FASCIA: ClassVar["Material"]
    BARGE_BOARDS: ClassVar["Material"]
    GUTTER: ClassVar["Material"]

    def __new__(cls, key: str) -> Self:
        """Take a key, and refuse one that is not known."""
        if key not in COVERINGS and key not in _OTHERS:
            raise ValueError(f"{key!r} is not a material")
        return super().__new__(cls, key)

    @property
    def words(self) -> str:
        """The trade's word for it."""
        return COVERINGS[self].words if self.is_covering else _OTHERS[self][0]

    @property
    def unit(self) -> str:
        """What it is counted in on the roof, singular: strip, m, nail, cartridge."""
        return COVERINGS[self].unit if self.is_covering else _OTHERS[self][1]

    @property
    def pack_word(self) -> str:
        """What it is bought in, singular: pack, roll, box, cartridge, tin."""
        return COVERINGS[self].pack_word if self.is_covering else _OTHERS[self][2]

    @property
    def is_covering(self) -> bool:
        """Whether it covers the roof, and so is in the registry of coverings."""
        return self in COVERINGS

    @property
    def is_nails(self) -> bool:
        """Whether it is counted in nails, and may be typed by weight."""
        return self.unit == "nail"

    @property
    def sorted(self) -> bool:
        """Whether one sort does not do for another: of another colour, of nails another length."""
        return self.coloured or self == Material.SHINGLE_NAILS

    @property
    def coloured(self) -> bool:
        """Whether the colour matters, so that leftovers serve only a job of the same colour."""
        return self.is_covering


Material.UNDERLAY = Material("underlay")
Material.SHINGLE_NAILS = Material("nails")  # the key of all nails, when there was one kind
Material.FELT_NAILS = Material("felt-nails")
Material.MASTIC = Material("mastic")
Material.ADHESIVE = Material("adhesive")
Material.DRIP_TRIM = Material("drip-trim")
Material.FASCIA = Material("fascia")
Material.BARGE_BOARDS = Material("barge-boards")
Material.GUTTER = Material("gutter")

MATERIALS: tuple[Material, ...] = tuple(map(Material, (*COVERINGS, *_OTHERS)))
"""Every material: the coverings first, in their order."""
