"""One transfer of a customer's for several invoices: typed once, shared by age or as typed."""

from collections.abc import Awaitable, Callable, Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from domain.accounts.transfer import OpenInvoice, by_age, share_field, shared_out
from domain.books.closed_year import closed_year
from domain.days.dates import read_past_date
from domain.errors import Refused
from domain.job import PAYMENT_METHODS, Received
from domain.money import Pence, read_money, show_money
from domain.tone import Tone
from domain.typing_slips import Slip, before_last, overpaid
from tui.job.money.payment_dialog import CIS, FIELDS
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, money_typed, read_text
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes


class TransferDialog(FormDialog[Received]):
    """Filled with all that is owed; a share that is left empty is worked out and said beside it."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    TransferDialog FieldRow > Input, TransferDialog FieldRow > Input.-short { width: 13; }
    TransferDialog FieldRow > Input.-wide { width: 1fr; }
    """

    def __init__(
        self,
        who: str,
        owing: Sequence[OpenInvoice],
        last_receipt_on: date | None,
        today: date,
        save: Callable[[Received], Awaitable[Any]],
    ) -> None:
        """``who`` pays; the receipt follows that of ``last_receipt_on``, of whichever job."""
        self._owing = by_age(owing)
        owed = sum(each.document.owed for each in self._owing)
        self._unsettled = sum(each.document.unsettled for each in self._owing)
        to_deduct = self._unsettled - owed
        self._last_receipt_on, self._today = last_receipt_on, today
        shares = tuple(_share_field(each) for each in self._owing)
        super().__init__(
            f"One transfer from {who}",
            (FIELDS[0], *((CIS,) if to_deduct else ()), *FIELDS[1:], *shares),
            lambda typed: read_transfer(typed, self._owing, today),
            save,
            words=(
                f"Owed in all: {show_money(owed)}. Shared out over the invoices, that due first "
                "first; type a share to say otherwise."
            ),
            values={
                "amount": money_typed(owed),
                "on": date_typed(today),
                "method": PAYMENT_METHODS[0],
            }
            | ({"cis": money_typed(to_deduct)} if to_deduct else {}),
            slips=self._unlikely,
        )

    def _unlikely(self, came: Received) -> Iterable[Slip]:
        slips = (
            overpaid("amount", came.pence + came.cis, self._unsettled),
            before_last("on", came.on, self._last_receipt_on, "receipt"),
            closed_year("on", came.on, self._today),
        )
        return [slip for slip in slips if slip is not None]

    def worked_out(self, form: Form) -> None:
        """What goes to each invoice, and what is over."""
        told = shares_in_words(form.values, self._owing)
        for field, (words, tone) in told.items():
            form.note(field, words, tone)


def shares_in_words(
    values: Mapping[str, str], owing: Sequence[OpenInvoice]
) -> Mapping[str, tuple[str, Tone]]:
    """What is said beside the sum and beside each share; nothing while it cannot be read."""
    nothing = {share_field(each.document): ("", Tone.PLAIN) for each in owing}
    try:
        pence, cis = _came(values)
        shares = shared_out(owing, pence + cis, cis, _typed(values, owing))
    except Refused as error:
        known = error.field in values
        return nothing | {error.field if known else "amount": (error.remedy, Tone.CAUTION)}
    put = {part.document_id: part for part in shares}
    told = dict(nothing)
    for each in owing:
        document = each.document
        part = put.get(document.id or 0)
        given = part.pence if part else 0
        left = document.unsettled - given
        told[share_field(document)] = (
            f"{show_money(given)}, " + (f"{show_money(left)} left" if left else "paid off"),
            Tone.PLAIN if left else Tone.GOOD,
        )
    over = pence + cis - sum(part.pence for part in shares)
    told["amount"] = (f"{show_money(over)} over (credit)" if over else "", Tone.CAUTION)
    return told


def read_transfer(values: Mapping[str, str], owing: Sequence[OpenInvoice], today: date) -> Received:
    """Return what was typed as a value. Raises :class:`domain.errors.Refused`."""
    pence, cis = _came(values)
    return Received(
        document_id=None,
        pence=pence,
        on=read_past_date("on", values["on"], today),
        method=read_text("method", values["method"], "Choose how it was paid."),
        cis=cis,
        shares=shared_out(owing, pence + cis, cis, _typed(values, owing)),
    )


def _came(values: Mapping[str, str]) -> tuple[Pence, Pence]:
    return read_money("amount", values["amount"], least=1), read_money(
        "cis", values.get("cis") or "0"
    )


def _typed(values: Mapping[str, str], owing: Sequence[OpenInvoice]) -> dict[int, Pence]:
    """The shares that were typed, by invoice."""
    fields = {each.document.id or 0: share_field(each.document) for each in owing}
    return {
        key: read_money(field, values[field])
        for key, field in fields.items()
        if values.get(field, "").strip()
    }


def _share_field(each: OpenInvoice) -> Field:
    return Field(
        share_field(each.document),
        f"{each.document.label} {each.ref}",
        unit="£",
        hint="by age",
        takes=Takes.FIGURE,
    )
