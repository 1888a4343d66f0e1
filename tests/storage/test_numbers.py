"""The numbers of what is issued: one after the other, whoever issues and whatever fails."""

import subprocess
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from threading import Barrier

import pytest

from domain.accounts.credit_note import Credited
from domain.accounts.invoice import Invoice
from domain.accounts.receipt import Receipt
from domain.errors import NotNow, Refused
from domain.job import DocumentKind, Received
from domain.snapshot import from_json
from storage.book import Book
from storage.errors import Changed, NotKept
from tests import builders
from tests.architecture.sources import ROOT
from tests.storage.books import DEPOSIT, bill, dump, opened, query

ANOTHER_PROCESS = """
import sys
from pathlib import Path
from tests.storage.books import bill, opened

with opened(Path(sys.argv[1])):
    print("ready", flush=True)
    sys.stdin.readline()
bill(Path(sys.argv[1]), int(sys.argv[2]))
"""


def numbers(path: Path, series: str) -> list[int]:
    """The numbers of a series, in the order of issue."""
    sql = "SELECT number FROM document WHERE series = :series ORDER BY id"
    return [number for (number,) in query(path, sql, series=series)]


@contextmanager
def faulty(path: Path, table: str) -> Iterator[None]:
    """A book whose disk fails, as it were, once a row has been written to a table."""
    query(path, f"CREATE TRIGGER fault AFTER INSERT ON {table} BEGIN SELECT RAISE(FAIL, 'no'); END")
    yield
    query(path, "DROP TRIGGER fault")


def test_a_deposit_and_an_invoice_share_a_series_and_receipts_have_their_own(
    three_laid: Path,
) -> None:
    for job_id in (3, 1):
        bill(three_laid, job_id)
    kinds = "SELECT kind, number, job_id FROM document ORDER BY id"
    assert query(three_laid, kinds) == [
        ("deposit invoice", 1, 3),
        ("invoice", 2, 3),
        ("receipt", 1, 3),
        ("receipt", 2, 3),
        ("deposit invoice", 3, 1),
        ("invoice", 4, 1),
        ("receipt", 3, 1),
        ("receipt", 4, 1),
    ]


def test_the_number_is_the_one_on_the_paper(three_laid: Path) -> None:
    bill(three_laid, 1)
    with opened(three_laid) as book:
        deposit, invoice, first, second = book.job(1).documents
    drawn = from_json(Invoice, invoice.snapshot)
    assert (drawn.number, drawn.due) == (2, invoice.gross)
    assert drawn.deduction is not None
    assert (drawn.deduction.label, drawn.deduction.totals.gross) == ("INV-1", DEPOSIT)
    assert from_json(Receipt, first.snapshot).settled[0].label == deposit.label
    assert from_json(Receipt, second.snapshot).number == second.number == 2


def test_an_issue_that_is_refused_takes_no_number(three_laid: Path) -> None:
    with opened(three_laid) as book:
        job = book.issue_invoice(book.job(1), builders.SIGNED)
        before = dump(three_laid)
        with pytest.raises(NotNow, match="has been invoiced: INV-1"):
            book.issue_invoice(job, builders.SIGNED)
        with pytest.raises(NotNow, match="Already invoiced"):
            book.issue_deposit_invoice(job, builders.SIGNED)
        assert dump(three_laid) == before
        trader = book.save_trader(replace(book.trader(), account=""))
        with pytest.raises(NotNow, match="account number"):
            book.issue_invoice(book.job(2), builders.SIGNED)
        book.save_trader(replace(trader, account="12345678"))
        assert book.issue_invoice(book.job(2), builders.SIGNED).documents[0].number == 2


def test_an_issue_that_fails_halfway_takes_no_number(three_laid: Path) -> None:
    with opened(three_laid) as book:
        job, before = book.job(1), dump(three_laid)
        with faulty(three_laid, "document"), pytest.raises(NotNow, match="no"):
            book.issue_invoice(job, builders.SIGNED)
        assert dump(three_laid) == before
        assert book.issue_invoice(job, builders.SIGNED).documents[0].number == 1


@pytest.mark.parametrize("table", ["payment", "allocation", "document", "journal"])
def test_a_payment_that_fails_halfway_leaves_nothing_of_it(three_laid: Path, table: str) -> None:
    with opened(three_laid) as book:
        job = book.issue_invoice(book.job(1), builders.SIGNED)
        invoice, before = job.documents[0], dump(three_laid)
        with faulty(three_laid, table), pytest.raises(NotNow, match="no"):
            book.record_payment(job, Received(invoice.id or 0, 100, builders.DUE, "cash"))
        assert dump(three_laid) == before
        job = book.record_payment(job, Received(invoice.id or 0, 100, builders.DUE, "cash"))
    assert [document.label for document in job.documents] == ["INV-1", "REC-1"]


