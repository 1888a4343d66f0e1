"""The credit note: what an invoice asked for too much, taken off under a number of its own.

VAT Regulations 1995 reg. 15C(3) asks of such a note its number and date, both names and addresses,
the supplier's VAT number, number and date of the invoice, what it is for, and the sums with their
VAT (read for the debit note; that the credit note's list is the same, from memory).
"""

from collections import defaultdict
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from domain.accounts.cis import Cis
from domain.accounts.invoice import Buyer, Invoice, Seller, buyer_of, seller_of
from domain.errors import NotNow, Refused
from domain.estimate.scope import Item
from domain.job import Allocation, Document, DocumentKind, Job
from domain.money import Pence, apportion, share, show_money
from domain.snapshot import from_json, to_json
from domain.tax import VatSum, VatTotals, added_up, less, vat_in
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class Credited:
    """What is asked of the book: off which invoice, how much with its VAT, and why."""

    document_id: int
    pence: Pence
    reason: str
    materials: bool = False
    """Whether it takes off materials at cost, where a contractor deducts; else it is labour."""
    line: int | None = None
    """The place of the line that it takes off from, from 0; None for a sum of the whole."""


@dataclass(frozen=True, slots=True)
class CreditNote:
    """A credit note as it is issued."""

    number: int
    issued_on: date
    seller: Seller
    buyer: Buyer
    ref: str
    """The job's reference."""
    place: str
    """Where the roof is: its address in a line, or what the place is called."""
    invoice: str
    """The number of the invoice, as people write it."""
    invoice_id: int
    invoiced_on: date
    reason: str
    totals: VatTotals
    """What is taken off."""
    left: Pence
    """What the invoice asks for afterwards, whatever was paid on it."""
    cis: Pence = 0
    """By how much what a contractor deducts of it becomes less."""
    materials: Pence | None = None
    """What of the net is materials at cost; None outside CIS, and on an older note."""
    line: int | None = None
    """The place on the invoice of the line that it takes off from; None for a sum of the whole."""
    of_line: str = ""
    """The words of that line."""

    def document(self) -> Document:
        """The numbered document to record; it asks for nothing."""
        return Document(
            kind=DocumentKind.CREDIT_NOTE,
            number=self.number,
            issued_on=self.issued_on,
            tax_point=self.issued_on,
            due_on=self.issued_on,
            gross=self.totals.gross,
            snapshot=to_json(self),
            refers_to=self.invoice_id,
            cis=self.cis,
        )


def credit_note(
    job: Job, credited: Credited, trader: Trader, number: int, issued_on: date
) -> CreditNote:
    """The credit note for a sum off an invoice of the job.

    The sum is VAT-inclusive. Raises :class:`NotNow` if it is no invoice, nothing of it is left to
    credit, or a last invoice builds on the deposit's; :class:`Refused` for no sum, for more than
    is left or is left of its line, for more materials than are left, and without a reason.
    """
    invoice = invoice_of(job, credited.document_id)
    if not credited.reason.strip():
        raise Refused("reason", "", "Say what was wrong, such as 2 m of boards too many.")
    rest = left_of(job, invoice)
    if not rest.gross:
        raise NotNow(f"{invoice.label} is credited in full already.")
    if invoice.kind is DocumentKind.DEPOSIT and job.invoice is not None:
        raise NotNow(f"{job.invoice.label} takes the deposit off: credit that one instead.")
    open_of_it = rest.gross - invoice.written_off
    if not open_of_it:
        raise NotNow(f"{invoice.label} is written off: cancel that first.")
    if not 0 < credited.pence <= open_of_it:
        most = show_money(open_of_it)
        raise Refused(
            "amount", show_money(credited.pence), f"Give {most} or less: so much is left."
        )
    line = None if credited.line is None else _line_of(job, invoice, credited)
    taken = part_credited(rest if line is None else _at_rate_of(line, rest), credited.pence)
    materials = _materials(job, invoice, taken.net) if credited.materials else 0
    return CreditNote(
        number=number,
        issued_on=issued_on,
        seller=seller_of(trader),
        buyer=buyer_of(job),
        ref=job.ref,
        place=job.site.on_a_line,
        invoice=invoice.label,
        invoice_id=invoice.id or 0,
        invoiced_on=invoice.issued_on,
        reason=credited.reason,
        totals=taken,
        left=rest.gross - credited.pence,
        cis=_deducted_less(job, invoice, less(rest, taken), materials),
        materials=None if _cis_of(invoice) is None else materials,
        line=credited.line,
        of_line="" if line is None else line.item.words,
    )


