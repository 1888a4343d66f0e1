"""The take-off of a roof in felt: what to buy, rows to cut, capping, fixings."""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal

from domain.coverings.materials import Material
from domain.estimate.basis import Supply
from domain.papers.blocks import Block, Column, Details, Table
from domain.papers.roof_parts import Needed, edge_tables, materials_to_buy
from domain.papers.shared_parts import metres
from domain.quantity import show_amount
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.units import show_mm


def felt_blocks(takeoff: FeltTakeOff) -> Iterator[Block]:
    """Every row, then all that is needed to lay them."""
    yield _rows(takeoff)
    yield from felt_laying(takeoff)


def felt_laying(takeoff: FeltTakeOff) -> Iterator[Block]:
    """What is needed round the rows, in the order of the work."""
    yield from edge_tables(takeoff.roof)
    if takeoff.lay.capping_runs:
        yield _capping(takeoff)
    yield _fixings(takeoff)


def felt_to_buy(
    takeoff: FeltTakeOff, supplies: Mapping[Material, Supply], renewed: Iterable[Needed] = ()
) -> Table:
    """What to take from the merchant's counter, with what is ``renewed`` along the edges."""
    lay, fixings = takeoff.lay, takeoff.fixings
    lengths = f"{lay.lengths.rows} rows, {metres(lay.lengths.laid)}"
    capping = f"; capping, {metres(lay.capping.laid)}" if lay.capping.rows else ""
    return materials_to_buy(
        takeoff.roof,
        supplies,
        (
            (Material(takeoff.covering.key), lay.rolls, f"{lengths}{capping}", 0),
            (Material.FELT_NAILS, fixings.boxes, f"{fixings.nails:,} nails", 0),
            (Material.ADHESIVE, fixings.tins, f"{metres(fixings.adhesive)} of lap", 0),
            *renewed,
        ),
    )


def _rows(takeoff: FeltTakeOff) -> Table:
    """Every row with its length and where its lower edge lies: under 0 is turned down."""
    return Table(
        (
            Column("Slope", True),
            Column("Row", True),
            Column("Length", True),
            Column("Lower edge, up from the eaves", True),
        ),
        tuple(
            (str(slope), str(row.number), show_mm(row.length), show_mm(row.low))
            for slope, rows in enumerate(takeoff.lay.sheets, start=1)
            for row in rows
        ),
        "Lengths to cut (turn-downs included)",
    )


def _capping(takeoff: FeltTakeOff) -> Details:
    lay, felt = takeoff.lay, takeoff.covering
    strips = show_amount(Decimal(lay.capping.rolls), "strip")
    fresh = show_amount(Decimal(lay.capping_rolls), "roll") if lay.capping_rolls else ""
    sheets = "what the last row leaves of its roll" if lay.from_sheets else ""
    source = " and ".join(filter(None, (sheets, fresh)))
    return Details(
        (
            ("Over ridges and hips", ", ".join(show_mm(run) for run in lay.capping_runs)),
            ("Cut along", f"{strips} {show_mm(felt.capping)} wide, from {source}"),
        ),
        "Capping",
    )


def _fixings(takeoff: FeltTakeOff) -> Details:
    fixings, felt = takeoff.fixings, takeoff.covering
    every = f"every {show_mm(felt.nail_centres)}"
    return Details(
        (
            (f"Edge nails, {every}", f"{fixings.edge_nails:,}"),
            (f"Side lap nails, {every}", f"{fixings.lap_nails:,}"),
            (f"Capping nails, {every}, both edges", f"{fixings.capping_nails:,}"),
            ("Side laps", show_mm(felt.side_lap)),
            ("End laps", show_mm(felt.end_lap)),
            ("Turn-down at eaves and verges", show_mm(felt.turned_down)),
            ("Lap adhesive", f"{metres(fixings.adhesive)}, under laps and capping edges"),
        ),
        "Fixings and laps",
    )
