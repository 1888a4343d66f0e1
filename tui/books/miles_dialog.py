"""Miles driven: those a day proposes, or any others."""

from collections.abc import Awaitable, Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from domain.books.closed_year import closed_year
from domain.books.miles import Miles, far_driven
from domain.days.calendar import show_date
from domain.days.dates import read_past_date
from domain.quantity import read_number
from domain.typing_slips import Slip
from tui.widgets.field_row import Field
from tui.widgets.field_values import number_typed, read_text
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_FIELDS = (
    Field("miles", "Miles", "there and back", takes=Takes.COUNT, needed=True),
    Field("words", "Where, why", example="tip, old covering", needed=True),
    Field("on", "Driven on", hint="today", takes=Takes.DONE),
)
_WORDS = "By the mile, the rate stands for fuel, insurance, upkeep and the price of the van."


def miles_dialog(
    trip: Miles | None,
    known: Sequence[Miles],
    today: date,
    save: Callable[[Miles], Awaitable[Any]],
) -> FormDialog[Miles]:
    """Ask for a trip; ``trip`` is one that is proposed or put right."""
    values = {"on": show_date(today)}
    if trip is not None:
        values = {
            "miles": number_typed(trip.miles if trip.id or trip.miles else None),
            "words": trip.words,
            "on": show_date(trip.on),
        }
    return FormDialog(
        "Miles" if trip is None or trip.id is None else "Put right: miles",
        _FIELDS,
        lambda typed: read_miles(typed, trip, today),
        save,
        words=_WORDS if trip is None else f"{_WORDS} 0: nothing was driven that day.",
        values=values,
        slips=lambda typed: _slips(typed, known, today),
    )


def read_miles(values: Mapping[str, str], trip: Miles | None, today: date) -> Miles:
    """Return what was typed. Raises :class:`Refused`."""
    on = read_past_date("on", values["on"], today)
    typed = Miles(
        on,
        read_number("miles", values["miles"], "miles such as 24", unit="mile", most=Decimal(9999)),
        read_text("words", values["words"], "Say where to and what for."),
    )
    if trip is None:
        return typed
    return replace(trip, on=typed.on, miles=typed.miles, words=typed.words)


def _slips(trip: Miles, known: Iterable[Miles], today: date) -> tuple[Slip, ...]:
    found = (far_driven(trip, known), closed_year("on", trip.on, today))
    return tuple(slip for slip in found if slip is not None)
