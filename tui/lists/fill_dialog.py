"""One merchant and one price fill the list of prices; the rest are starting figures."""

from collections.abc import Awaitable, Callable, Sequence
from datetime import date
from typing import Any

from domain.coverings.materials import MATERIALS
from domain.estimate.starting_prices import STARTING_WORDS, filled
from domain.estimate.stock import Price
from domain.money import read_money
from tui.lists.amount_dialog import BY_WORDS
from tui.widgets.field_row import Field
from tui.widgets.field_values import read_text
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_COVERINGS = tuple(each.words for each in MATERIALS if each.is_covering)
_FIELDS = (
    Field("merchant", "Merchant", hint="merchant name"),
    Field("covering", "Covering", choices=_COVERINGS),
    Field("net", "Price", "£ a pack or roll, before VAT", takes=Takes.FIGURE),
)


def fill_dialog(
    known: Sequence[Price], today: date, save: Callable[[tuple[Price, ...]], Awaitable[Any]]
) -> FormDialog[tuple[Price, ...]]:
    """Ask for one merchant and the price of one covering; what is ``known`` keeps its price."""

    def read(values: dict[str, str]) -> tuple[Price, ...]:
        return filled(
            known,
            read_text("merchant", values["merchant"], "Give the merchant's name."),
            BY_WORDS[values["covering"]],
            read_money("net", values["net"], least=1),
            today,
        )

    return FormDialog(
        "Fill the list of prices",
        _FIELDS,
        read,
        save,
        words=f"What has no price yet gets a {STARTING_WORDS}.",
        values={"covering": _COVERINGS[0]},
    )
