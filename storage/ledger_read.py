"""The events of money as they were recorded, in the order of the journal."""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import groupby
from operator import itemgetter
from typing import Any

from domain.accounts.money_events import CameIn, Event, GivenUp, GoneBack, Issued, Moved, OfJob
from domain.accounts.receipt import Receipt
from domain.job import CounterEntry, Document, DocumentKind, WriteOff
from domain.job.invoice_label import receipt_label
from domain.snapshot import from_json
from storage.mapping.codec import as_written, value_of
from storage.tables import Tables

_RECORDED = """
    SELECT journal.action_id, entity, after FROM journal JOIN action ON action.id = action_id
    WHERE undone_at IS NULL AND entity IN
        ('lay', 'acceptance', 'document', 'payment', 'allocation', 'freed', 'counter_entry',
         'write_off')
    ORDER BY journal.id
"""
_JOBS = """
    SELECT job.id, job.ref, customer.id, customer.name, customer.kind FROM job
    JOIN site ON site.id = job.site_id JOIN customer ON customer.id = site.customer_id
"""
_KINDS = "SELECT id, customer_kind FROM document"
"""What each customer was as a document was issued: they may be another kind since."""
_DEPOSITS = """
    SELECT option.id, quote.job_id, quote.deposit FROM option JOIN quote ON quote.id = quote_id
"""


@dataclass(slots=True)
class _Told:
    """What the journal has told so far."""

    jobs: dict[int, OfJob]
    deposits: dict[int, tuple[int, int]]
    """By option: its job, and the deposit of its quote in pence."""
    kinds: dict[int, str]
    """By document: the kind of its customer."""
    payments: dict[int, Any] = field(default_factory=dict)
    documents: dict[int, Document] = field(default_factory=dict)

    def of(self, job_id: int, paper: int) -> OfJob:
        """The job as it is known, of whom it was when a paper was issued."""
        return replace(self.jobs[job_id], customer_kind=self.kinds[paper])


def read_money_events(tables: Tables) -> tuple[Event, ...]:
    """Return every event of money of the book in the order in which it was recorded."""
    with as_written():
        jobs = {
            key: OfJob(ref, customer_id, name, kind, deposit_asked=False, done=None)
            for key, ref, customer_id, name, kind in tables.found(_JOBS)
        }
        deposits = {key: (job_id, pence) for key, job_id, pence in tables.found(_DEPOSITS)}
        told = _Told(jobs, deposits, dict(tables.found(_KINDS)))
        return tuple(_events(tables, told))


def _events(tables: Tables, told: _Told) -> Iterator[Event]:
    for _, recorded in groupby(tables.found(_RECORDED), key=itemgetter(0)):
        action: list[tuple[str, Any]] = [
            (entity, json.loads(after)) for _, entity, after in recorded if after is not None
        ]
        yield from _of_action(action, told)


def _of_action(action: Sequence[tuple[str, Any]], told: _Told) -> Iterator[Event]:
    """The events of one action; what it says of the work and of the agreement is only noted."""
    receipts = iter(
        from_json(Receipt, row["snapshot"])
        for entity, row in action
        if entity == "document" and row["kind"] == DocumentKind.RECEIPT
    )
    never_came = any(entity == "counter_entry" for entity, _ in action)  # a refund frees nothing
    settling = {row["payment_id"] for entity, row in action if entity == "allocation"}
    papers = [row["id"] for entity, row in action if entity == "document"]
    for entity, row in action:
        match entity:
            case "lay":
                _note(told, row["job_id"], done=date.fromisoformat(row["on"]))
            case "acceptance":
                job_id, deposit = told.deposits[row["option_id"]]
                _note(told, job_id, deposit_asked=deposit > 0)
            case "payment":
                told.payments[row["id"]] = row
                of, receipt, on_account = (
                    told.of(row["job_id"], papers[0]),
                    next(receipts),
                    row["id"] not in settling,
                )
                on, label = receipt.received_on, receipt_label(receipt.number)
                cis = row.get("cis", 0)  # an older picture knows nothing of it
                yield CameIn(
                    of, row["id"], label, on, row["pence"], cis, on_account, receipt.brings
                )
            case "document":
                document = value_of(Document, row)
                told.documents[row["id"]] = document
                if document.kind.asks or document.kind is DocumentKind.CREDIT_NOTE:
                    yield Issued(told.of(row["job_id"], row["id"]), document)
            case "allocation" | "freed":
                payment = told.payments[row["payment_id"]]
                of = told.of(payment["job_id"], papers[0])
                on, freed = _day_of(action), entity == "freed"
                cis = row.get("cis", payment.get("cis", 0) and min(row["pence"], payment["cis"]))
                yield Moved(
                    of, payment["id"], row["document_id"], row["pence"], freed, on, cis, never_came
                )
            case "write_off":
                yield GivenUp(told.of(row["job_id"], row["document_id"]), value_of(WriteOff, row))
            case "counter_entry":
                entry = value_of(CounterEntry, row)
                of = told.of(row["job_id"], entry.document_id)
                yield GoneBack(
                    of, row["payment_id"], told.documents[entry.document_id].label, entry
                )


def _note(told: _Told, job_id: int, **known: Any) -> None:
    told.jobs[job_id] = replace(told.jobs[job_id], **known)


def _day_of(action: Sequence[tuple[str, Any]]) -> date:
    """The day that an action moves money on: that of the money, else of the paper."""
    rows = dict(reversed(action))
    for entity, column in (("payment", "received_on"), ("counter_entry", "on")):
        if entity in rows:
            return date.fromisoformat(rows[entity][column])
    return date.fromisoformat(rows["document"]["issued_on"])
