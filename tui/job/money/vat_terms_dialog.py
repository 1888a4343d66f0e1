"""How VAT stands to a price that was agreed before the trader registered for it: asked once."""

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from domain.errors import Refused
from domain.job import VatTerms
from tui.widgets.field_row import Field
from tui.widgets.field_values import read_optional_date
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_WORDS = (
    "You registered for VAT after this price was agreed. A price that says nothing of VAT includes "
    "it; it is added only if they agreed to that in writing. It is asked once, and kept."
)
FIELDS = (
    Field("terms", "VAT is", choices=tuple(VatTerms)),
    Field(
        "on",
        "Agreed on",
        hint="the day of their letter or message",
        only_for=("terms", VatTerms.ADDED.value),
        takes=Takes.DONE,
    ),
)


@dataclass(frozen=True, slots=True)
class Said:
    """How VAT stands, and when that was agreed."""

    terms: VatTerms
    on: date | None


class VatTermsDialog(FormDialog[Said]):
    """A choice, and of VAT that is added the day on which they agreed to it."""

    def __init__(self, today: date, save: Callable[[Said], Awaitable[Any]]) -> None:
        super().__init__(
            "VAT on this price",
            FIELDS,
            lambda values: read_said(values, today),
            save,
            words=_WORDS,
        )


def read_said(values: Mapping[str, str], today: date) -> Said:
    """Return what was chosen. Raises :class:`Refused`."""
    if values["terms"] not in {terms.value for terms in VatTerms}:
        raise Refused("terms", values["terms"], "Choose one with the arrow keys.")
    terms = VatTerms(values["terms"])
    if terms is VatTerms.INSIDE:
        return Said(terms, None)
    on = read_optional_date("on", values["on"], today, done=True)
    if on is None:
        raise Refused("on", "", "Give the day on which they agreed to it in writing.")
    return Said(terms, on)
