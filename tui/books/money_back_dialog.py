"""Money that a merchant gave back of a purchase."""

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from domain.books.closed_year import closed_year
from domain.books.money_back import MoneyBack
from domain.books.purchase import Purchase, demand_can_come_back
from domain.days.calendar import show_date
from domain.days.dates import read_past_date
from domain.money import Pence, read_money, show_money
from domain.typing_slips import Slip
from tui.widgets.field_row import Field
from tui.widgets.field_values import money_typed, read_text
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_FIELDS = (
    Field("pence", "Came back", "£ with VAT", takes=Takes.FIGURE, needed=True),
    Field("reason", "Because", example="1 pack too many, returned", needed=True),
    Field("on", "It came on", hint="today", takes=Takes.DONE),
)


def money_back_dialog(
    bought: Purchase,
    back: MoneyBack | None,
    today: date,
    save: Callable[[MoneyBack], Awaitable[Any]],
) -> FormDialog[MoneyBack]:
    """Ask for what came back of a purchase; ``back`` is one that is put right."""
    there = MoneyBack(today, 0, "", bought.id or 0) if back is None else back
    values = {"on": show_date(there.on)}
    if back is not None:
        values |= {"pence": money_typed(back.pence), "reason": back.reason}
    left = bought.left + there.pence
    put_right = "" if back is None else " 0: nothing came back after all."
    return FormDialog(
        "Money back from the merchant" if back is None else "Put right: money back",
        _FIELDS,
        lambda typed: read_money_back(typed, there, bought, today),
        save,
        words=f"{bought.what}, {show_money(bought.pence)} at {bought.merchant} on "
        f"{show_date(bought.on)}: {_of(left, bought.pence)}.{put_right}",
        values=values,
        slips=lambda typed: _slips(typed, today),
    )


def read_money_back(
    values: Mapping[str, str], there: MoneyBack, bought: Purchase, today: date
) -> MoneyBack:
    """Return what was typed. Raises :class:`Refused`."""
    typed = replace(
        there,
        on=read_past_date("on", values["on"], today),
        pence=read_money("pence", values["pence"], least=0 if there.id else 1),
        reason=read_text("reason", values["reason"], "Say what was returned, or why it came."),
    )
    demand_can_come_back(typed, bought, today)
    return typed


def _of(left: Pence, whole: Pence) -> str:
    return "all of it can come back" if left == whole else f"{show_money(left)} is left of it"


def _slips(back: MoneyBack, today: date) -> tuple[Slip, ...]:
    closed = closed_year("on", back.on, today)
    return (closed,) if closed else ()
