"""What goes into the stock of leftovers, comes out of it, or was counted there."""

from collections.abc import Awaitable, Callable, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from domain.coverings.materials import Material
from domain.errors import Refused
from domain.estimate.amounts import read_amount
from domain.estimate.stock import StockLine, StockMove, named_material
from domain.quantity import plural
from tui.lists.amount_dialog import BY_WORDS, AmountDialog
from tui.widgets.field_row import Field
from tui.widgets.field_values import number_typed, read_text
from tui.widgets.line_input import Takes

_EXAMPLE = "how many, such as 12"
Save = Callable[[StockMove], Awaitable[Any]]


def count_dialog(line: StockLine, today: date, save: Save) -> AmountDialog[StockMove]:
    """Ask how much was counted; the difference is recorded."""
    return AmountDialog(
        f"Stocktake: {named_material(line.material, line.colour)}",
        (
            Field(
                "counted",
                "Counted",
                plural(line.material.unit),
                takes=Takes.COUNT,
            ),
        ),
        lambda values: read_count_of(values, line, today),
        save,
        material=line.material,
        words=f"In stock: {number_typed(line.quantity)} {plural(line.material.unit)}.",
        values={"counted": number_typed(line.quantity)},
    )


def take_out_dialog(line: StockLine, today: date, save: Save) -> AmountDialog[StockMove]:
    """Ask how much is taken out, and for what."""
    return AmountDialog(
        f"Take out: {named_material(line.material, line.colour)}",
        (
            Field(
                "quantity",
                "Take out",
                plural(line.material.unit),
                takes=Takes.COUNT,
            ),
            Field("words", "For", example="The Green"),
        ),
        lambda values: read_taken(values, line, today),
        save,
        material=line.material,
        words=f"In stock: {number_typed(line.quantity)} {plural(line.material.unit)}.",
        values={},
    )


def put_in_dialog(line: StockLine | None, today: date, save: Save) -> AmountDialog[StockMove]:
    """Ask what is put in; ``line`` is what the cursor stands on."""
    given = {"material": line.material.words, "colour": line.colour} if line else {}
    return AmountDialog(
        "Add to stock",
        (
            Field("material", "Material", choices=tuple(BY_WORDS)),
            Field("colour", "Colour", hint="of shingles"),
            Field("quantity", "Quantity", "strips, m, nails", takes=Takes.COUNT),
            Field("words", "Came from", example="left over at Birch Lane"),
        ),
        lambda values: read_put_in(values, today),
        save,
        material=None,
        words="Counted in strips, metres, nails (or kg of them) or cartridges, never in packs.",
        values=given,
        begin_at="quantity" if line else None,
    )


def read_count_of(values: Mapping[str, str], line: StockLine, today: date) -> StockMove:
    """The move that sets stock right. Raises :class:`Refused`, also when nothing differs."""
    counted = read_amount("counted", values["counted"], line.material, _EXAMPLE)
    if counted == line.quantity:
        raise Refused("counted", values["counted"], "No change; press Escape.")
    return StockMove(line.material, line.colour, counted - line.quantity, today, "counted")


def read_taken(values: Mapping[str, str], line: StockLine, today: date) -> StockMove:
    """What is taken out, no more than there is. Raises :class:`Refused`."""
    quantity = _more_than_none("quantity", values["quantity"], line.material)
    if quantity > line.quantity:
        there = f"{number_typed(line.quantity)} {plural(line.material.unit)}"
        raise Refused(
            "quantity", values["quantity"], (f"Only {there} in stock: correct the count first.")
        )
    words = read_text("words", values["words"], "Say what for, such as The Green.")
    return StockMove(line.material, line.colour, -quantity, today, f"taken to {words}")


def read_put_in(values: Mapping[str, str], today: date) -> StockMove:
    """What is put in. Raises :class:`Refused`."""
    if values["material"] not in BY_WORDS:
        raise Refused("material", values["material"], "Choose one with the arrow keys.")
    material = BY_WORDS[values["material"]]
    colour = values["colour"].strip() if material.coloured else ""
    if material.coloured and not colour:
        raise Refused(
            "colour", colour, ("Give the colour: leftovers only suit a roof of the same colour.")
        )
    quantity = _more_than_none("quantity", values["quantity"], material)
    words = read_text("words", values["words"], "Say where it comes from.")
    return StockMove(material, colour, quantity, today, words)


def _more_than_none(field: str, text: str, material: Material) -> Decimal:
    return read_amount(field, text, material, _EXAMPLE, least=Decimal("0.001"))
