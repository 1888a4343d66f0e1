"""Invoices, payments and what puts them right: numbered in the transaction that issues them."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date

from domain.accounts.chasing import chase_words, demand_owed
from domain.accounts.cis import NOTHING_PAID, is_inside
from domain.accounts.counter_entries import GivenBack, counter_note, payment_of
from domain.accounts.credit_note import Credited, credit_note, freed_by, invoice_of
from domain.accounts.credit_used import credit_used
from domain.accounts.invoice import Invoice, deposit_invoice_for, invoice_for
from domain.accounts.receipt import allocations_for, demand_after_enquiry, receipt_for
from domain.accounts.transfer import OpenInvoice, demand_open
from domain.accounts.vat_since import demand_terms
from domain.accounts.write_off import GivenUp, taken_back, write_off
from domain.errors import NotNow
from domain.job import (
    Allocation,
    Chase,
    CounterEntry,
    Document,
    DocumentKind,
    Job,
    Outgoing,
    Payment,
    Received,
    ToSend,
    VatTerms,
    WriteOff,
)
from domain.money import Pence, show_money
from domain.trader import Trader
from storage.books_read import read_paid
from storage.database import Database, JobTransaction
from storage.mapping.codec import cells_of
from storage.owing_read import read_owing
from storage.queries import read_job, read_trader
from storage.rows import (
    AllocationRow,
    ChaseRow,
    CounterEntryRow,
    DocumentRow,
    FreedRow,
    PaymentRow,
    StatementRow,
    ToSendRow,
    WriteOffRow,
)
from storage.tables import Tables

_KIND = """
    SELECT kind FROM job JOIN site ON site.id = job.site_id
    JOIN customer ON customer.id = site.customer_id WHERE job.id = ?
"""
_OF_VAT = ("vat_terms", "vat_agreed_on")
_NOT_OF_VAT = tuple(name for name in Job.__dataclass_fields__ if name not in _OF_VAT)
_Draw = Callable[[Job, Trader, int, date, Tables], Invoice]


class AccountActions(Database):
    """What is asked for and what came in."""

    def issue_invoice(self, job: Job, issued_on: date, cost: Pence | None = None) -> Job:
        """Issue the invoice for the work; it waits to be sent.

        To a contractor with the materials at ``cost``; None: at what was paid for them. Raises
        :class:`NotNow` while it cannot be.
        """

        def draw(now: Job, trader: Trader, number: int, on: date, tables: Tables) -> Invoice:
            paid = read_paid(tables, now.id) if is_inside(now) else NOTHING_PAID
            return invoice_for(now, trader, number, on, paid, cost)

        return self._issued(job, issued_on, "invoice issued", draw)

    def issue_deposit_invoice(self, job: Job, issued_on: date) -> Job:
        """Issue the invoice for the deposit. Raises :class:`NotNow` while it cannot be."""

        def draw(now: Job, trader: Trader, number: int, on: date, _: Tables) -> Invoice:
            return deposit_invoice_for(now, trader, number, on)

        return self._issued(job, issued_on, "deposit invoice issued", draw)

    def record_payment(self, job: Job, received: Received) -> Job:
        """Record money that came in, for an invoice or before any, and give a receipt.

        One transfer for several jobs names its shares. What exceeds an invoice goes where
        :func:`domain.accounts.receipt.allocations_for` says, which also says what is refused, as do
        :func:`domain.accounts.receipt.demand_after_enquiry` and
        :func:`domain.accounts.transfer.demand_open`.
        """
        demand_after_enquiry(job, received.on)
        with self._on_job(job, f"payment of {show_money(received.pence)} recorded") as work:
            settles = received.pence + received.cis
            owing = read_owing(work.tables, job.customer.id) if received.shares else ()
            demand_open(owing, received.shares)
            put = received.shares or allocations_for(
                job, received.document_id, settles, received.cis
            )
            payment = Payment(received.on, settles, received.method, put, cis=received.cis)
            of_others = ("allocations", "freed", "counter_entries", "statement_on")
            cells = cells_of(payment, "id", *of_others)
            kept = work.key_of(PaymentRow(job_id=work.job_id, **cells))
            for part in payment.allocations:
                work.add(AllocationRow(payment_id=kept, **cells_of(part)))
            trader, number = read_trader(work.tables), next_number(work, DocumentKind.RECEIPT)
            others = [each.document for each in owing if each.job_id != job.id]
            receipt = receipt_for(job, payment, trader, number, received.on, others)
            _keep(work, receipt.document())
            return read_job(work.tables, work.job_id)

    def give_back(self, job: Job, back: GivenBack, today: date) -> Job:
        """Cancel a payment as a mistake, or pay part of it back; a note of today says so.

        :func:`domain.accounts.counter_entries.counter_note` says what is refused.
        """
        with self._on_job(job, _given_back(back)) as work:
            now = read_job(work.tables, work.job_id)
            trader, number = read_trader(work.tables), next_number(work, back.kind)
            note = counter_note(now, back, trader, number, today)
            if back.kind is DocumentKind.MISTAKE:
                standing = payment_of(now, back.payment_id).standing
                _free(work, ((back.payment_id, part) for part in standing))
            key = _keep(work, note.document())
            entry = CounterEntry(back.kind, back.on, back.pence, back.reason, key)
            cells = cells_of(entry, "id")
            work.add(CounterEntryRow(job_id=work.job_id, payment_id=back.payment_id, **cells))
            return read_job(work.tables, work.job_id)

    def credit(self, job: Job, credited: Credited, today: date) -> Job:
        """Issue a credit note of today; what was paid of it stands to the customer's credit.

        :func:`domain.accounts.credit_note.credit_note` says what is refused.
        """
        with self._on_job(job, f"{show_money(credited.pence)} credited") as work:
            write_credit(work, read_job(work.tables, work.job_id), credited, today)
            return read_job(work.tables, work.job_id)

    def say_vat_terms(self, job: Job, terms: VatTerms, agreed_on: date | None) -> Job:
        """Record how VAT stands to a price that was agreed before the trader registered for it.

        :func:`domain.accounts.vat_since.demand_terms` says what is refused.
        """
        with self._on_job(job, f"VAT {terms}") as work:
            now = read_job(work.tables, work.job_id)
            demand_terms(now, read_trader(work.tables), terms, agreed_on)
            told = replace(now, vat_terms=terms, vat_agreed_on=agreed_on)
            work.change(work.row, **cells_of(told, *_NOT_OF_VAT))
            return read_job(work.tables, work.job_id)

    def owing(self, customer_id: int) -> tuple[OpenInvoice, ...]:
        """Return every invoice of a customer's on which something is owed, of whichever job."""
        with self._reading() as session:
            return read_owing(Tables(session), customer_id)

    def write_off(self, job: Job, given_up: GivenUp) -> Job:
        """Give up what is owed on an invoice: :func:`domain.accounts.write_off.write_off`."""
        return self._written(job, given_up, "written off", write_off)

    def take_back_write_off(self, job: Job, given_up: GivenUp) -> Job:
        """Have it owed again: :func:`domain.accounts.write_off.taken_back` has the rule."""
        return self._written(job, given_up, "owed again, no longer written off", taken_back)

    def _written(
        self, job: Job, given_up: GivenUp, what: str, rule: Callable[[Job, GivenUp], WriteOff]
    ) -> Job:
        label = next((each.label for each in job.documents if each.id == given_up.document_id), "")
        with self._on_job(job, f"{label} {what}") as work:
            entry = rule(read_job(work.tables, work.job_id), given_up)
            work.add(WriteOffRow(job_id=work.job_id, **cells_of(entry, "id")))
            return read_job(work.tables, work.job_id)

    def tick_statement(self, job: Job, payment_id: int, on: date) -> Job:
        """Record that the statement of what was deducted from a payment came.

        Raises :class:`NotNow` where none is awaited for it.
        """
        with self._on_job(job, "statement of deduction came") as work:
            payment = payment_of(read_job(work.tables, work.job_id), payment_id)
            if not payment.wants_statement:
                raise NotNow("No statement of deduction is awaited for that payment.")
            work.add(StatementRow(payment_id=payment_id, job_id=work.job_id, on=on.isoformat()))
            return read_job(work.tables, work.job_id)

    def chase(self, job: Job, chase: Chase) -> Job:
        """Record a reminder, or a promise to pay: :func:`demand_owed` has the rule."""
        with self._on_job(job, chase_words(job, chase)) as work:
            demand_owed(read_job(work.tables, work.job_id), chase)
            work.add(ChaseRow(job_id=work.job_id, **cells_of(chase, "id")))
            return read_job(work.tables, work.job_id)

    def _issued(self, job: Job, issued_on: date, what: str, draw: _Draw) -> Job:
        with self._on_job(job, what) as work:
            number = next_number(work, DocumentKind.INVOICE)
            now = read_job(work.tables, work.job_id)
            invoice = draw(now, read_trader(work.tables), number, issued_on, work.tables)
            keep_invoice(work, now, invoice)
            return read_job(work.tables, work.job_id)


