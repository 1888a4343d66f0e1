"""What puts a mistake in the money right: a credit note, a payment cancelled, money paid back."""

from collections.abc import Awaitable, Callable, Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from domain.accounts.counter_entries import GivenBack, demand_possible
from domain.accounts.credit_note import Credited, CreditNote, Effect, LineLeft
from domain.books.closed_year import closed_year
from domain.days.dates import read_past_date
from domain.errors import NotNow, Refused
from domain.job import CHEQUE, Document, DocumentKind, Payment
from domain.money import Pence, read_money, show_money
from domain.tone import Tone
from domain.typing_slips import Slip, before_last
from tui.frame.safe_text import shortened
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, money_typed, read_text
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

NOTES = {DocumentKind.MISTAKE: "note of a mistake", DocumentKind.REFUND: "refund"}
"""What is called so that is issued when money is given back."""
MISTAKE, RETURNED, PAY_BACK = "typed by mistake", "cheque returned", "paid back to them"

CREDIT_FIELDS = (
    Field("amount", "Take off", unit="£", takes=Takes.FIGURE),
    Field("reason", "Because", example="2 m of boards too many"),
)
LABOUR, MATERIALS = "labour", "materials at cost"
A_SUM = "a sum"
_ROOM = 42
"""Cells that a line of an invoice is named in."""
_OF = Field("of", "It is", choices=(LABOUR, MATERIALS))
"""Asked where a contractor deducts: of labour alone they do."""
_REST = (
    Field("amount", "Amount", unit="£", takes=Takes.FIGURE, only_for=("what", PAY_BACK)),
    Field("on", "On", hint="today", takes=Takes.DONE),
    Field("reason", "Note", hint="may stay empty"),
)


def back_fields(payment: Payment) -> tuple[Field, ...]:
    """What may have become of a payment: a cheque is returned, credit is paid back."""
    returned = (RETURNED,) if payment.method == CHEQUE else ()
    back = (PAY_BACK,) if payment.refundable else ()
    on, note = _REST[1:]
    rest = _REST if back else (on, note)
    return (Field("what", "What happened", choices=(MISTAKE, *returned, *back)), *rest)


