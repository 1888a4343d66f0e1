"""One merchant for all that has no price; a figure not changed stays a starting one."""

from collections.abc import Awaitable, Callable, Mapping, Sequence
from datetime import date
from typing import Any

from domain.coverings.materials import MATERIALS, Material
from domain.estimate.starting_prices import STARTING_WORDS, filled, starting_price
from domain.estimate.stock import Price
from domain.estimate.supplies import usual_pack
from domain.money import read_money
from domain.quantity import show_amount
from tui.widgets.field_row import Field
from tui.widgets.field_values import money_typed, read_merchant
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_MERCHANT = Field("merchant", "Merchant", hint="merchant name", needed=True)


def without_price(known: Sequence[Price]) -> tuple[Material, ...]:
    """Return the materials that have no price yet, in their order."""
    priced = {price.material for price in known}
    return tuple(each for each in MATERIALS if each not in priced)


def fill_dialog(
    known: Sequence[Price],
    today: date,
    save: Callable[[tuple[Price, ...]], Awaitable[Any]],
    *,
    registered: bool,
) -> FormDialog[tuple[Price, ...]]:
    """Ask for one merchant and a price of each material without one; what is ``known`` stays.

    Who is not ``registered`` for VAT gives them with it, as the list of prices shows them.
    """
    lacking, with_vat = without_price(known), not registered

    def read(values: Mapping[str, str]) -> tuple[Price, ...]:
        merchant = read_merchant("merchant", values["merchant"])
        asked = {
            each: read_money(_id(each), values[_id(each)], least=1)
            for each in lacking
            if values[_id(each)].strip()
        }
        return filled(merchant, asked, today, with_vat=with_vat)

    return FormDialog(
        "What your coverings cost",
        (_MERCHANT, *map(_field, lacking)),
        read,
        save,
        words=(
            f"{'With VAT' if with_vat else 'Before VAT'}, for a usual pack. A price left as it is "
            f"stays a {STARTING_WORDS}; empty one you do not buy."
        ),
        values={
            _id(each): money_typed(starting_price(each, today, with_vat=with_vat))
            for each in lacking
        },
    )


def prices_saved(prices: Sequence[Price]) -> str:
    """Say how many of the prices just saved are the trader's own."""
    starting = sum(price.starting for price in prices)
    return f"Saved: your prices: {len(prices) - starting}; starting figures: {starting}."


def _field(material: Material) -> Field:
    unit = f"£ for {show_amount(usual_pack(material), material.unit)}"
    words = f"{material.words[:1].upper()}{material.words[1:]}"
    return Field(_id(material), words, unit, takes=Takes.FIGURE)


def _id(material: Material) -> str:
    return f"net-{material}"
