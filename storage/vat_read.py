"""The VAT that sums received hold, read from what they settled and from their receipts."""

from collections import Counter, defaultdict
from collections.abc import Iterable

from domain.accounts.invoice import Invoice
from domain.accounts.own_receipts import Brought
from domain.accounts.vat_of_money import vat_of_part
from domain.books.held_vat import HeldVat, lying
from domain.job import DocumentKind
from domain.snapshot import from_json
from domain.tax import VatSum, VatTotals, added_up
from storage.mapping.codec import Cell
from storage.rows import AllocationRow, DocumentRow, FreedRow, PaymentRow
from storage.tables import Tables


def read_held_vat(tables: Tables, payments: Iterable[int]) -> dict[Cell, HeldVat]:
    """Return what each payment holds: parts of the invoices it settled, and what lies there.

    The parts of an invoice are in the order of the payments; what a credit note freed of it comes
    after them, as a part of it still.
    """
    rows = tables.read_children(PaymentRow, "id", payments)
    keys = [row["id"] for row in rows]
    ids = {row["document_id"] for row in tables.read_children(AllocationRow, "payment_id", keys)}
    standing: dict[Cell, Counter[Cell]] = {key: Counter() for key in ids}
    for kind, sign in ((AllocationRow, 1), (FreedRow, -1)):
        for row in tables.read_children(kind, "document_id", ids):
            standing[row["document_id"]][row["payment_id"]] += sign * int(row["pence"] or 0)
    settles: dict[Cell, list[VatSum]] = defaultdict(list)
    invoices, put = {}, Counter[Cell]()
    for row in tables.read_children(DocumentRow, "id", ids):
        key = row["id"]
        invoices[key] = from_json(Invoice, str(row["snapshot"]))
        for payment, pence in sorted(standing[key].items()):
            if pence:
                settles[payment].extend(vat_of_part(invoices[key], put[key], pence))
                put[key] += pence
    freed: dict[Cell, list[VatTotals]] = defaultdict(list)
    for row in tables.read_children(FreedRow, "payment_id", keys):
        key, pence = row["document_id"], int(row["pence"] or 0)
        freed[row["payment_id"]].append(added_up(vat_of_part(invoices[key], put[key], pence)))
        put[key] += pence
    brought = _brought(tables, {row["job_id"] for row in rows})
    found = {}
    for row in rows:
        key, sums = row["id"], settles[row["id"]]
        left = int(row["pence"] or 0) - sum(each.net + each.vat for each in sums)
        found[key] = HeldVat(tuple(sums), lying(left, freed[key], brought.get(key)))
    return found


def _brought(tables: Tables, jobs: Iterable[Cell]) -> dict[Cell, VatTotals | None]:
    """What each payment brought to tax as it came: each was recorded with its own receipt."""
    of_jobs: dict[Cell, tuple[list[Cell], list[str]]] = defaultdict(lambda: ([], []))
    wanted = set(jobs)
    for row in tables.read_children(PaymentRow, "job_id", wanted):
        of_jobs[row["job_id"]][0].append(row["id"])
    for row in tables.read_children(DocumentRow, "job_id", wanted):
        if row["kind"] == DocumentKind.RECEIPT:
            of_jobs[row["job_id"]][1].append(str(row["snapshot"]))
    return {
        key: from_json(Brought, snapshot).brings
        for keys, receipts in of_jobs.values()
        for key, snapshot in zip(keys, receipts, strict=True)
    }
