"""Money that came in."""

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from domain.calendar import read_date
from domain.job import Document
from domain.money import Pence, read_money, show_money
from tui.dialogs.base import FormDialog
from tui.reading.plain import read_text, shown_date, typed_money
from tui.widgets.form import Field

METHODS = ("bank transfer", "cash", "cheque", "card")

FIELDS = (
    Field("pence", "Amount", unit="£"),
    Field("on", "Received on", hint="today"),
    Field("method", "By", choices=METHODS),
)


@dataclass(frozen=True, slots=True)
class MoneyIn:
    """What was typed of a payment."""

    pence: Pence
    received_on: date
    method: str


def payment_dialog(
    document: Document, today: date, save: Callable[[MoneyIn], Awaitable[Any]]
) -> FormDialog[MoneyIn]:
    """Ask what came in for a document; filled with what is owed, today, by bank transfer."""
    values = {"pence": typed_money(document.owed), "on": shown_date(today), "method": METHODS[0]}
    return FormDialog(
        f"Money in for invoice {document.label}",
        FIELDS,
        lambda typed: read_money_in(typed, today),
        save,
        words=f"Owed on it: {show_money(document.owed)}. A receipt is given for what came in.",
        values=values,
    )


def read_money_in(values: Mapping[str, str], today: date) -> MoneyIn:
    """What was typed. Raises :class:`domain.errors.Refused`."""
    return MoneyIn(
        pence=read_money("Amount", values["pence"], least=1),
        received_on=read_date("Received on", values["on"], today),
        method=read_text("By", values["method"], "Choose how it came in."),
    )