class CreditDialog(FormDialog[Credited]):
    """Asks how much comes off an invoice, and why; filled with all that is left of it."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = """
    CreditDialog FieldRow > Input, CreditDialog FieldRow > Input.-short { width: 13; }
    CreditDialog FieldRow > Input.-wide { width: 1fr; }
    """

    def __init__(
        self,
        invoice: Document,
        left: Pence,
        note: Callable[[Credited], CreditNote],
        effect: Callable[[CreditNote], Effect],
        save: Callable[[Credited], Awaitable[Any]],
        doubt: Slip | None,
        lines: Sequence[LineLeft] = (),
    ) -> None:
        """``left`` is what the invoice asks for, less what is credited on it already.

        One of its ``lines`` may be chosen instead of a sum of the whole.

        ``note`` is what would be issued, and ``effect`` what that would do; ``doubt`` is what is
        unlikely about its day.
        """
        self._invoice, self._left, self._doubt = invoice, left, doubt
        self._note, self._effect = note, effect
        named = (f"{at}. {each.item.words}" for at, each in enumerate(lines, 1))
        self._lines = dict(zip((shortened(words, _ROOM) for words in named), lines, strict=True))
        self._line = A_SUM
        amount, reason = CREDIT_FIELDS
        line = Field("line", "Credit", choices=(A_SUM, *self._lines))
        before = (line,) if lines else ()
        super().__init__(
            f"Credit note for invoice {invoice.label}",
            (*before, amount, _OF, reason) if invoice.bears_cis else (*before, amount, reason),
            lambda typed: read_credited(typed, invoice, self._lines),
            save,
            words=(
                f"It asks for {show_money(left)}{_of_it_cis(invoice)}. A credit note with a "
                "number of its own takes off what was wrong; the invoice stays as it is."
            ),
            values={"amount": money_typed(left)}
            | ({"line": A_SUM} if lines else {})
            | ({"of": LABOUR} if invoice.bears_cis else {}),
            begin_at="amount" if lines else None,
            slips=self._all_of_it,
        )

    def _all_of_it(self, credited: Credited) -> Iterable[Slip]:
        """It is filled with all of it, and final: that is asked about, and a day out of order."""
        if self._doubt is not None:
            yield self._doubt
        if credited.pence == self._left:
            yield Slip("amount", f"{show_money(self._left)} takes off all of it, for good")

    def worked_out(self, form: Form) -> None:
        """What the invoice comes to afterwards, and what a contractor then deducts.

        The sum is that of the line, once one is chosen.
        """
        line = form.values.get("line", A_SUM)
        if line != self._line:
            self._line = line
            of_it = self._lines.get(line)
            form.put("amount", money_typed(self._left if of_it is None else of_it.left))
        if self._invoice.bears_cis:
            form.note("amount", *self._deducted_then(form.values))
        else:
            typed, paid = form.values["amount"], self._invoice.paid
            form.note("amount", *afterwards(typed, self._left, paid))

    def _deducted_then(self, typed: Mapping[str, str]) -> tuple[str, Tone]:
        """The deduction once it is issued; nothing while the sum cannot be read."""
        try:
            credited = read_credited({**typed, "reason": "not asked for yet"}, self._invoice, {})
            effect = self._effect(self._note(credited))
        except Refused as error:
            return (error.remedy if error.field == "amount" else ""), Tone.CAUTION
        except NotNow:
            return "", Tone.PLAIN
        left = f"{show_money(effect.owed)} to pay"
        if effect.credit:
            left = f"{show_money(effect.credit)} credit"
        cis = show_money(-effect.cis) if effect.cis else "as it was"
        return f"CIS {cis}, {left}", Tone.PLAIN


def _of_it_cis(invoice: Document) -> str:
    """What of an invoice a contractor deducts, in a clause."""
    worked_out = invoice.cis - invoice.cis_credited
    return f", {show_money(worked_out)} of it CIS" if worked_out else ""


def afterwards(typed: str, left: Pence, paid: Pence) -> tuple[str, Tone]:
    """What is left of an invoice, and what was paid over then; nothing while it cannot be read."""
    try:
        rest = left - read_money("amount", typed)
    except Refused:
        return "", Tone.PLAIN
    if rest < 0:
        return f"only {show_money(left)} is left of it", Tone.CAUTION
    over = f"; {show_money(paid - rest)} credit" if paid > rest else ""
    return (f"{show_money(rest)} left{over}" if rest else f"all of it{over}"), Tone.PLAIN


def read_credited(
    values: Mapping[str, str], invoice: Document, lines: Mapping[str, LineLeft]
) -> Credited:
    """Return what was typed as a value, ``lines`` by their words. Raises :class:`Refused`."""
    line = lines.get(values.get("line", A_SUM))
    return Credited(
        document_id=invoice.id or 0,
        pence=read_money("amount", values["amount"], least=1),
        reason=_read_reason(values["reason"]),
        materials=values.get("of") == MATERIALS,
        line=None if line is None else line.at,
    )


def _read_reason(typed: str) -> str:
    """Words: a bare sum was meant for the line above."""
    reason = read_text("reason", typed, "Say what was wrong.")
    if not any(letter.isalpha() for letter in reason):
        raise Refused("reason", typed, "Say in words what was wrong; the sum stands above.")
    return reason


class GiveBackDialog(FormDialog[GivenBack]):
    """Asks what became of a payment. Nothing is chosen beforehand: it cannot be undone."""

    SCOPED_CSS = False  # as above
    DEFAULT_CSS = """
    GiveBackDialog FieldRow > Input, GiveBackDialog FieldRow > Input.-short { width: 13; }
    GiveBackDialog FieldRow > Input.-wide { width: 1fr; }
    """

    def __init__(
        self,
        payment: Payment,
        receipt: str,
        today: date,
        last_issued: Mapping[DocumentKind, date],
        save: Callable[[GivenBack], Awaitable[Any]],
        *,
        what: str = "",
    ) -> None:
        """``receipt`` is the number of the payment's receipt; ``what`` is chosen beforehand.

        The note is of ``today`` and follows that of ``last_issued``, of whichever job.
        """
        super().__init__(
            f"Payment of {show_money(payment.money)}, receipt {receipt}",
            back_fields(payment),
            lambda typed: read_given_back(typed, payment, today),
            save,
            words=_words(payment),
            values={
                "what": what,
                "amount": money_typed(payment.refundable),
                "on": date_typed(today),
            },
            begin_at="on" if what else "what",
            slips=lambda back: filter(
                None,
                (
                    _told_already(payment, back, today),
                    before_last("what", today, last_issued.get(back.kind), NOTES[back.kind]),
                ),
            ),
        )


def read_given_back(values: Mapping[str, str], payment: Payment, today: date) -> GivenBack:
    """Return what was typed as a value. Raises :class:`domain.errors.Refused`."""
    what = read_text("what", values["what"], "Choose what happened with the arrow keys.")
    back = what == PAY_BACK
    if back and not payment.refundable:
        raise Refused("what", what, "Nothing of it is to their credit: choose one of the others.")
    given_back = GivenBack(
        kind=DocumentKind.REFUND if back else DocumentKind.MISTAKE,
        payment_id=payment.id or 0,
        pence=read_money("amount", values["amount"], least=1) if back else payment.pence,
        on=read_past_date("on", values["on"], today),
        reason=values["reason"].strip() or what,
    )
    demand_possible(payment, given_back)  # before anything else is asked about it
    return given_back


def _told_already(payment: Payment, back: GivenBack, today: date) -> Slip | None:
    """A year that was told: a mistake changes that in which the money stood, a refund its own."""
    mistake = back.kind is DocumentKind.MISTAKE
    field, on = ("what", payment.received_on) if mistake else ("on", back.on)
    return closed_year(field, on, today)


def done_words(payment: Payment, back: GivenBack) -> str:
    """What was done to a payment, once it is saved: of a mistake the money that never came."""
    if back.kind is DocumentKind.MISTAKE:
        return f"{show_money(payment.money)} cancelled"
    return f"{show_money(back.pence)} paid back"


def _words(payment: Payment) -> str:
    """What either does, before it is done."""
    owed = sum(part.money for part in payment.standing)
    again = f" {show_money(owed)} is owed again." if owed else ""
    over = payment.refundable
    credit = f" {show_money(over)} of it is to their credit and can be paid back." if over else ""
    return f"A mistake cancels all of it, with a note for its receipt.{again}{credit}"
