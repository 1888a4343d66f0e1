"""What the take-offs of all coverings share on paper: what to buy, and the edges of the slopes."""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import TypeAlias

from domain.coverings.materials import Material
from domain.estimate.basis import Supply
from domain.estimate.weights import Weights, load_words, show_kg
from domain.exact import half_up
from domain.papers.blocks import Column, Details, Table
from domain.papers.shared_parts import metres, numbered, sentence
from domain.quantity import show_amount, show_quantity
from domain.setting_out.flat_slopes import Edge, Roof, Slope
from domain.setting_out.kinds import FREE, EdgeKind, Finish

Needed: TypeAlias = tuple[Material, int, str, int]
"""Material, packs as counted, what for, and of it what stock gives."""


def materials_to_buy(
    roof: Roof, supplies: Mapping[Material, Supply], needed: Iterable[Needed]
) -> Table:
    """What to take from the merchant's counter, as priced where there is a price."""
    return Table(
        (Column("Material"), Column("For"), Column("To buy", True)),
        (
            *(_needed(row, supplies.get(row[0])) for row in needed),
            *_by_the_metre(roof),
        ),
        "Materials",
    )


def _needed(row: Needed, supply: Supply | None) -> tuple[str, str, str]:
    material, packs, what, held = row
    from_stock = supply.from_stock if supply else Decimal(held)
    packs = supply.packs if supply else packs
    less = f", less {show_amount(from_stock, material.unit)} from stock" if from_stock else ""
    bought = show_amount(Decimal(packs), material.pack_word) if packs else "none"
    return sentence(material.words), f"{what}{less}", bought


def _by_the_metre(roof: Roof) -> Iterator[tuple[str, str, str]]:
    """What stands against walls and lies in valleys; the trader chooses the kind."""
    if roof.flashing:
        yield "Flashing", "along the walls", metres(roof.flashing)
    if roof.valley:
        yield "Valley lining", "one length per valley, laps not included", metres(roof.valley)


def closed_words(roof: Roof) -> str:
    """What pieces or a capping close: "the ridge and the hips"; empty where there is neither."""
    words = ("the ridge" * bool(roof.ridge_runs), "the hips" * bool(roof.hip_runs))
    return " and ".join(filter(None, words))


def edge_tables(roof: Roof) -> Iterator[Table]:
    """What stands round each slope, once a slope has more than free edges and a ridge.

    Slopes with the same round them are told once.
    """
    kinds = {edge.kind for slope in roof.slopes for edge in slope.edges}
    if kinds <= {*FREE, EdgeKind.RIDGE}:
        return
    alike: dict[tuple[str, ...], list[int]] = {}
    for number, slope in enumerate(roof.slopes, start=1):
        edges = (*(_edge(edge) for edge in slope.edges), *_no_top(slope))
        alike.setdefault(edges, []).append(number)
    yield Table(
        tuple(Column(title) for title in ("Slope", "Below", "Left", "Right", "Top")),
        tuple((numbered(numbers), *edges) for edges, numbers in alike.items()),
        "Edges, each slope seen from below",
    )


def _edge(edge: Edge) -> str:
    return f"{edge.kind} {half_up(edge.length):,}"


def _no_top(slope: Slope) -> tuple[str, ...]:
    return ("point",) if slope.finish is Finish.POINT else ()


def weights_of(weights: Weights) -> Details:
    """What is carried to the roof and from it, and what lies on it before and after."""
    after = f"{_a_metre(weights.after)} after"
    rows = [("To buy", load_words(weights.bought, "go on the van"))]
    if weights.old is not None and weights.old.times is not None:
        sacks = show_amount(Decimal(weights.old.times), "rubble sack")
        rows.append(("Old covering", f"{show_kg(weights.old.kg)}, {sacks}"))
    if weights.before is not None:
        after = f"{_a_metre(weights.before)} before, {after}"
    return Details((*rows, ("Roof covering, on the deck", after)), "Weights")


def _a_metre(kg: Fraction) -> str:
    return f"{show_quantity(Decimal(half_up(kg * 10)) / 10)} kg/m²"
