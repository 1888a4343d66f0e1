"""What the take-offs of all coverings share on paper: what to buy, and the edges of the slopes."""

from collections.abc import Iterator
from decimal import Decimal

from domain.estimate.stock import Material
from domain.exact import half_up
from domain.papers.blocks import Column, Table
from domain.papers.parts import metres, sentence
from domain.quantity import show_amount
from domain.setting_out.kinds import FREE
from domain.setting_out.roof import Edge, EdgeKind, Finish, Roof, Slope


def materials_to_buy(roof: Roof, *rows: tuple[Material, int, str]) -> Table:
    """What to take from the merchant's counter: material, packs, and what for."""
    return Table(
        (Column("Material"), Column("For"), Column("To buy", True)),
        (
            *(
                (sentence(material.words), what, show_amount(Decimal(packs), material.pack_word))
                for material, packs, what in rows
            ),
            *_by_the_metre(roof),
        ),
        "Materials",
    )


def _by_the_metre(roof: Roof) -> Iterator[tuple[str, str, str]]:
    """What stands against walls and lies in valleys; the trader chooses the kind."""
    if roof.flashing:
        yield "Flashing", "along the walls", metres(roof.flashing)
    if roof.valley:
        yield "Valley lining", "one length a valley, laps not counted", metres(roof.valley)


def edges_of(roof: Roof) -> Iterator[Table]:
    """What stands round each slope, once a slope has more than free edges and a ridge."""
    kinds = {edge.kind for slope in roof.slopes for edge in slope.edges}
    if kinds <= {*FREE, EdgeKind.RIDGE}:
        return
    yield Table(
        (Column("Slope", True), *(Column(at) for at in ("Below", "Left", "Right", "Top"))),
        tuple(
            (str(number), *(_edge(edge) for edge in slope.edges), *_no_top(slope))
            for number, slope in enumerate(roof.slopes, start=1)
        ),
        "Edges, each slope looked at from below",
    )


def _edge(edge: Edge) -> str:
    return f"{edge.kind} {half_up(edge.length):,}"


def _no_top(slope: Slope) -> tuple[str, ...]:
    return ("point",) if slope.finish is Finish.POINT else ()