@pytest.mark.parametrize(
    ("pence", "refusal"),
    [(0, Refused), (-1, Refused), (2**70, NotKept)],
)
def test_an_amount_that_is_none_takes_no_number(
    three_laid: Path, pence: int, refusal: type[Exception]
) -> None:
    with opened(three_laid) as book:
        job = book.issue_invoice(book.job(1), builders.SIGNED)
        before = dump(three_laid)
        with pytest.raises(refusal):
            book.record_payment(
                job, Received(job.documents[0].id or 0, pence, builders.DUE, "cash")
            )
    assert dump(three_laid) == before


def test_what_exceeds_the_invoice_goes_to_the_others_and_then_to_credit(three_laid: Path) -> None:
    with opened(three_laid) as book:
        job = book.issue_deposit_invoice(book.job(1), builders.SIGNED)
        job = book.issue_invoice(job, builders.SIGNED)
        deposit, invoice = job.documents
        pence = invoice.gross + DEPOSIT + 7
        job = book.record_payment(job, Received(invoice.id or 0, pence, builders.DUE, "cash"))
    assert [document.owed for document in job.documents] == [0, 0, 0]
    (payment,) = job.payments
    parts = [(part.document_id, part.pence) for part in payment.allocations]
    assert sorted(parts) == [(deposit.id, DEPOSIT), (invoice.id, invoice.gross)]
    assert payment.unallocated == 7
    receipt = from_json(Receipt, job.documents[2].snapshot)
    assert [part.label for part in receipt.settled] == [invoice.label, deposit.label]
    assert (receipt.left, receipt.over) == (0, 7)


def test_money_is_taken_only_for_an_invoice_that_is_owed(three_laid: Path) -> None:
    bill(three_laid, 1)
    with opened(three_laid) as book:
        job, before = book.job(1), dump(three_laid)
        paid, receipt = job.documents[0], job.documents[2]
        for of_no_debt in (paid.id, receipt.id, 77):
            with pytest.raises(NotNow, match="Nothing is owed on that"):
                book.record_payment(job, Received(of_no_debt or 0, 100, builders.DUE, "cash"))
    assert dump(three_laid) == before


def test_three_threads_issue_without_a_gap(three_laid: Path) -> None:
    together = Barrier(3)

    def at_once(job_id: int) -> None:
        together.wait()
        bill(three_laid, job_id)

    with ThreadPoolExecutor(3) as pool:
        list(pool.map(at_once, (1, 2, 3)))
    assert numbers(three_laid, "invoice") == [1, 2, 3, 4, 5, 6]
    assert numbers(three_laid, "receipt") == [1, 2, 3, 4, 5, 6]


def test_two_who_credit_or_pay_the_same_invoice_at_once_do_it_once(three_laid: Path) -> None:
    with opened(three_laid) as book:
        seen = book.issue_invoice(book.job(1), builders.SIGNED)
    invoice = seen.invoice
    assert invoice is not None
    key, together = invoice.id or 0, Barrier(4)
    credited = Credited(key, invoice.owed, "typed wrong")
    received = Received(key, invoice.owed, builders.DUE, "cash")

    def at_once(write: Callable[[Book], object]) -> str:
        with opened(three_laid) as book:
            together.wait()
            try:
                write(book)
            except Changed:
                return "changed"
            return "written"

    tries: list[Callable[[Book], object]] = [
        *[lambda book: book.credit(seen, credited, builders.DUE)] * 2,
        *[lambda book: book.record_payment(seen, received)] * 2,
    ]
    with ThreadPoolExecutor(4) as pool:
        assert sorted(pool.map(at_once, tries)) == ["changed"] * 3 + ["written"]
    with opened(three_laid) as book:
        now = book.job(1)
    assert (now.owed, now.credit) == (0, 0)
    assert [each.kind for each in now.documents].count(DocumentKind.CREDIT_NOTE) <= 1


@pytest.mark.long
def test_two_programs_issue_without_a_gap(three_laid: Path) -> None:
    programs = [
        subprocess.Popen(
            [sys.executable, "-c", ANOTHER_PROCESS, three_laid, str(job_id)],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        for job_id in (1, 2)
    ]
    for program in programs:
        assert program.stdout is not None
        assert program.stdout.readline() == "ready\n"
    for program in programs:
        program.communicate("go\n")
    assert [program.returncode for program in programs] == [0, 0]
    assert numbers(three_laid, "invoice") == [1, 2, 3, 4]
    assert numbers(three_laid, "receipt") == [1, 2, 3, 4]
