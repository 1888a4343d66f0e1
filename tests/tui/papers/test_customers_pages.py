"""What a customer gets as PDF: how many pages, how large the print, with which logo and colour."""

import struct
import zlib
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

import pytest

from domain.accounts.as_sent import as_it_stands
from domain.accounts.invoice import deposit_invoice_for, invoice_for
from domain.errors import Refused
from domain.job import Customer, CustomerKind, Extra, ExtraState, Job, Quote, Stage
from domain.look import Look
from domain.papers.blocks import Paper
from domain.papers.invoice_paper import invoice_paper
from domain.papers.quote_paper import quote_paper
from domain.snapshot import to_json
from domain.trader import Trader
from tests import builders
from tests.priced import laid_job, quote, registered, three_options
from tests.tui.papers.pdf import fonts_of, is_tagged, pages_of, pictures_of, sizes_of
from tui.papers.as_pdf import demand_drawn, pdf_of

SVG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10">'
    b'<rect width="9" height="9"/></svg>'
)
LONG = builders.customer(
    name="Mrs Philippa Featherstonehaugh-Cholmondeley and Mr Bartholomew Oyinlola-Whittington",
    address="The Old Coach House\nBehind the Chapel\n117 Upper Nether Road\nOsmerton\nSY8 1AA",
)
NAVY = builders.trader(look=Look(colour="#14285a", logo="a", logo_name="a.svg"))


def _png(wide: int, high: int) -> bytes:
    """A grey PNG."""
    rows = b"".join(b"\0" + b"\x80" * wide for _ in range(high))
    parts = (
        (b"IHDR", struct.pack(">IIBBBBB", wide, high, 8, 0, 0, 0, 0)),
        (b"IDAT", zlib.compress(rows)),
        (b"IEND", b""),
    )
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(of)) + kind + of + struct.pack(">I", zlib.crc32(kind + of))
        for kind, of in parts
    )


PNG = _png(40, 20)


def _quoted(made: Quote, trader: Trader, customer: Customer | None = None) -> Paper:
    job = builders.ready_for(Stage.QUOTED, quotes=(), customer=customer or builders.customer())
    says = to_json(as_it_stands(job, trader))
    sent = replace(made, sent_on=builders.SENT, valid_until=builders.VALID_UNTIL, sent_as=says)
    return quote_paper(job, sent, trader)


def _invoiced(trader: Trader, customer: Customer) -> Iterator[Paper]:
    words, one, rate = "a new drip trim at both eaves", Decimal(1), Decimal(20)
    extra = Extra(words, one, "job", 38_00, rate, ExtraState.AGREED)
    job: Job = laid_job(quote(trader, deposit=100_00), extras=(extra,), customer=customer)
    deposit = deposit_invoice_for(job, trader, 41, builders.AGREED)
    yield invoice_paper(deposit)
    billed = replace(job, documents=(replace(deposit.document(), id=1),))
    yield invoice_paper(invoice_for(billed, trader, 42, builders.SIGNED))


BUSINESS = builders.customer(kind=CustomerKind.BUSINESS)
PAPERS: dict[str, tuple[Paper, int]] = {
    "a householder": (_quoted(quote(deposit=100_00), NAVY), 2),
    "a business": (_quoted(quote(registered()), registered(), BUSINESS), 1),
    "three coverings": (_quoted(three_options(), NAVY), 2),
    "long names": (_quoted(three_options(), registered(look=NAVY.look), LONG), 2),
    "a deposit": (next(_invoiced(registered(), LONG)), 1),
    "an invoice": ([*_invoiced(registered(), LONG)][1], 1),
}
"""Papers with the pages they take: one, and one for the notice of the right to cancel."""


@pytest.mark.parametrize("which", PAPERS)
def test_it_is_one_page_and_one_for_the_notice_and_nothing_is_small(which: str) -> None:
    paper, count = PAPERS[which]
    content = pdf_of(paper, SVG)
    pages = pages_of(content)
    assert len(pages) == count
    assert min(sizes_of(content)) >= 9
    assert is_tagged(content)
    assert {name.split("-")[0] for name in fonts_of(content)} == {"Inter"}
    if paper.title.startswith("Quote"):
        assert "Signed," in pages[0]
        assert all("right to cancel" in page for page in pages[1:])
        assert "Cancellation form" not in pages[0]


def test_the_form_has_a_line_for_all_that_the_law_asks() -> None:
    _, notice = pages_of(pdf_of(PAPERS["a householder"][0]))
    *_, form = notice.partition("Cancellation form")
    for asked in (
        *("To: Thorne Shed Roofs, 3 Tannery Row", "I/We * hereby give notice that I/We * cancel"),
        *("Ordered on *", "Received on *", "Name", "Address", "Signature (only", "Date"),
    ):
        assert asked in form
        form = form.partition(asked)[2]


@pytest.mark.parametrize("logo", [PNG, SVG], ids=["PNG", "SVG"])
def test_the_logo_stands_on_the_first_page_and_the_same_paper_is_the_same(logo: bytes) -> None:
    paper, _ = PAPERS["a householder"]
    demand_drawn("logo", "a", logo)
    assert pdf_of(paper, logo) == pdf_of(paper, logo)
    assert pdf_of(paper, logo) != pdf_of(paper)
    assert pictures_of(pdf_of(paper, PNG)) == [1, 0]
    assert pictures_of(pdf_of(paper)) == [0, 0]


@pytest.mark.parametrize(
    "damaged",
    [
        b"hello",
        PNG[:-20],
        PNG[:40],
        PNG.replace(b"IDAT", b"IDAX"),
        SVG[:-8],
        SVG.replace(b"<rect", b'<image href="/etc/logo.png"'),
    ],
)
def test_a_damaged_picture_is_refused_in_one_sentence(damaged: bytes) -> None:
    with pytest.raises(Refused, match="The picture is damaged or not all there"):
        demand_drawn("logo", "/home/ann/logo.png", damaged)
