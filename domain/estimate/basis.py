"""What a quote was made from: quantities, prices and rates of its day, kept with it for good."""

from dataclasses import dataclass, field, fields, replace
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from domain.coverings.felt import Felt
from domain.coverings.materials import Material
from domain.coverings.registry import COVERINGS
from domain.cutting.offcuts import Offcut
from domain.estimate.stock import Price
from domain.quantity import to_decimal, to_quarter
from domain.setting_out.flat_slopes import Slope
from domain.snapshot import from_json, kept_as
from domain.trader import LabourRates, Rates


@dataclass(frozen=True, slots=True)
class Quantities:
    """What the work is reckoned by, however the roof was measured."""

    area: Decimal
    """Square metres of roof."""
    layers: int
    """Of old covering to strip."""
    old_kg: Decimal
    """Weight of the old covering."""
    deck: Decimal
    """Metres of board to replace that can be seen beforehand."""
    edges: Decimal
    """Metres of eaves, verge and top edge."""
    ridges: Decimal
    """Metres of ridge."""
    slopes: tuple[Slope, ...]
    """As they are set out: roofs of one area can take different strips."""
    renewed: tuple[tuple[Material, Decimal], ...] = ()
    """What is renewed along the edges, in metres of each."""
    past_edge: Fraction | None = None
    """Millimetres that strips reach past the edges; None in quotes that did not keep it."""

    def agrees(self, now: "Quantities") -> bool:
        """Tell whether a roof comes to the same now, as far as these were kept."""
        kept = now.past_edge if self.past_edge is not None else None
        return self == replace(now, past_edge=kept)


@dataclass(frozen=True, slots=True)
class Supply:
    """One material: what the roof needs, what stock gives, what is bought."""

    material: Material
    colour: str
    needed: Decimal
    """In the material's unit."""
    from_stock: Decimal = field(metadata=kept_as("from_store"))
    """In the material's unit."""
    packs: int
    """Whole packs, rolls, boxes or cartridges to buy."""
    price: Price
    offcuts: tuple[Offcut, ...] = ()
    """Of the strips that are cut, what another roof can use."""

    @property
    def taken(self) -> Decimal:
        """What goes on the van, in the material's unit."""
        return self.from_stock + self.packs * self.price.per_pack


@dataclass(frozen=True, slots=True)
class Hours:
    """Hours of one's own work by element, as the rates are kept."""

    set_up: Decimal
    strip: Decimal
    deck: Decimal
    underlay: Decimal
    edges: Decimal
    courses: Decimal
    ridges: Decimal
    clearing: Decimal

    @property
    def whole(self) -> Decimal:
        """All elements together, to the quarter."""
        return to_quarter(self._exact)

    @property
    def charged(self) -> Decimal:
        """What is charged by the hour, to the quarter: a metre of boards pays for their work."""
        return to_quarter(self._exact - self.deck)

    @property
    def _exact(self) -> Decimal:
        return sum((getattr(self, f.name) for f in fields(self)), Decimal(0))


@dataclass(frozen=True, slots=True)
class PricingBasis:
    """All that the lines of an option are worked out from, and nothing else."""

    covering: str
    """Key of the covering."""
    colour: str
    vat_registered: bool
    vat_rate: Decimal
    """Per cent on every line; 0 if not registered."""
    rates: Rates
    quantities: Quantities
    supplies: tuple[Supply, ...]
    hours: Hours
    miles: Decimal
    """There and back, a day."""
    days: int


@lru_cache(maxsize=32)  # every check of a job asks for that of its quote
def read_basis(text: str) -> PricingBasis:
    """Read the basis that is kept with an option as JSON text.

    Older ones know one kind of nails, whose key is that of shingle nails now: on a roof in felt
    they are felt nails. Raises ``KeyError`` or ``ValueError`` for a text that is none.
    """
    basis = from_json(PricingBasis, text)
    if not isinstance(COVERINGS.get(basis.covering), Felt):
        return basis
    return replace(basis, supplies=tuple(map(_in_felt, basis.supplies)))


def _in_felt(supply: Supply) -> Supply:
    """Take nails for felt nails, and their price with them."""
    if supply.material != Material.SHINGLE_NAILS:
        return supply
    price = replace(supply.price, material=Material.FELT_NAILS)
    return replace(supply, material=Material.FELT_NAILS, price=price)


def hours_for(quantities: Quantities, rates: LabourRates, covering: Material) -> Hours:
    """Hours of each element: its quantity times the trader's own rate, to a hundredth.

    Felt lies on no underlay, and its rows are laid at a rate of their own.
    """
    area = quantities.area
    is_felt = isinstance(COVERINGS.get(covering), Felt)
    underlay, courses = (Decimal(0), rates.felt) if is_felt else (rates.underlay, rates.courses)
    return Hours(
        set_up=_hours(rates.set_up, Decimal(1)),
        strip=_hours(rates.strip, area * quantities.layers),
        deck=_hours(rates.deck, quantities.deck),
        underlay=_hours(underlay, area),
        edges=_hours(rates.edges, quantities.edges + _renewed(quantities)),
        courses=_hours(courses, area),
        ridges=_hours(rates.ridges, quantities.ridges),
        clearing=_hours(rates.clearing, area),
    )


def _renewed(quantities: Quantities) -> Decimal:
    """Metres that are fitted anew: each takes as long as a metre of edge; common practice."""
    return sum((metres for _, metres in quantities.renewed), Decimal(0))


def _hours(rate: Decimal, quantity: Decimal) -> Decimal:
    """One element."""
    return to_decimal(Fraction(rate * quantity))