def keep_invoice(work: JobTransaction, job: Job, invoice: Invoice) -> None:
    """Write an invoice, and what of the customer's credit settles it; it waits to be sent."""
    document = invoice.document()
    document = replace(document, id=_keep(work, document))
    for payment_id, part in credit_used(job, document):
        work.add(AllocationRow(payment_id=payment_id, **cells_of(part)))
    waits = ToSend(Outgoing.INVOICE, invoice.number)
    work.add(ToSendRow(job_id=work.job_id, **cells_of(waits, "id")))


def write_credit(work: JobTransaction, job: Job, credited: Credited, today: date) -> None:
    """Write a credit note of today; ``job`` is as it stands. Raises as :func:`credit_note` does."""
    number = next_number(work, DocumentKind.CREDIT_NOTE)
    note = credit_note(job, credited, read_trader(work.tables), number, today)
    _free(work, freed_by(job, invoice_of(job, credited.document_id), note))
    _keep(work, note.document())


def _given_back(back: GivenBack) -> str:
    """What the history calls it."""
    if back.kind is DocumentKind.MISTAKE:
        return f"payment of {show_money(back.pence)} cancelled"
    return f"{show_money(back.pence)} paid back"


def _series(kind: DocumentKind) -> DocumentKind:
    """The series that a kind is numbered in: deposit invoices are invoices."""
    return DocumentKind.INVOICE if kind.asks else kind


def next_number(work: JobTransaction, kind: DocumentKind) -> int:
    """Return the number after the highest of a series; the transaction holds it for us alone."""
    wanted = "SELECT max(number) FROM document WHERE series = ?"
    return int(work.tables.first(wanted, _series(kind).value) or 0) + 1


def _keep(work: JobTransaction, document: Document) -> int:
    """Write a document, and return its number in the table."""
    worked_out = ("paid", "credited", "written_off", "cis_credited", "deducted")
    cells = cells_of(document, "id", *worked_out)
    series, kind = _series(document.kind).value, work.tables.first(_KIND, work.job_id)
    row = DocumentRow(job_id=work.job_id, series=series, customer_kind=str(kind), **cells)
    return work.key_of(row)


def _free(work: JobTransaction, parts: Iterable[tuple[int, Allocation]]) -> None:
    """Take parts of payments off what they had settled."""
    for payment_id, part in parts:
        work.add(FreedRow(payment_id=payment_id, **cells_of(part)))
