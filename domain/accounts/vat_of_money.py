"""The VAT that a sum received holds, by the invoice that it settles."""

from domain.accounts.invoice import Invoice
from domain.money import Pence
from domain.tax import VatSum, VatTotals, less, part_of


def vat_of_part(invoice: Invoice, before: Pence, pence: Pence) -> tuple[VatSum, ...]:
    """What so much of an invoice holds by rate, once ``before`` of it was settled.

    The parts of an invoice add up to it, to the penny. Nothing where no VAT stands on it.
    """
    whole = invoice.totals
    if invoice.deduction is not None:
        whole = less(whole, invoice.deduction.totals)
    if not whole.rated:
        return ()
    return less(_up_to(whole, before + pence), _up_to(whole, before)).vat


def _up_to(whole: VatTotals, gross: Pence) -> VatTotals:
    return whole if gross >= whole.gross else part_of(whole, gross)
