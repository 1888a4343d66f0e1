"""The ledger: every event of money as a row that can be reckoned again without the program.

Made for the accountant, for a spreadsheet and for checks. Sums are pounds with two decimals and
never negative: the kind tells the sign. ``docs/ledger.md`` tells what each column holds.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import TypeAlias

from domain.accounts.cis import Cis
from domain.accounts.credit_note import CreditNote
from domain.accounts.invoice import Invoice
from domain.accounts.money_events import CameIn, Event, GivenUp, GoneBack, Issued, Moved, OfJob
from domain.accounts.taxed_ahead import TaxedAhead, TaxMoved
from domain.accounts.vat_falling import FallingVat
from domain.books.money_in import MoneyIn
from domain.books.quarter import Books, up_to
from domain.job import Document, DocumentKind
from domain.money import Pence, plain_pounds
from domain.quantity import show_quantity
from domain.snapshot import from_json
from domain.tax import VatSum, VatTotals, less
from domain.tax.years import TaxYear, tax_year_of

COLUMNS = (
    *("row", "date", "kind", "number", "job", "customer", "customer_kind", "vat_rate", "terms"),
    *("net", "vat", "gross", "materials_net", "materials_vat", "cis_rate", "cis", "done"),
    *("deposit_asked", "tax_point", "refers", "allocated_to", "owed_after", "credit_after"),
    "reason",
)
_SUMS = ("net", "vat", "gross", "materials_net", "materials_vat", "cis")
"""Columns that hold a sum in every row."""

Row: TypeAlias = dict[str, str]
"""One row: a cell for each column."""


@dataclass(slots=True)
class _Standing:
    """What stands while the events are gone through."""

    invoices: dict[int, "_Asked"] = field(default_factory=dict)
    """By document."""
    payments: dict[int, CameIn] = field(default_factory=dict)
    credit: dict[int, Pence] = field(default_factory=dict)
    """By customer."""
    falling: FallingVat = field(default_factory=FallingVat)
    ahead: TaxedAhead = field(default_factory=TaxedAhead)

    def row(self, of: OfJob, on: date, kind: str, *, to_credit: Pence = 0) -> Row:
        """A row of a job, once so much has come to what stands to its customer's credit."""
        credit = self.credit.get(of.customer_id, 0) + to_credit
        self.credit[of.customer_id] = credit
        return {
            **dict.fromkeys(COLUMNS, ""),
            **dict.fromkeys(_SUMS, plain_pounds(0)),
            "date": on.isoformat(),
            "kind": kind,
            "job": of.ref,
            "customer": of.customer,
            "customer_kind": of.customer_kind,
            "deposit_asked": "yes" if of.deposit_asked else "no",
            "done": _day(of.done),
            "credit_after": plain_pounds(credit),
        }


@dataclass(slots=True)
class _Asked:
    """What an invoice asks for while the events are gone through."""

    label: str
    job: str
    """The reference of its job."""
    tax_point: date
    cis: Pence
    """What a contractor is to deduct of it."""
    unsettled: Pence = 0
    deducted: Pence = 0
    """What they did deduct."""

    def owed(self) -> str:
        """What is still to come in money, as a cell."""
        return plain_pounds(max(0, self.unsettled - max(0, self.cis - self.deducted)))


def ledger_rows(
    events: Sequence[Event], today: date, *, year: TaxYear | None = None
) -> tuple[Row, ...]:
    """The rows of a tax year's events, or of all, in the order in which they were recorded.

    What came in from 6 April to the end of each quarter that has begun comes last.
    """
    standing = _Standing()
    rows = [row for event in events for row in _rows_of(event, standing)]
    years = sorted({tax_year_of(date.fromisoformat(row["date"])) for row in rows})
    if year is not None:
        rows = [row for row in rows if date.fromisoformat(row["date"]) in year]
        years = [year]
    rows += _quarters(events, years, today)
    return tuple({**row, "row": str(at)} for at, row in enumerate(rows, start=1))


def _rows_of(event: Event, standing: _Standing) -> Iterator[Row]:
    match event:
        case Issued(document=Document(kind=DocumentKind.CREDIT_NOTE)):
            yield from _credited(event, standing)
        case Issued():
            yield from _invoiced(event, standing)
        case CameIn():
            yield _came_in(event, standing)
        case Moved():
            yield from _moves(event, standing)
        case GoneBack():
            yield _gone_back(event, standing)
        case GivenUp():
            yield _given_up(event, standing)


