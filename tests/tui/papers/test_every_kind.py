"""Every kind of paper has its own maker, and a kind without one falls through to none."""

from dataclasses import replace

import pytest

from domain.accounts.invoice import deposit_invoice_for, invoice_for
from domain.accounts.receipt import receipt_for
from domain.estimate.supplies import PricesAndStock
from domain.job import Document, DocumentKind, Job, Payment
from tests import builders
from tests.priced import PRICES, laid_job, quote
from tui.papers.as_issued import AS_ISSUED, paper_as_issued
from tui.papers.job_papers import MAKERS, paper_of
from tui.shell.command_line import HELD, PAPERS

TRADER = builders.trader()


def _job() -> Job:
    job = laid_job(quote(deposit=100_00))
    made = invoice_for(job, TRADER, 42, builders.SIGNED)
    return replace(job, documents=(replace(made.document(), id=1),))


def _title(kind: str) -> str:
    sources = PricesAndStock(PRICES, (), builders.VISIT)
    return paper_of(kind, _job(), TRADER, sources).title


def _issued(kind: DocumentKind) -> Document:
    job = _job()
    if kind is DocumentKind.DEPOSIT:
        return deposit_invoice_for(
            replace(job, documents=()), TRADER, 7, builders.AGREED
        ).document()
    if kind is DocumentKind.INVOICE:
        return job.documents[0]
    payment = Payment(builders.DUE, 1_00, "cash")
    return receipt_for(job, payment, TRADER, 3, builders.DUE).document()


def test_the_command_line_knows_the_papers_that_there_are() -> None:
    assert sorted(PAPERS) == sorted([*MAKERS, HELD])


def test_each_name_gives_a_paper_of_its_own() -> None:
    titles = {kind: _title(kind) for kind in MAKERS}
    assert len(set(titles.values())) == len(MAKERS), titles
    assert titles["invoice"] == "Invoice INV-42"


def test_a_name_that_no_paper_has_is_not_taken_for_the_invoice() -> None:
    with pytest.raises(KeyError):
        _title("statement")


def test_every_kind_of_document_has_its_maker() -> None:
    assert set(AS_ISSUED) == set(DocumentKind)


@pytest.mark.parametrize(
    ("kind", "title"),
    [
        (DocumentKind.DEPOSIT, "Deposit invoice INV-7"),
        (DocumentKind.INVOICE, "Invoice INV-42"),
        (DocumentKind.RECEIPT, "Receipt REC-3"),
    ],
)
def test_a_document_is_the_paper_it_was_issued_as(kind: DocumentKind, title: str) -> None:
    paper = paper_as_issued(_issued(kind), builders.customer(email="new@example.com"))
    assert paper.title == title
    assert paper.letter is not None
    assert paper.letter.to == "new@example.com"
    assert title.rsplit(maxsplit=1)[-1] in paper.letter.text
