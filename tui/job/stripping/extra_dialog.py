"""Work found on the day that was not in the quote, and how it was settled."""

from collections.abc import Awaitable, Callable, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from domain.days.dates import read_past_date
from domain.errors import Refused
from domain.estimate.extra_terms import METRES, Terms, net_of
from domain.job import Extra, ExtraState, Means
from domain.money import Pence, read_money, share, show_money, times
from domain.quantity import read_in_metres, read_number
from domain.tax import VatBand, rate_on
from domain.trader import Trader
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, money_typed, number_typed, read_text
from tui.widgets.form import YES_NO, Form
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_BOARDS = "rotten boards replaced"
"""What a new extra is that is by the metre, at the quote's rate, and has no words of its own."""
_EXAMPLE = "a quantity such as 4.2"
_MOST_METRES = Decimal(100_000)
_AGREED = ("state", ExtraState.AGREED.value)

FIELDS = (
    Field("words", "What", hint="empty: rotten boards, by the metre"),
    Field("quantity", "How much", example="4.2", takes=Takes.FIGURE),
    Field("unit", "Unit", example="m"),
    Field("price", "Price", unit="£", hint="m: quote's rate", takes=Takes.FIGURE),
    Field("state", "Status", choices=tuple(state.value for state in ExtraState)),
    Field("by", "Agreed by", only_for=_AGREED),
    Field("on", "Agreed on", only_for=_AGREED, takes=Takes.DONE, today_with="by"),
    Field("means", "Agreed how", choices=tuple(m.value for m in Means), only_for=_AGREED),
    Field("before", "Started before agreed", choices=YES_NO),
)


class ExtraDialog(FormDialog[Extra]):
    """Asks for an extra; boards by the metre are priced at the rate that the quote names."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    ExtraDialog FieldRow > Input { width: 22; }
    ExtraDialog FieldRow > Input.-wide { width: 1fr; }
    """

    def __init__(
        self,
        extra: Extra | None,
        trader: Trader,
        today: date,
        terms: Terms,
        save: Callable[[Extra], Awaitable[Any]],
        begin_at: str = "state",
    ) -> None:
        """``extra`` is the one recorded; the cursor begins at the field named of such a one.

        A new one is boards until something else is typed: it begins where the metres are.
        """
        self._terms = terms
        vat = ", VAT included," if terms.with_vat else ""
        super().__init__(
            "New extra" if extra is None else "Edit extra",
            FIELDS,
            lambda values: read_extra(values, extra, trader, today, terms),
            save,
            words=(
                f"Rotten boards are {show_money(terms.metre)} a metre{vat} in the quote. Agree "
                "the price before you start the work."
            ),
            values=extra_typed(extra, terms),
            begin_at=begin_at if extra is not None else "quantity",
        )

    def worked_out(self, form: Form) -> None:
        """What the boards come to, while no other price is typed."""
        pence = at_rate(form.values, self._terms.metre)
        comes_to = f"comes to {show_money(pence)}" if pence is not None else ""
        inside = "VAT included" if self._terms.with_vat else ""
        form.note("price", ", ".join(filter(None, (comes_to, inside))))


def read_extra(
    values: Mapping[str, str], extra: Extra | None, trader: Trader, today: date, terms: Terms
) -> Extra:
    """Return the extra as typed; without a price, metres are at the rate of ``terms``.

    Raises :class:`Refused`.
    """
    if values["state"] not in {state.value for state in ExtraState}:
        raise Refused("state", values["state"], "Choose one with the arrow keys.")
    state = ExtraState(values["state"])
    agreed = state is ExtraState.AGREED
    boards = _BOARDS if extra is None and is_at_rate(values) else ""
    words = read_text("words", values["words"].strip() or boards, "Say what the work is.")
    quantity = _quantity(values)
    unit = read_text("unit", values["unit"], "Give a unit, such as m or hour.")
    pence = at_rate(values, terms.metre)
    return Extra(
        words=words,
        quantity=quantity,
        unit=unit,
        price=read_money("price", values["price"]) if pence is None else pence,
        vat_rate=rate_on(VatBand.STANDARD, today) if trader.vat_registered else Decimal(0),
        state=state,
        agreed_by=read_text("by", values["by"], "Say who agreed.") if agreed else "",
        agreed_on=read_past_date("on", values["on"], today) if agreed else None,
        means=_means(values["means"]) if agreed else None,
        begun_before=values["before"] == YES_NO[0],
        with_vat=terms.with_vat,
        id=extra.id if extra else None,
    )


def is_at_rate(values: Mapping[str, str]) -> bool:
    """Whether it is by the metre, with no price of its own."""
    return not values["price"].strip() and _unit(values) in METRES


def at_rate(values: Mapping[str, str], rate: Pence) -> Pence | None:
    """What metres of board come to; None with a price of their own, or if it is not metres."""
    if not is_at_rate(values):
        return None
    try:
        return times(rate, _quantity(values))
    except Refused:
        return None


def _quantity(values: Mapping[str, str]) -> Decimal:
    """How much in the unit given; metres may be typed as any length. Raises :class:`Refused`."""
    typed, unit, least = values["quantity"], _unit(values), Decimal("0.001")
    if unit in METRES:
        return read_in_metres("quantity", typed, _EXAMPLE, least=least, most=_MOST_METRES)
    return read_number("quantity", typed, _EXAMPLE, unit=unit, least=least)


def _price_in(extra: Extra, terms: Terms) -> Pence:
    """The price in the terms of the job; one kept before VAT has it put on."""
    if terms.with_vat == extra.with_vat:
        return extra.price
    return extra.price + share(extra.price, extra.vat_rate) if terms.with_vat else net_of(extra)


def _unit(values: Mapping[str, str]) -> str:
    return values["unit"].strip().casefold()


def _means(text: str) -> Means:
    if text not in {means.value for means in Means}:
        raise Refused("means", text, "Choose how they agreed.")
    return Means(text)


def extra_typed(extra: Extra | None, terms: Terms) -> dict[str, str]:
    """Return what stands in the fields; the price in the terms of the job."""
    if extra is None:
        return {"unit": "m", "state": ExtraState.OPEN.value, "before": YES_NO[1]}
    return {
        "words": extra.words,
        "quantity": number_typed(extra.quantity),
        "unit": extra.unit,
        "price": money_typed(_price_in(extra, terms)),
        "state": extra.state.value,
        "by": extra.agreed_by,
        "on": date_typed(extra.agreed_on),
        "means": extra.means.value if extra.means else "",
        "before": YES_NO[0] if extra.begun_before else YES_NO[1],
    }
