"""The invoice for the work and the one for a deposit, with everything that is printed on them.

What VAT Regulations 1995 reg. 14(1) asks of a registered trader is all here: number, time of
supply, date of issue, the supplier's name, address and VAT number, the customer's name and address,
and for each line words, quantity, unit price, rate and net, then net, and VAT in sterling. What is
supplied is the work on a roof as a whole, so most lines are one job each.
"""

from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal

from domain.accounts.agreed import Agreed, AgreedTerms, agreed_sums, less_deposit, sums_of
from domain.accounts.cis import NOTHING_PAID, Cis, at_cost, cis_on, is_inside
from domain.accounts.credit_used import credit_used
from domain.accounts.paid_ahead import Ahead, taxed_before, untaxed_ahead
from domain.accounts.vat_since import (
    ASKED_FIRST,
    as_if_rated,
    asks_for_vat_terms,
    bears_no_vat,
    vat_words,
    without_vat_on,
)
from domain.books.margin import Paid
from domain.errors import NotNow
from domain.estimate.quoting import option_total
from domain.estimate.scope import DEPOSIT, Item
from domain.estimate.work_in_words import work_in_words
from domain.job import Document, DocumentKind, ExtraState, Job, Option, Stage, VatTerms
from domain.look import Look
from domain.money import Pence
from domain.snapshot import from_json, to_json
from domain.tax import VatSum, VatTotals, added_up, less, part_of
from domain.trader import Trader

_INVOICED_IN_TIME = timedelta(days=14)


@dataclass(frozen=True, slots=True)
class Seller:
    """The trader's name, address and numbers, as the invoice shows them."""

    heading: str
    """The name the paper is headed with."""
    name: str
    address: str
    phone: str
    email: str
    vat_number: str
    """Empty if not registered."""
    bank_name: str
    sort_code: str
    account: str
    look: Look = field(default_factory=Look)


@dataclass(frozen=True, slots=True)
class Buyer:
    """The customer's name and address, as the invoice shows them."""

    name: str
    address: str


@dataclass(frozen=True, slots=True)
class Deduction:
    """The deposit invoice that an invoice takes off what it asks for."""

    label: str
    """Its number as people write it."""
    issued_on: date
    totals: VatTotals

    @property
    def untaxed(self) -> Pence:
        """What it asked for without VAT."""
        return sum(each.net for each in self.totals.vat if not each.rate)


@dataclass(frozen=True, slots=True)
class Invoice:
    """An invoice as it is issued; it never changes afterwards, whatever becomes of the rates."""

    kind: DocumentKind
    number: int
    issued_on: date
    tax_point: date
    due_on: date
    seller: Seller
    buyer: Buyer
    ref: str
    """The job's reference."""
    place: str
    """Where the roof is: its address in a line, or what the place is called."""
    lines: tuple[Item, ...]
    totals: VatTotals
    """Of the whole of the lines."""
    deduction: Deduction | None = None
    done_on: date | None = None
    """When the roof was laid; None for a deposit, which comes before it."""
    roof: str = ""
    """Which roof it is: the building, its form and size; empty on an older invoice."""

    credit: Pence = 0
    """What stood to the customer's credit, and settles this much of it from the first."""
    cis: Cis | None = None
    """What a contractor deducts; None outside CIS."""
    terms: tuple[AgreedTerms, ...] = ()
    """From which agreed sums it was reckoned, by rate; none on an older invoice."""
    vat_words: str = ""
    """What is said of VAT where the trader registered for it after the price was agreed."""
    credit_cis: Pence = 0
    """What of the credit a contractor deducted already, and need not deduct of this."""
    taxed_ahead: tuple[Ahead, ...] = ()
    """What of the credit had its own tax point, before that of the invoice."""

    @property
    def due(self) -> Pence:
        """What it asks for: the whole, less what the deposit invoice asked for already."""
        return self.totals.gross - (self.deduction.totals.gross if self.deduction else 0)

    @property
    def paid_before(self) -> Pence:
        """The money that had come and settles some of it: what was deducted is with its CIS."""
        return self.credit - self.credit_cis

    @property
    def to_pay(self) -> Pence:
        """What is left to pay on the day it is issued, less what a contractor deducts."""
        return max(0, self.due - self.paid_before - (self.cis.deducted if self.cis else 0))

    def document(self) -> Document:
        """The numbered document to record."""
        return Document(
            kind=self.kind,
            number=self.number,
            issued_on=self.issued_on,
            tax_point=self.tax_point,
            due_on=self.due_on,
            gross=self.due,
            snapshot=to_json(self),
            cis=self.cis.deducted if self.cis else 0,
        )


