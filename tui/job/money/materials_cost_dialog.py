"""What the materials of a contractor's job cost, asked before the invoice that says so is shown."""

from collections.abc import Awaitable, Callable, Mapping
from typing import Any

from domain.accounts.invoice import Invoice
from domain.errors import HeadlapError
from domain.money import Pence, read_money, show_money
from domain.tone import Tone
from tui.widgets.field_row import Field
from tui.widgets.field_values import money_typed
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_WORDS = (
    "CIS is not deducted from what materials, consumables, hired plant and the fuel for it cost "
    "you. Proposed: what was used, by your slips or else as quoted, and what you bought for this "
    "job. Never travel, nor tools you keep."
)
FIELDS = (Field("cost", "Cost to you", unit="£", takes=Takes.FIGURE),)


class MaterialsCostDialog(FormDialog[Pence]):
    """Filled with what was paid; beside it what is deducted then."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = "MaterialsCostDialog FieldRow > Input.-short { width: 13; }"

    def __init__(
        self,
        proposed: Pence,
        planned: Callable[[Pence], Invoice],
        save: Callable[[Pence], Awaitable[Any]],
    ) -> None:
        """``planned`` is the invoice with the materials at a sum; it refuses what is too much."""
        self._planned = planned
        super().__init__(
            "Materials at cost",
            FIELDS,
            self._read,
            save,
            words=_WORDS,
            values={"cost": money_typed(proposed)},
        )

    def _read(self, values: Mapping[str, str]) -> Pence:
        cost = read_money("cost", values["cost"])
        self._planned(cost)
        return cost

    def worked_out(self, form: Form) -> None:
        """What is deducted and is to pay, or why it cannot be."""
        try:
            made = self._planned(read_money("cost", form.values["cost"]))
        except HeadlapError:
            form.note("cost", "", Tone.PLAIN)
            return
        deducted = show_money(made.cis.deducted if made.cis else 0)
        form.note("cost", f"CIS {deducted}, {show_money(made.to_pay)} to pay", Tone.PLAIN)
