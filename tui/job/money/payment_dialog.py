"""Money that came in."""

from collections.abc import Awaitable, Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from domain.accounts.receipt import effect_of
from domain.books.closed_year import closed_year
from domain.days.dates import read_past_date
from domain.errors import Refused
from domain.job import PAYMENT_METHODS, Document
from domain.money import Pence, read_money, show_money
from domain.tone import Tone
from domain.typing_slips import Slip, before_invoice, before_last, overpaid
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, money_typed, read_text
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

CIS = Field("cis", "Deducted (CIS)", unit="£", takes=Takes.FIGURE)
FIELDS = (
    Field("amount", "Amount", unit="£", takes=Takes.FIGURE),
    Field("on", "Received on", hint="today", takes=Takes.DONE),
    Field("method", "Paid by", choices=PAYMENT_METHODS),
)


@dataclass(frozen=True, slots=True)
class MoneyIn:
    """What was typed of a payment."""

    pence: Pence
    received_on: date
    method: str
    cis: Pence = 0
    """What a contractor deducted besides."""


class PaymentDialog(FormDialog[MoneyIn]):
    """Asks what came in for an invoice; filled with what is owed, today, by bank transfer."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    PaymentDialog FieldRow > Input, PaymentDialog FieldRow > Input.-short { width: 13; }
    PaymentDialog FieldRow > Input.-wide { width: 1fr; }
    """

    def __init__(
        self,
        document: Document,
        others: Pence,
        last_receipt_on: date | None,
        today: date,
        save: Callable[[MoneyIn], Awaitable[Any]],
        *,
        deducts: bool,
    ) -> None:
        """``document`` is the invoice it is put to; ``others`` is owed on the job's others.

        The receipt follows that of ``last_receipt_on``, of whichever job. Who ``deducts`` is a
        contractor inside CIS, even if the invoice was issued before that was known.
        """
        self._owed, self._others = document.owed, others
        self._unsettled = document.unsettled
        self._to_deduct = document.unsettled - document.owed
        self._deducts = deducts or bool(self._to_deduct)
        self._issued_on, self._last_receipt_on = document.issued_on, last_receipt_on
        self._today = today
        super().__init__(
            f"Payment for invoice {document.label}",
            (FIELDS[0], CIS, *FIELDS[1:]) if self._deducts else FIELDS,
            lambda typed: read_money_in(typed, today),
            save,
            words=f"Owed on it: {show_money(document.owed)}. A receipt is made out for it.",
            values={
                "amount": money_typed(document.owed),
                "on": date_typed(today),
                "method": PAYMENT_METHODS[0],
            }
            | ({"cis": money_typed(self._to_deduct)} if self._deducts else {}),
            slips=self._unlikely,
        )

    def _unlikely(self, money: MoneyIn) -> Iterable[Slip]:
        on = money.received_on
        slips = (
            overpaid("amount", money.pence + money.cis, self._unsettled + self._others),
            # Before its invoice is the graver of the two, and to be said alone.
            before_invoice("on", on, self._issued_on)
            or before_last("on", on, self._last_receipt_on, "receipt"),
            closed_year("on", on, self._today),
        )
        return [slip for slip in slips if slip is not None]

    def worked_out(self, form: Form) -> None:
        """What is still owed afterwards, or paid over."""
        if not self._deducts:
            form.note("amount", *afterwards(form.values["amount"], self._owed, self._others))
            return
        came, kept = form.values["amount"], form.values["cis"]
        form.note("cis", *after_deducting(came, kept, self._unsettled, self._others))


class AheadDialog(FormDialog[MoneyIn]):
    """Asks what came in that no invoice asks for: before one, twice, or too much."""

    SCOPED_CSS = False  # as above
    DEFAULT_CSS = """
    AheadDialog FieldRow > Input, AheadDialog FieldRow > Input.-short { width: 13; }
    AheadDialog FieldRow > Input.-wide { width: 1fr; }
    """

    def __init__(
        self,
        words: str,
        last_receipt_on: date | None,
        today: date,
        save: Callable[[MoneyIn], Awaitable[Any]],
        *,
        deducts: bool,
    ) -> None:
        """``words`` say what becomes of it; the receipt follows that of ``last_receipt_on``.

        Who ``deducts`` is a contractor inside CIS: what they kept back goes with it.
        """

        def unlikely(money: MoneyIn) -> Iterable[Slip]:
            on = money.received_on
            slips = before_last("on", on, last_receipt_on, "receipt"), closed_year("on", on, today)
            return [slip for slip in slips if slip is not None]

        super().__init__(
            "Payment that no invoice asks for",
            (FIELDS[0], CIS, *FIELDS[1:]) if deducts else FIELDS,
            lambda typed: read_money_in(typed, today),
            save,
            words=words,
            values={"on": date_typed(today), "method": PAYMENT_METHODS[0]},
            slips=unlikely,
        )


def afterwards(typed: str, owed: Pence, others: Pence = 0) -> tuple[str, Tone]:
    """What a payment of so much leaves of what is owed on it and on the job's other invoices.

    Nothing while it cannot be read.
    """
    try:
        effect = effect_of(read_money("amount", typed), owed, others)
    except Refused:
        return "", Tone.PLAIN
    if effect.left:
        return f"leaves {show_money(effect.left)} owed", Tone.PLAIN
    if effect.over:
        return f"{show_money(effect.over)} overpaid (credit)", Tone.CAUTION
    rest = f", {show_money(effect.to_others)} to the other invoices" if effect.to_others else ""
    return f"pays it off{rest}", Tone.GOOD


def after_deducting(came: str, kept: str, unsettled: Pence, others: Pence) -> tuple[str, Tone]:
    """As :func:`afterwards`, where a contractor deducted what was ``kept``."""
    try:
        settles = read_money("amount", came) + read_money("cis", kept or "0")
    except Refused:
        return "", Tone.PLAIN
    return afterwards(money_typed(settles), unsettled, others)


def read_money_in(values: Mapping[str, str], today: date) -> MoneyIn:
    """Return what was typed as a value. Raises :class:`domain.errors.Refused`."""
    return MoneyIn(
        pence=read_money("amount", values["amount"], least=1),
        received_on=read_past_date("on", values["on"], today),
        method=read_text("method", values["method"], "Choose how it was paid."),
        cis=read_money("cis", values.get("cis") or "0"),
    )