def invoice_for(
    job: Job,
    trader: Trader,
    number: int,
    issued_on: date,
    paid: Paid = NOTHING_PAID,
    cost: Pence | None = None,
) -> Invoice:
    """The invoice for the work: the accepted quote and the extras, less a deposit invoice.

    To a contractor with the materials at what was ``paid``, or at the ``cost`` that the trader
    says. Extras that are not charged are named at nil. Raises :class:`NotNow` before the roof is
    laid, for a job that was closed before, when it is invoiced already, while an extra is not
    agreed, or when the trader's details or the quote do not allow it.
    """
    _demand_open(job)
    if job.stage.rank < Stage.LAID.rank or job.laying is None:
        raise NotNow("You cannot invoice until the roof is laid: fill in the laying page first.")
    if job.invoice is not None:
        raise NotNow(f"This job has been invoiced: {job.invoice.label}.")
    option = accepted_option(job, trader)
    _demand_settled(job)
    deposit = deduction_of(job, job.deposit_invoice) if job.deposit_invoice else None
    agreed = agreed_in_all(job, option, trader, deposit, issued_on)
    cis = cis_on(job, agreed.totals, trader, issued_on, paid, cost)
    terms = agreed.terms
    if deposit is not None:
        terms = less_deposit(terms, deposit.totals, with_vat=job.customer.is_householder)
    invoice = Invoice(
        kind=DocumentKind.INVOICE,
        number=number,
        issued_on=issued_on,
        tax_point=_tax_point(job, job.laying.on, issued_on),
        due_on=issued_on + timedelta(days=trader.days_to_pay),
        seller=seller_of(trader),
        buyer=buyer_of(job),
        ref=job.ref,
        place=job.site.on_a_line,
        lines=agreed.lines if cis is None else at_cost(agreed.lines, cis.materials),
        totals=agreed.totals,
        deduction=deposit,
        done_on=job.laying.on,
        roof=work_in_words(job).roof,
        cis=cis,
        terms=terms,
        vat_words=vat_words(job) if bears_no_vat(job, trader) else "",
    )
    return less_credit(invoice, job)


def agreed_in_all(
    job: Job, option: Option, trader: Trader, deposit: Deduction | None, on: date
) -> Agreed:
    """What was agreed; with VAT inside or added where the trader registered after the quote.

    What a deposit invoice asked for before that stays without VAT, as does what was paid.
    """
    if not bears_no_vat(job, trader) or job.vat_terms is None:
        return agreed_sums(job, option, registered=trader.vat_registered)
    rated, its_option = as_if_rated(job, option, on)
    inside = job.vat_terms is VatTerms.INSIDE
    agreed = agreed_sums(rated, its_option, registered=True, inclusive=inside)
    before = untaxed_before(job, trader, deposit)
    householder = job.customer.is_householder
    return without_vat_on(agreed, before, job.vat_terms, householder=householder)


def untaxed_before(job: Job, trader: Trader, deposit: Deduction | None) -> Pence:
    """What of the work was invoiced or paid before the trader registered for VAT.

    No less than its deposit invoice asked for without VAT, whatever became of the money since.
    """
    if not bears_no_vat(job, trader):
        return 0
    document = job.deposit_invoice if deposit else None
    if document is None or deposit is None:
        return untaxed_ahead(job)
    if from_json(Invoice, document.snapshot).seller.vat_number:
        return max(deposit.untaxed, untaxed_ahead(job, document.id))
    return deposit.untaxed + untaxed_ahead(job)


def deposit_invoice_for(job: Job, trader: Trader, number: int, issued_on: date) -> Invoice:
    """The invoice for the deposit that the accepted quote asks for, with a tax point of its own.

    The deposit is VAT-inclusive. Raises :class:`NotNow` if there is none to ask for, or it or the
    work is invoiced already.
    """
    _demand_open(job)
    option = accepted_option(job, trader)
    if job.invoice is not None or job.deposit_invoice is not None:
        raise NotNow("Already invoiced (deposit or full).")
    if is_inside(job):
        raise NotNow(
            "A contractor inside CIS is asked for no deposit: the deduction is worked out once, "
            "on the invoice for the work."
        )
    asked = job.quote.deposit if job.quote else 0
    if not asked:
        raise NotNow("The accepted quote asks for no deposit.")
    untaxed = min(asked, untaxed_before(job, trader, None))
    part = part_of(total_agreed(job, option, trader, issued_on), asked - untaxed)
    if untaxed:
        part = added_up((*part.vat, VatSum(Decimal(0), untaxed, 0)))
    words = f"Deposit for the roof at {job.site.place}"
    invoice = for_a_part(job, trader, part, words, number, issued_on)
    return less_credit(replace(invoice, kind=DocumentKind.DEPOSIT), job)


def total_agreed(job: Job, option: Option, trader: Trader, on: date) -> VatTotals:
    """What the accepted covering comes to; with VAT as was said where the trader registered since.

    Raises :class:`NotNow` until that is said.
    """
    rated = as_if_rated(job, option, on)[1] if bears_no_vat(job, trader) else option
    return option_total(rated)


