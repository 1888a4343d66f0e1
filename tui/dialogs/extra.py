"""Work found on the day that was not in the quote, and how it was settled."""

from collections.abc import Awaitable, Callable, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from domain.calendar import read_date
from domain.errors import Refused
from domain.job import Extra, ExtraState, Means
from domain.money import read_money
from domain.tax import VatBand, rate_on
from domain.trader import Trader
from tui.dialogs.base import FormDialog
from tui.reading.plain import read_number, read_text, shown, shown_date, typed_money
from tui.widgets.form import YES_NO, Field

_AGREED = ("state", ExtraState.AGREED.value)

FIELDS = (
    Field("words", "What", hint="boards found rotten at the back eaves"),
    Field("quantity", "How much", hint="4.2"),
    Field("unit", "Counted in", hint="m"),
    Field("price", "Price, net", unit="£", hint="58.80"),
    Field("state", "Stands", choices=tuple(state.value for state in ExtraState)),
    Field("by", "Agreed by", only_for=_AGREED),
    Field("on", "Agreed on", hint="today", only_for=_AGREED),
    Field("means", "Given", choices=tuple(m.value for m in Means), only_for=_AGREED),
    Field("before", "Begun before agreed", choices=YES_NO),
)


def extra_dialog(
    extra: Extra | None,
    trader: Trader,
    today: date,
    deck_rate: int,
    save: Callable[[Extra], Awaitable[Any]],
) -> FormDialog[Extra]:
    """Ask for an extra; ``extra`` is the one on record."""
    rate = f"Boards are £{typed_money(deck_rate)} a metre in the quote."
    return FormDialog(
        "An extra",
        FIELDS,
        lambda values: read_extra(values, extra, trader, today),
        save,
        words=f"{rate} Agree the price before the work is begun.",
        values=extra_typed(extra, today),
    )


def read_extra(
    values: Mapping[str, str], extra: Extra | None, trader: Trader, today: date
) -> Extra:
    """What was typed. Raises :class:`Refused`."""
    if values["state"] not in {state.value for state in ExtraState}:
        raise Refused("Stands", values["state"], "Choose one with the arrow keys.")
    state = ExtraState(values["state"])
    agreed = state is ExtraState.AGREED
    if agreed and not values["means"]:
        raise Refused("Given", "", "Choose how the customer's word was given.")
    standard = rate_on(VatBand.STANDARD, today) if trader.vat_registered else Decimal(0)
    return Extra(
        words=read_text("What", values["words"], "Say what the work is."),
        quantity=read_number("How much", values["quantity"], "a quantity such as 4.2"),
        unit=read_text("Counted in", values["unit"], "Give a unit, such as m or hour."),
        price=read_money("Price, net", values["price"]),
        vat_rate=standard,
        state=state,
        agreed_by=read_text("Agreed by", values["by"], "Say who agreed.") if agreed else "",
        agreed_on=read_date("Agreed on", values["on"], today) if agreed else None,
        means=Means(values["means"]) if agreed else None,
        begun_before=values["before"] == YES_NO[0],
        id=extra.id if extra else None,
    )


def extra_typed(extra: Extra | None, today: date) -> dict[str, str]:
    """What stands in the fields."""
    if extra is None:
        start = {"unit": "m", "state": ExtraState.OPEN.value, "before": YES_NO[1]}
        return start | {"on": shown_date(today)}
    return {
        "words": extra.words,
        "quantity": shown(extra.quantity),
        "unit": extra.unit,
        "price": typed_money(extra.price),
        "state": extra.state.value,
        "by": extra.agreed_by,
        "on": shown_date(extra.agreed_on or today),
        "means": extra.means.value if extra.means else "",
        "before": YES_NO[0] if extra.begun_before else YES_NO[1],
    }
