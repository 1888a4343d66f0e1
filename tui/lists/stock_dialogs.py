"""What goes into the stock of leftovers, comes out of it, or was counted there."""

from collections.abc import Awaitable, Callable, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from domain.errors import Refused
from domain.estimate.stock import StockLine, StockMove, named_material
from domain.quantity import plural, read_number
from tui.lists.price_dialog import BY_WORDS
from tui.widgets.field_values import number_typed, read_text
from tui.widgets.form import Field
from tui.widgets.form_dialog import FormDialog

Save = Callable[[StockMove], Awaitable[Any]]


def count_dialog(line: StockLine, today: date, save: Save) -> FormDialog[StockMove]:
    """Ask how much was counted; the difference is recorded."""
    return FormDialog(
        f"Stocktake: {named_material(line.material, line.colour)}",
        (Field("counted", "Counted", plural(line.material.unit)),),
        lambda values: read_count_of(values, line, today),
        save,
        words=f"In stock: {number_typed(line.quantity)} {plural(line.material.unit)}.",
        values={"counted": number_typed(line.quantity)},
    )


def take_out_dialog(line: StockLine, today: date, save: Save) -> FormDialog[StockMove]:
    """Ask how much is taken out, and for what."""
    return FormDialog(
        f"Take out: {named_material(line.material, line.colour)}",
        (
            Field("quantity", "Take out", plural(line.material.unit)),
            Field("words", "For", example="The Green"),
        ),
        lambda values: read_taken(values, line, today),
        save,
        words=f"In stock: {number_typed(line.quantity)} {plural(line.material.unit)}.",
    )


def put_in_dialog(line: StockLine | None, today: date, save: Save) -> FormDialog[StockMove]:
    """Ask what is put in; ``line`` is what the cursor stands on."""
    given = {"material": line.material.words, "colour": line.colour} if line else {}
    return FormDialog(
        "Add to stock",
        (
            Field("material", "Material", choices=tuple(BY_WORDS)),
            Field("colour", "Colour", hint="of shingles"),
            Field("quantity", "Quantity", "strips, m or nails"),
            Field("words", "Came from", example="left over at Birch Lane"),
        ),
        lambda values: read_put_in(values, today),
        save,
        words="Counted in strips, metres, nails or cartridges, never in packs.",
        values=given,
        begin_at="quantity" if line else None,
    )


def read_count_of(values: Mapping[str, str], line: StockLine, today: date) -> StockMove:
    """The move that sets stock right. Raises :class:`Refused`, also when nothing differs."""
    counted = _quantity("counted", values["counted"])
    if counted == line.quantity:
        raise Refused("counted", values["counted"], "No change; press Escape.")
    return StockMove(line.material, line.colour, counted - line.quantity, today, "counted")


def read_taken(values: Mapping[str, str], line: StockLine, today: date) -> StockMove:
    """What is taken out, no more than there is. Raises :class:`Refused`."""
    quantity = _more_than_none("quantity", values["quantity"])
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
    quantity = _more_than_none("quantity", values["quantity"])
    words = read_text("words", values["words"], "Say where it comes from.")
    return StockMove(material, colour, quantity, today, words)


def _quantity(field: str, text: str) -> Decimal:
    return read_number(field, text, "how many, such as 12")


def _more_than_none(field: str, text: str) -> Decimal:
    return read_number(field, text, "how many, such as 12", least=Decimal("0.001"))