def _invoiced(event: Issued, standing: _Standing) -> Iterator[Row]:
    """A row for each rate of VAT that stands on it."""
    document, key = event.document, event.document.id or 0
    invoice = from_json(Invoice, document.snapshot)
    taken = invoice.deduction
    own = invoice.totals if taken is None else less(invoice.totals, taken.totals)
    terms = {each.rate: each.words for each in invoice.terms}
    asked = standing.invoices[key] = _Asked(
        document.label, event.of.ref, document.tax_point, document.cis
    )
    for each in own.vat:
        asked.unsettled += each.net + each.vat
        yield {
            **standing.row(event.of, document.issued_on, document.kind),
            **_vat_cells(each, registered=bool(invoice.seller.vat_number)),
            **_cis_cells(invoice.cis),
            "number": document.label,
            "terms": terms.get(each.rate, ""),
            "tax_point": document.tax_point.isoformat(),
            "refers": taken.label if taken else "",
            "owed_after": asked.owed(),
        }


def _credited(event: Issued, standing: _Standing) -> Iterator[Row]:
    """A row for each rate of VAT that something is taken off at."""
    note = from_json(CreditNote, event.document.snapshot)
    asked = standing.invoices[note.invoice_id]
    standing.falling.credit(note.totals.gross, note.totals.vat_whole)
    less_cis, materials = note.cis, note.materials or 0  # said once, in the first row of the note
    for each in note.totals.vat:
        if each.net or each.vat:
            asked.unsettled -= each.net + each.vat
            asked.cis, told, less_cis = asked.cis - less_cis, less_cis, 0
            yield {
                **standing.row(event.of, note.issued_on, event.document.kind),
                **_vat_cells(each, registered=bool(note.seller.vat_number)),
                "number": event.document.label,
                "materials_net": plain_pounds(materials),
                "cis": plain_pounds(told),
                "refers": note.invoice,
                "owed_after": asked.owed(),
                "reason": note.reason,
            }
            materials = 0


def _came_in(event: CameIn, standing: _Standing) -> Row:
    standing.payments[event.payment_id] = event
    kind = "on account" if event.on_account else "payment"
    brings = event.brings
    taxed = {} if brings is None else {"tax_point": event.on.isoformat(), **_parts_of(brings)}
    ahead, vat = (brings.gross, brings.vat_whole) if brings else (0, 0)
    standing.ahead.come(event.payment_id, event.on, event.pence, ahead, vat)
    return {
        **standing.row(event.of, event.on, kind, to_credit=event.pence),
        "number": event.number,
        "gross": plain_pounds(event.pence - event.cis),
        "cis": plain_pounds(event.cis),
        **taxed,
    }


def _parts_of(brings: VatTotals) -> Row:
    rates = [each.rate for each in brings.rated]
    rate = show_quantity(rates[0]) if len(rates) == 1 else ""
    return {
        "vat_rate": rate,
        "net": plain_pounds(brings.net),
        "vat": plain_pounds(brings.vat_whole),
    }


def _moves(event: Moved, standing: _Standing) -> Iterator[Row]:
    """One row; two where a credit note freed a part of it and another was taxed as it came."""
    held = standing.falling.held(event.payment_id)
    if not event.freed and held and standing.ahead.reaches(event.payment_id, event.pence):
        cis = min(event.cis, held)
        yield _moved(replace(event, pence=held, cis=cis), standing)
        event = replace(event, pence=event.pence - held, cis=event.cis - cis)
    yield _moved(event, standing)


def _moved(event: Moved, standing: _Standing) -> Row:
    pence = event.pence if event.freed else -event.pence
    kind = "free" if event.freed else "use"
    asked = standing.invoices[event.document_id]
    asked.unsettled += pence
    asked.deducted += -event.cis if event.freed else event.cis
    return {
        **standing.row(event.of, event.on, kind, to_credit=pence),
        **(_freed if event.freed else _used)(event, standing),
        "gross": plain_pounds(event.pence),
        "cis": plain_pounds(event.cis),
        "refers": standing.payments[event.payment_id].number,
        "allocated_to": asked.label,
        "owed_after": asked.owed(),
    }


def _freed(event: Moved, standing: _Standing) -> Row:
    """What the invoice bears itself again, of money that never came."""
    key, pence = event.payment_id, event.pence
    standing.falling.free(key, pence)
    again = standing.ahead.free(key, event.document_id, pence, gone=event.never_came)
    return _tax_cells(0, 0, again)


def _used(event: Moved, standing: _Standing) -> Row:
    """What of a credit note falls back as it pays an invoice, or is not taxed again with it."""
    asked, key, pence = standing.invoices[event.document_id], event.payment_id, event.pence
    on = asked.tax_point if asked.job == event.of.ref else event.on
    falls, vat = standing.falling.move(key, pence)
    taken = standing.ahead.use(key, event.document_id, pence, on)
    return _tax_cells(falls, vat, replace(taken, on=event.on) if falls else taken)


