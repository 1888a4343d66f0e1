"""Putting a snag right: when, and what the callback took."""

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from domain.days.dates import read_past_date
from domain.errors import Refused
from domain.job import Snag
from domain.money import read_money
from domain.quantity import read_number
from tui.frame.safe_text import one_line
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, money_typed, number_typed
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

FIELDS = (
    Field("on", "Fixed on", hint="leave empty if it is still to do", takes=Takes.DONE),
    Field("hours", "Hours", unit="h", takes=Takes.QUARTERS),
    Field("materials", "Materials", example="half a pack of shingles"),
    Field("cost", "They cost you", unit="£", takes=Takes.FIGURE),
)
_MOST_HOURS = Decimal(99)


def callback_dialog(
    snag: Snag, today: date, save: Callable[[Snag], Awaitable[Any]]
) -> FormDialog[Snag]:
    """Ask for it; a snag that is open is taken to be fixed today."""
    return FormDialog(
        f"Fixed: {one_line(snag.words)}",
        FIELDS,
        lambda values: read_callback(values, snag, today),
        save,
        words="What putting it right took is kept with the job.",
        values=callback_typed(snag, today),
    )


def callback_typed(snag: Snag, today: date) -> dict[str, str]:
    """Return what stands in the fields."""
    return {
        "on": date_typed(snag.done_on or today),
        "hours": number_typed(snag.hours) if snag.hours else "",
        "materials": snag.materials,
        "cost": money_typed(snag.cost) if snag.cost else "",
    }


def read_callback(values: Mapping[str, str], snag: Snag, today: date) -> Snag:
    """Return the snag with what was typed; without a day it is still to do. Raises Refused."""
    if not values["on"].strip():
        left = next((each for each in ("hours", "materials", "cost") if values[each].strip()), None)
        if left is not None:
            raise Refused("on", "", "Say when, or clear what it took.")
        return Snag(snag.words, id=snag.id)
    return replace(
        snag,
        done_on=read_past_date("on", values["on"], today),
        hours=_hours(values["hours"]),
        materials=values["materials"].strip(),
        cost=read_money("cost", values["cost"]) if values["cost"].strip() else 0,
    )


def _hours(typed: str) -> Decimal:
    if not typed.strip():
        return Decimal(0)
    return read_number(
        "hours", typed, "hours such as 1.5", unit="h", least=Decimal(0), most=_MOST_HOURS
    )