@dataclass(frozen=True, slots=True)
class LineLeft:
    """A line of an invoice of which something is left to credit."""

    at: int
    """Its place on the invoice, from 0."""
    item: Item
    left: Pence
    """What of it is not credited yet, its VAT included: on its net, as far as so much is left."""


def lines_left(job: Job, invoice: Document) -> tuple[LineLeft, ...]:
    """The lines of an invoice that can be credited, none of them with more than its rate has left.

    What was credited as a sum is off no line. The last line at a rate takes its last pennies.
    """
    items, rest = from_json(Invoice, invoice.snapshot).lines, left_of(job, invoice)
    credited: dict[int | None, Pence] = defaultdict(int)
    for note in _notes_of(job, invoice):
        credited[note.line] += note.totals.gross
    found = []
    for each in rest.vat:
        of_rate = [at for at, item in enumerate(items) if item.vat_rate == each.rate]
        lefts = {
            at: items[at].net + share(items[at].net, each.rate) - credited[at] for at in of_rate
        }
        still = {at: left for at, left in lefts.items() if left > 0}
        whole = each.net + each.vat
        for at, left in still.items():
            is_last = len(still) == 1 and abs(whole - left) <= len(of_rate)
            found.append(LineLeft(at, items[at], whole if is_last else min(left, whole)))
    return tuple(sorted((each for each in found if each.left > 0), key=lambda each: each.at))


def _line_of(job: Job, invoice: Document, credited: Credited) -> LineLeft:
    """The line that is credited. Raises :class:`Refused` for more than is left of it."""
    lines = lines_left(job, invoice)
    line = next((each for each in lines if each.at == credited.line), None)
    if line is None:
        raise Refused("line", "", "All of that line is credited: choose another, or a sum.")
    if credited.pence > line.left:
        words = f"Give {show_money(line.left)} or less: so much is left of that line."
        raise Refused("amount", show_money(credited.pence), words)
    return line


def _at_rate_of(line: LineLeft, rest: VatTotals) -> VatTotals:
    return added_up(tuple(each for each in rest.vat if each.rate == line.item.vat_rate))


def _notes_of(job: Job, invoice: Document) -> list[CreditNote]:
    return [
        from_json(CreditNote, note.snapshot)
        for note in job.documents
        if note.kind is DocumentKind.CREDIT_NOTE and note.refers_to == invoice.id
    ]


@dataclass(frozen=True, slots=True)
class Effect:
    """What a credit does to its invoice, told before it is issued."""

    left: Pence
    """What the invoice then comes to."""
    cis: Pence
    """By how much a contractor deducts less."""
    owed: Pence
    """The money still to come of it."""
    credit: Pence
    """What of the money that came it frees."""


def effect_of_credit(job: Job, note: CreditNote) -> Effect:
    """Tell what a credit note would do; ``job`` is as it stands before."""
    invoice = invoice_of(job, note.invoice_id)
    parts = [part for _, part in freed_by(job, invoice, note)]
    freed, deducted = sum(each.pence for each in parts), sum(each.cis for each in parts)
    after = replace(
        invoice,
        credited=invoice.credited + note.totals.gross,
        cis_credited=invoice.cis_credited + note.cis,
        paid=invoice.paid - freed,
        deducted=invoice.deducted - deducted,
    )
    return Effect(note.left, note.cis, after.owed, freed - deducted)


def invoice_of(job: Job, document_id: int) -> Document:
    """Return an invoice of a job. Raises :class:`NotNow` if it has none of that number."""
    found = next((d for d in job.documents if d.id == document_id and d.kind.asks), None)
    if found is None:
        raise NotNow("Choose an invoice of this job.")
    return found


