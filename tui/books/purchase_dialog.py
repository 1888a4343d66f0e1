"""A purchase, as it stands on the till slip."""

from collections.abc import Awaitable, Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Any

from domain.books.headings import THEIR_WORDS, Heading
from domain.books.purchase import Cost, Purchase, heading_of, likely_cost, slips_of
from domain.days.calendar import show_date
from domain.days.dates import read_past_date
from domain.errors import Refused
from domain.money import read_money, show_money
from domain.quantity import read_number
from domain.tax import VatBand, rate_on, read_rate, vat_in
from domain.tone import Tone
from domain.trader import Trader
from tui.lists.amount_dialog import BY_WORDS
from tui.widgets.field_row import Field
from tui.widgets.field_values import money_typed, number_typed, read_merchant, read_text
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_STOCK = "stock"
_NO, _YES = "no", "yes"
_EXAMPLE = "how many packs, such as 6"


@dataclass(frozen=True, slots=True)
class Typed:
    """A purchase, and the job that was named for it."""

    purchase: Purchase
    ref: str
    """The reference of its job; empty for none."""


class PurchaseDialog(FormDialog[Typed]):
    """What the words and the merchant speak for is chosen as they are typed."""

    SCOPED_CSS = False  # the styles of the base class name it by its own type
    DEFAULT_CSS = "PurchaseDialog FieldRow > .label { width: 13; }"

    def __init__(
        self,
        bought: Purchase | None,
        ref: str,
        known: Sequence[Purchase],
        trader: Trader,
        today: date,
        save: Callable[[Typed], Awaitable[Any]],
    ) -> None:
        """``bought`` is what is put right, of the job ``ref``; None for a new one."""
        self._known, self._proposes = known, bought is None
        self._chosen: dict[str, str] = {}
        values = _typed(bought, ref, trader, today)
        super().__init__(
            "Purchase" if bought is None else f"Put right: {bought.what}",
            _fields(trader),
            lambda values: read_purchase(values, bought, trader, today),
            save,
            words="" if bought is None else "What stood there stays in the history.",
            values=values,
            slips=lambda typed: slips_of(typed.purchase, today),
        )

    def worked_out(self, form: Form) -> None:
        """What follows from what is typed: what it is, its heading, the VAT it holds."""
        values = form.values
        if self._proposes:
            cost = likely_cost(values["what"])
            self._propose(form, "cost", cost)
            if "heading" in values:
                self._propose(form, "heading", heading_of(values["merchant"], self._known, cost))
        if values.get("heading"):
            form.tell("heading", THEIR_WORDS[Heading(values["heading"])], Tone.QUIET)
        if "vat" in values:
            form.note("vat", _vat_words(values), Tone.QUIET)

    def _propose(self, form: Form, field_id: str, words: str) -> None:
        """Choose something, unless the person chose otherwise."""
        if form.values[field_id] in ("", self._chosen.get(field_id, words)):
            self._chosen[field_id] = words
            if form.values[field_id] != words:
                form.put(field_id, words)


def read_purchase(
    values: Mapping[str, str], bought: Purchase | None, trader: Trader, today: date
) -> Typed:
    """Return what was typed. Raises :class:`Refused`."""
    on = read_past_date("on", values["on"], today)
    material = BY_WORDS.get(values["material"])
    job = values["job"].strip()
    cost = Cost(values["cost"] or Cost.ORDINARY)
    there = bought or Purchase(on, "", "", 0)
    purchase = replace(
        there,
        on=on,
        merchant=read_merchant("merchant", values["merchant"]),
        what=read_text("what", values["what"], "Say what was bought."),
        pence=read_money("pence", values["pence"], least=1),
        cost=cost,
        heading=_heading(values, there, cost),
        vat_rate=_vat_rate(values, on) if trader.vat_registered else there.vat_rate,
        job_id=None,
        for_stock=job.casefold() == _STOCK,
        material=material,
        packs=Decimal(0)
        if material is None or not values["packs"].strip()
        else read_number("packs", values["packs"], _EXAMPLE, least=Decimal("0.001")),
    )
    return Typed(purchase, "" if purchase.for_stock else _ref(job))


def _heading(values: Mapping[str, str], there: Purchase, cost: Cost) -> Heading:
    """As chosen; where no headings are kept, the usual one of what it is, or not for tax."""
    if "heading" in values:
        return Heading(values["heading"] or heading_of("", (), cost))
    if values["for_tax"] == _NO:
        return Heading.NOT_FOR_TAX
    return there.heading if there.id and there.counts else heading_of("", (), cost)


def _ref(job: str) -> str:
    """The reference of a job in figures, 999 or 0999. Raises :class:`Refused`."""
    figures = job.split(" ", 1)[0]
    if job and not (figures.isascii() and figures.isdigit()):
        raise Refused("job", job, "Give the number of a job in the book, or stock.")
    return figures


def _vat_rate(values: Mapping[str, str], on: date) -> Decimal | None:
    return read_rate("vat", values["vat"], on) if values["vat"].strip() else None


def _vat_words(values: Mapping[str, str]) -> str:
    try:
        rate = read_number("vat", values["vat"], "20")
        return f"{show_money(vat_in(read_money('pence', values['pence']), rate))} of VAT in it"
    except Refused:
        return ""


def _fields(trader: Trader) -> tuple[Field, ...]:
    headings = tuple(Heading)
    kept = (
        Field("heading", "Heading", choices=headings)
        if trader.expense_headings
        else Field("for_tax", "For tax", choices=(_YES, _NO))
    )
    vat = Field("vat", "VAT", "%", hint="none", takes=Takes.FIGURE)
    return (
        Field("merchant", "Merchant", hint="who was paid", needed=True),
        Field("what", "What", example="shingles, 6 packs", needed=True),
        Field("pence", "Sum", "£ as on the slip, with VAT", takes=Takes.FIGURE, needed=True),
        Field("job", "For", hint="job number, or stock; empty: neither"),
        Field("on", "Paid on", hint="today", takes=Takes.DONE),
        Field("cost", "It is", choices=tuple(Cost)),
        kept,
        *((vat,) if trader.vat_registered else ()),
        Field("material", "Material", choices=tuple(BY_WORDS)),
        Field("packs", "Packs", "for its new price", takes=Takes.COUNT),
    )


def _typed(bought: Purchase | None, ref: str, trader: Trader, today: date) -> dict[str, str]:
    standard = number_typed(rate_on(VatBand.STANDARD, today))
    if bought is None:
        return {
            "on": show_date(today),
            "cost": Cost.ORDINARY,
            "heading": Heading.GOODS,
            "for_tax": _YES,
            "vat": standard if trader.vat_registered else "",
        }
    return {
        "merchant": bought.merchant,
        "what": bought.what,
        "pence": money_typed(bought.pence),
        "job": _STOCK if bought.for_stock else ref,
        "on": show_date(bought.on),
        "cost": bought.cost,
        "heading": bought.heading,
        "for_tax": _YES if bought.counts else _NO,
        "vat": number_typed(bought.vat_rate),
        "material": bought.material.words if bought.material else "",
        "packs": number_typed(bought.packs) if bought.packs else "",
    }
