"""Invoices, deposits and payments: numbered in the transaction that issues them."""

from collections.abc import Callable
from datetime import date

from domain.accounts.chasing import chase_words, demand_owed
from domain.accounts.invoice import Invoice, deposit_invoice_for, invoice_for
from domain.accounts.receipt import allocations_for, receipt_for
from domain.job import Chase, Document, Job, Outgoing, Payment, Received, ToSend
from domain.money import show_money
from domain.trader import Trader
from storage.database import Database, JobTransaction
from storage.mapping.codec import cells_of
from storage.queries import read_job, read_trader
from storage.rows import AllocationRow, ChaseRow, DocumentRow, PaymentRow, ToSendRow

INVOICES, RECEIPTS = "invoice", "receipt"
"""The two series of numbers; deposit invoices are invoices."""

_Draw = Callable[[Job, Trader, int, date], Invoice]


class AccountActions(Database):
    """What is asked for and what came in."""

    def issue_invoice(self, job: Job, issued_on: date) -> Job:
        """Issue the invoice for the work; it waits to be sent.

        Raises :class:`NotNow` while it cannot be.
        """
        return self._issued(job, issued_on, "invoice issued", invoice_for)

    def issue_deposit_invoice(self, job: Job, issued_on: date) -> Job:
        """Issue the invoice for the deposit. Raises :class:`NotNow` while it cannot be."""
        return self._issued(job, issued_on, "deposit invoice issued", deposit_invoice_for)

    def record_payment(self, job: Job, received: Received) -> Job:
        """Record money that came in for an invoice, and give a receipt.

        What exceeds it goes where :func:`domain.accounts.receipt.allocations_for` says, which also
        says what is refused.
        """
        with self._on_job(job, f"payment of {show_money(received.pence)} recorded") as work:
            payment = Payment(
                received_on=received.on,
                pence=received.pence,
                method=received.method,
                allocations=allocations_for(job, received.document_id, received.pence),
            )
            cells = cells_of(payment, "id", "allocations")
            kept = work.key_of(PaymentRow(job_id=work.job_id, **cells))
            for part in payment.allocations:
                work.add(AllocationRow(payment_id=kept, **cells_of(part)))
            trader, number = read_trader(work.tables), _next_number(work, RECEIPTS)
            receipt = receipt_for(job, payment, trader, number, received.on)
            _keep(work, RECEIPTS, receipt.document())
            return read_job(work.tables, work.job_id)

    def chase(self, job: Job, chase: Chase) -> Job:
        """Record a reminder, or a promise to pay: :func:`demand_owed` has the rule."""
        with self._on_job(job, chase_words(job, chase)) as work:
            demand_owed(read_job(work.tables, work.job_id), chase)
            work.add(ChaseRow(job_id=work.job_id, **cells_of(chase, "id")))
            return read_job(work.tables, work.job_id)

    def _issued(self, job: Job, issued_on: date, what: str, draw: _Draw) -> Job:
        with self._on_job(job, what) as work:
            number = _next_number(work, INVOICES)
            now = read_job(work.tables, work.job_id)
            invoice = draw(now, read_trader(work.tables), number, issued_on)
            _keep(work, INVOICES, invoice.document())
            waits = ToSend(Outgoing.INVOICE, number)
            work.add(ToSendRow(job_id=work.job_id, **cells_of(waits, "id")))
            return read_job(work.tables, work.job_id)


def _next_number(work: JobTransaction, series: str) -> int:
    """Return the number after the highest of a series; the transaction holds it for us alone."""
    wanted = "SELECT max(number) FROM document WHERE series = ?"
    return int(work.tables.first(wanted, series) or 0) + 1


def _keep(work: JobTransaction, series: str, document: Document) -> None:
    cells = cells_of(document, "id", "paid")
    work.add(DocumentRow(job_id=work.job_id, series=series, **cells))