def left_of(job: Job, invoice: Document) -> VatTotals:
    """What an invoice asks for by rate, less what its credit notes took off."""
    asked = from_json(Invoice, invoice.snapshot)
    own = asked.totals if asked.deduction is None else less(asked.totals, asked.deduction.totals)
    for note in _notes_of(job, invoice):
        own = less(own, note.totals)
    return own


def part_credited(rest: VatTotals, gross: Pence) -> VatTotals:
    """Net and VAT of a sum credited out of what is left of an invoice.

    It bears the VAT fraction, never more VAT or net than is left at a rate, and the credit that
    takes the last penny takes the last VAT.
    """
    exact = [Decimal(gross) * (s.net + s.vat) / rest.gross for s in rest.vat]
    sums = []
    for each, part in zip(rest.vat, apportion(exact), strict=True):
        # No more net than is left means at least so much VAT.
        vat = min(max(vat_in(part, each.rate), part - each.net), each.vat)
        sums.append(VatSum(each.rate, part - vat, vat))
    return VatTotals(sum(s.net for s in sums), tuple(sums), gross)


def freed_by(job: Job, invoice: Document, note: CreditNote) -> tuple[tuple[int, Allocation], ...]:
    """What a credit frees of the money allocated to an invoice: (payment's id, part) each.

    It is what is then paid over, the last payment first; it stands to the customer's credit. What
    was deducted of it goes with it, so far as the invoice no longer bears that.
    """
    deduction = invoice.cis - invoice.cis_credited - note.cis
    over = max(0, deduction - invoice.deducted) - (invoice.unsettled - note.totals.gross)
    too_much = max(0, invoice.deducted - deduction)
    parts = []
    for payment_id, standing in _allocated(job, invoice):
        part = min(over, standing.pence)
        if part > 0:
            stays = standing.pence - part
            cis = max(min(too_much, part, standing.cis), standing.cis - stays)
            parts.append((payment_id, Allocation(invoice.id or 0, part, cis)))
            over, too_much = over - part, max(0, too_much - cis)
    return tuple(parts)


def _deducted_less(job: Job, invoice: Document, left: VatTotals, materials: Pence) -> Pence:
    """By how much a contractor deducts less of an invoice, once so much is left of it.

    The deduction is worked out anew, on what is left after the materials at cost, of which
    ``materials`` are credited.
    """
    cis = _cis_of(invoice)
    if cis is None:
        return 0
    anew = share(max(0, left.net - (_materials_left(job, invoice) - materials)), cis.rate)
    return max(0, invoice.cis - invoice.cis_credited - anew)


def _cis_of(invoice: Document) -> Cis | None:
    return from_json(Invoice, invoice.snapshot).cis


def _materials(job: Job, invoice: Document, net: Pence) -> Pence:
    """What of a credit of materials is materials: all of it, and no more than is left of them.

    Raises :class:`NotNow` of an invoice from which no contractor deducts.
    """
    if _cis_of(invoice) is None:
        raise NotNow(f"No contractor deducts anything of {invoice.label}.")
    left = _materials_left(job, invoice)
    if net > left:
        words = f"Give less, or choose labour: {show_money(left)} of it is materials at cost."
        raise Refused("amount", show_money(net), words)
    return net


def _materials_left(job: Job, invoice: Document) -> Pence:
    """The materials at cost on an invoice, less those that its credit notes took off."""
    cis = _cis_of(invoice)
    off = (note.materials or 0 for note in _notes_of(job, invoice))
    return 0 if cis is None else cis.materials - sum(off)


def _allocated(job: Job, invoice: Document) -> list[tuple[int, Allocation]]:
    """What stands allocated to an invoice by payment, the last first."""
    own = [(each.id or 0, part) for each in job.payments for part in each.standing]
    parts = sorted((*own, *job.paid_elsewhere), key=lambda each: each[0], reverse=True)
    return [(payment, part) for payment, part in parts if part.document_id == invoice.id]
