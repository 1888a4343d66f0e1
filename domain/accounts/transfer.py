"""One transfer of a customer's for several of their jobs, shared out over what is owed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from domain.errors import NotNow, Refused
from domain.job import Allocation, Document
from domain.money import Pence, show_money


@dataclass(frozen=True, slots=True)
class OpenInvoice:
    """An invoice on which something is owed, and of which job it is."""

    job_id: int
    ref: str
    place: str
    document: Document


def shared_out(
    owing: Sequence[OpenInvoice],
    pence: Pence,
    cis: Pence = 0,
    typed: Mapping[int, Pence] | None = None,
) -> tuple[Allocation, ...]:
    """Share what came over invoices, that due first first; what is left over goes to none.

    ``pence`` is the money with ``cis``, what a contractor deducted of it: it goes once with each as
    far as the deduction of that is not made yet. ``typed`` is the trader's own share by invoice, of
    money and deduction together; the others share the rest. Raises :class:`Refused` for no money,
    for a share over what is owed, and for more shared than came.
    """
    if pence <= 0:
        raise Refused("amount", show_money(pence), "Give what came in, such as 486.00.")
    told = dict(typed or {})
    _demand_possible(owing, pence, told)
    rest, parts = pence - sum(told.values()), []
    for each in by_age(owing):
        document, key = each.document, each.document.id or 0
        to_deduct = min(cis, document.to_deduct)
        part = told.get(key, min(rest, document.owed + to_deduct))
        deducted = min(to_deduct, part)
        rest, cis = rest - (0 if key in told else part), cis - deducted
        parts.append(Allocation(key, part, deducted))
    return tuple(part for part in parts if part.pence)


def by_age(owing: Sequence[OpenInvoice]) -> list[OpenInvoice]:
    """Invoices by the day on which they were due, the oldest first."""
    return sorted(owing, key=lambda each: (each.document.due_on, each.document.number))


def demand_open(owing: Sequence[OpenInvoice], shares: Sequence[Allocation]) -> None:
    """Raise :class:`NotNow` for a share of an invoice on which nothing is owed any more."""
    unsettled = {each.document.id: each.document.unsettled for each in owing}
    if any(part.pence > unsettled.get(part.document_id, 0) for part in shares):
        raise NotNow("Less is owed by now than was shared out: open it again.")


def _demand_possible(owing: Sequence[OpenInvoice], pence: Pence, told: Mapping[int, Pence]) -> None:
    for each in owing:
        share, most = told.get(each.document.id or 0, 0), each.document.unsettled
        if share > most:
            words = f"Give {show_money(most)} or less: so much is owed on {each.document.label}."
            raise Refused(share_field(each.document), show_money(share), words)
    if (total := sum(told.values())) > pence:
        words = f"You shared out {show_money(total)}: give what came in all."
        raise Refused("amount", show_money(pence), words)


def share_field(document: Document) -> str:
    """The name of the field that holds the share of an invoice."""
    return f"share_{document.id}"