def for_a_part(
    job: Job, trader: Trader, part: VatTotals, words: str, number: int, on: date
) -> Invoice:
    """An invoice of ``on`` for a part of what was agreed, in one line a rate."""
    return Invoice(
        kind=DocumentKind.INVOICE,
        number=number,
        issued_on=on,
        tax_point=on,
        due_on=on + timedelta(days=trader.days_to_pay),
        seller=seller_of(trader),
        buyer=buyer_of(job),
        ref=job.ref,
        place=job.site.on_a_line,
        lines=tuple(Item(words, Decimal(1), DEPOSIT, s.net, s.rate) for s in part.vat),
        totals=part,
        roof=work_in_words(job).roof,
        terms=sums_of(part, with_vat=job.customer.is_householder),
        vat_words=vat_words(job) if bears_no_vat(job, trader) else "",
    )


def seller_of(trader: Trader) -> Seller:
    """The trader as papers show them. Raises :class:`NotNow` naming what the details still lack."""
    wanted = {"name": trader.name, "address": trader.address}
    wanted |= {"sort code": trader.sort_code, "account number": trader.account}
    if trader.vat_registered:
        wanted["VAT number"] = trader.vat_number
    lacking = [words for words, value in wanted.items() if not value.strip()]
    if lacking:
        raise NotNow(f"Missing from your details (needed on the invoice): {', '.join(lacking)}.")
    return as_seller(trader)


def as_seller(trader: Trader) -> Seller:
    """The trader as papers show them, whatever the details lack."""
    return Seller(
        heading=trader.heading,
        name=trader.name,
        address=trader.address,
        phone=trader.phone,
        email=trader.email,
        vat_number=trader.vat_number if trader.vat_registered else "",
        bank_name=trader.bank_name or trader.name,
        sort_code=trader.sort_code,
        account=trader.account,
        look=trader.look,
    )


def buyer_of(job: Job) -> Buyer:
    """The customer as papers show them; without an address of their own, at the roof's."""
    return Buyer(job.customer.name, job.customer.address or job.site.address)


def accepted_option(job: Job, trader: Trader) -> Option:
    """The option the customer took, its VAT still right for the trader; raises NotNow."""
    option = job.quote.accepted if job.quote else None
    if option is None:
        raise NotNow("No quote has been accepted yet, so there is nothing to invoice.")
    if asks_for_vat_terms(job, trader):
        raise NotNow(ASKED_FIRST)
    if not trader.vat_registered and option_total(option).rated:
        raise NotNow(
            "The accepted quote bears VAT, and you are no longer registered for it: make a new "
            "version on the quote page and record that they accept it, then invoice."
        )
    if trader.vat_registered and not buyer_of(job).address:
        raise NotNow("A VAT invoice needs the customer's address: add it on the enquiry page.")
    return option


def _demand_open(job: Job) -> None:
    """Raise :class:`NotNow` for a job that was closed: it ends before the roof is laid."""
    if job.ended is not None:
        raise NotNow(
            f"The job was {job.ended}. What was done of it is invoiced while closing it: reopen "
            "it, and close it again with what you keep."
        )


def _demand_settled(job: Job) -> None:
    """Raise :class:`NotNow` while extras are open, each by its name."""
    still_open = [extra.words for extra in job.extras if extra.state is ExtraState.OPEN]
    if still_open:
        named = "; ".join(still_open)
        raise NotNow(f"Extras still to agree, or to mark as not charged: {named}.")


def less_credit(invoice: Invoice, job: Job) -> Invoice:
    """The invoice with what stands to the customer's credit, as far as it asks for so much."""
    used = credit_used(job, invoice.document())
    return replace(
        invoice,
        credit=sum(part.pence for _, part in used),
        credit_cis=sum(part.cis for _, part in used),
        taxed_ahead=taxed_before(job, {key: part.pence for key, part in used}, invoice.tax_point),
    )


@dataclass(frozen=True, slots=True)
class _TakenOff:
    """What is read here of a credit note."""

    totals: VatTotals


def deduction_of(job: Job, deposit: Document) -> Deduction:
    """What the deposit's invoice asks for, less what is credited on it: with the rest the whole."""
    totals = from_json(Invoice, deposit.snapshot).totals
    for note in job.documents:
        if note.refers_to is not None and note.refers_to == deposit.id:
            totals = less(totals, from_json(_TakenOff, note.snapshot).totals)
    return Deduction(deposit.label, deposit.issued_on, totals)


def _tax_point(job: Job, done_on: date, issued_on: date) -> date:
    """The day that brings what the invoice asks for to tax.

    Where the agreement asks for a deposit and then for the rest, each part is supplied when it is
    paid or invoiced, never on the day of the work (VAT Regulations 1995 reg. 93(1), and HMRC's
    VATTOS9110: read). With one payment for the whole it is the day of an invoice issued within 14
    days of the work, otherwise the day of the work (VAT Act 1994 s. 6(5), read in HMRC's manual
    VATTOS2230).
    """
    if job.quote is not None and job.quote.deposit:
        return issued_on
    return issued_on if issued_on <= done_on + _INVOICED_IN_TIME else done_on
