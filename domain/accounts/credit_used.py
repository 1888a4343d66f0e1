"""What stands to a customer's credit, as it goes to their next invoice."""

from domain.job import Allocation, Document, Job


def credit_used(job: Job, invoice: Document) -> tuple[tuple[int, Allocation], ...]:
    """What of the customer's credit settles a new invoice: (payment's id, part) each.

    That on their other jobs counts as well. The oldest money goes first, until nothing is asked or
    nothing is left.
    """
    parts, asked, to_deduct = [], invoice.gross, invoice.to_deduct
    own = ((p.received_on, p.id or 0, p.unallocated, p.cis_left) for p in job.payments)
    others = ((c.received_on, c.payment_id, c.pence, c.cis) for c in job.credit_elsewhere)
    for _, payment_id, left, cis in sorted((*own, *others)):
        part = min(left, asked)
        if part > 0:
            deducted = min(cis, part, to_deduct)
            parts.append((payment_id, Allocation(invoice.id or 0, part, deducted)))
            asked, to_deduct = asked - part, to_deduct - deducted
    return tuple(parts)
