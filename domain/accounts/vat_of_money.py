"""The VAT that a sum received holds, by the invoice that it settles."""

from decimal import Decimal

from domain.accounts.invoice import Invoice
from domain.books.held_vat import first_of
from domain.money import Pence
from domain.tax import VatSum, less


def vat_of_part(invoice: Invoice, before: Pence, pence: Pence) -> tuple[VatSum, ...]:
    """What so much of an invoice holds by rate, once ``before`` of it was settled.

    The parts of an invoice add up to it, to the penny. All at 0 where no VAT stands on it.
    """
    whole = invoice.totals
    if invoice.deduction is not None:
        whole = less(whole, invoice.deduction.totals)
    if not whole.rated:
        return (VatSum(Decimal(0), pence, 0),)
    return less(first_of(whole, before + pence), first_of(whole, before)).vat
