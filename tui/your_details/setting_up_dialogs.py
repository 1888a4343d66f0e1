"""The first two steps of the first evening: who the trader is, and what the trader charges."""

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import replace
from typing import Any

from domain.contacts import read_email, read_telephone, set_postcode
from domain.estimate.starting_prices import STARTING_WORDS
from domain.signs import Sign
from domain.starting_rates import CHARGES, starting_rates, with_confirmed
from domain.tone import Tone
from domain.trader import Trader
from tui.frame.commands import key_of
from tui.widgets.field_values import address_typed, read_address, read_text
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog
from tui.your_details.details_fields import RATES, WHO
from tui.your_details.details_read import charges_typed, read_charges

_DETAILS = key_of("anywhere", "go('trader')")
_Save = Callable[[Trader], Awaitable[Any]]
_WHO = tuple(replace(field, needed=field.id == "name", section="") for field in WHO)
_CHARGES = tuple(replace(field, section="") for field in RATES)


def who_dialog(trader: Trader, save: _Save) -> FormDialog[Trader]:
    """Ask who the trader is; what else there is of them stays."""

    def read(values: Mapping[str, str]) -> Trader:
        return replace(
            trader,
            name=read_text("name", values["name"], "Give the name on your papers."),
            trading_as=values["trading_as"].strip(),
            address=set_postcode("address", read_address(values["address"])),
            phone=read_telephone("phone", values["phone"]),
            email=read_email("email", values["email"]),
        )

    typed = {field.id: getattr(trader, field.id) for field in WHO}
    return FormDialog(
        "Who you are",
        _WHO,
        read,
        save,
        words=(
            f"As your quotes and invoices show it. How you are paid can wait: {_DETAILS} has it."
        ),
        values=typed | {"address": address_typed(trader.address)},
    )


def charges_dialog(trader: Trader, save: _Save) -> FormDialog[Trader]:
    """Ask what the trader charges; saving takes all of it as the trader's own."""

    def read(values: Mapping[str, str]) -> Trader:
        return replace(trader, rates=with_confirmed(read_charges(values, trader.rates), CHARGES))

    return _ChargesDialog(
        "What you charge",
        _CHARGES,
        read,
        save,
        words=(
            f"{Sign.CAUTION} {STARTING_WORDS.capitalize()}. {key_of('dialog', 'save')} takes all "
            "of it as your own. All before VAT."
        ),
        values=charges_typed(trader.rates),
    ).of(trader)


class _ChargesDialog(FormDialog[Trader]):
    """Says beside each figure whether it is still one to begin with."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type

    def of(self, trader: Trader) -> "_ChargesDialog":
        """Take the figures as they are recorded."""
        self._starting = starting_rates(trader.rates)
        self._began = charges_typed(trader.rates)
        return self

    def worked_out(self, form: Form) -> None:
        """A figure that is changed is the trader's own."""
        for name in CHARGES:
            begins = name in self._starting and form.values[name] == self._began[name]
            form.note(name, f"{Sign.CAUTION} starting" if begins else "", Tone.CAUTION)