def _tax_cells(falls: Pence, vat: Pence, ahead: TaxMoved) -> Row:
    """What of a credit note falls back and what was taxed ahead, at the tax point of that."""
    pence, of_note = (falls, vat) if vat else (0, 0)
    pence, vat = pence + ahead.pence, of_note + ahead.vat
    if not pence:
        return {}
    cells = {"net": plain_pounds(pence - vat), "vat": plain_pounds(vat)}
    return {**cells, "tax_point": ahead.on.isoformat()}


def _gone_back(event: GoneBack, standing: _Standing) -> Row:
    """Of a mistake what was taxed ahead leaves the day on which it stood.

    Not where a credit note had freed a part of it: the VAT of a note falls back no earlier than
    the day of the mistake, and both are one sum.
    """
    entry, payment = event.entry, standing.payments[event.payment_id]
    mistake = entry.kind is DocumentKind.MISTAKE
    falls, vat = standing.falling.move(event.payment_id, entry.pence)
    if mistake:
        standing.falling.forget()
        ahead = standing.ahead.never_came(event.payment_id)
        ahead = replace(ahead, on=entry.on) if vat else ahead
    else:
        ahead = standing.ahead.pay_back(event.payment_id, entry.pence, entry.on)
    cis = payment.cis if mistake else 0
    return {
        **standing.row(event.of, entry.on, entry.kind, to_credit=-entry.pence),
        **_tax_cells(falls, vat, ahead),
        "number": event.number,
        "gross": plain_pounds(entry.pence - cis),
        "cis": plain_pounds(cis),
        "refers": payment.number,
        "reason": entry.reason,
    }


def _given_up(event: GivenUp, standing: _Standing) -> Row:
    """The VAT is what comes back of it, on the day on which it is written off."""
    entry = event.entry
    asked, back = standing.invoices[entry.document_id], entry.takes_back is not None
    asked.unsettled += entry.pence if back else -entry.pence
    return {
        **standing.row(event.of, entry.on, "free" if back else "write-off"),
        "net": plain_pounds(entry.pence - entry.vat),
        "vat": plain_pounds(entry.vat),
        "gross": plain_pounds(entry.pence),
        "tax_point": entry.on.isoformat() if entry.vat else "",
        "allocated_to": asked.label,
        "owed_after": asked.owed(),
        "reason": entry.reason,
    }


def _quarters(events: Sequence[Event], years: Sequence[TaxYear], today: date) -> Iterator[Row]:
    books = Books(money=tuple(_money_in(events)))
    for quarter in (quarter for year in years for quarter in year.quarters):
        if quarter.first <= today:
            totals = up_to(books, quarter)
            yield {
                **dict.fromkeys(COLUMNS, ""),
                **dict.fromkeys(_SUMS, plain_pounds(0)),
                "date": quarter.last.isoformat(),
                "kind": "quarter",
                "gross": plain_pounds(totals.income),
                "cis": plain_pounds(totals.cis),
            }


def _money_in(events: Sequence[Event]) -> Iterator[MoneyIn]:
    """What came and went back; a mistake leaves the quarter in which it stood."""
    back = [event for event in events if isinstance(event, GoneBack)]
    never = {each.payment_id for each in back if each.entry.kind is DocumentKind.MISTAKE}
    for each in events:
        if isinstance(each, CameIn) and each.payment_id not in never:
            money = each.pence - each.cis
            yield MoneyIn(each.on, money, "", each.of.customer, each.of.ref, each.cis)
    for each in back:
        if each.entry.kind is DocumentKind.REFUND:
            yield MoneyIn(each.entry.on, -each.entry.pence, "", each.of.customer, each.of.ref)


def _vat_cells(each: VatSum, *, registered: bool) -> Row:
    return {
        "vat_rate": show_quantity(each.rate) if registered else "",
        "net": plain_pounds(each.net),
        "vat": plain_pounds(each.vat),
        "gross": plain_pounds(each.net + each.vat),
    }


def _cis_cells(cis: Cis | None) -> Row:
    if cis is None:
        return {}
    return {
        "materials_net": plain_pounds(cis.materials_net),
        "materials_vat": plain_pounds(cis.materials_vat),
        "cis_rate": show_quantity(cis.rate),
        "cis": plain_pounds(cis.deducted),
    }


def _day(day: date | None) -> str:
    return day.isoformat() if day else ""
