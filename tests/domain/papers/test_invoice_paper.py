import json
from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from domain.accounts.invoice import Invoice, deposit_invoice_for, invoice_for
from domain.accounts.receipt import receipt_for
from domain.days.calendar import show_date
from domain.job import Extra, ExtraState, Payment
from domain.look import Look
from domain.money import read_money, show_money
from domain.papers.blocks import Details, Paper
from domain.papers.invoice_paper import invoice_paper
from domain.papers.quote_paper import quote_paper
from domain.papers.receipt_paper import receipt_paper
from domain.papers.shared_parts import show_unit_price
from domain.snapshot import from_json
from domain.trader import Trader
from tests import builders
from tests.domain.papers.reading import tables, totals, words_of
from tests.priced import laid_job, quote, registered


def _sums(net: int, vat: int) -> tuple[str, str, str]:
    return show_money(net), show_money(vat), show_money(net + vat)


def _pence(shown: str) -> int:
    """A sum on a paper, below nothing too."""
    sum_ = read_money("Sum", shown.removeprefix("−"))
    return -sum_ if shown.startswith("−") else sum_


def invoice(trader: Trader, deposit: int = 0, extra_rate: Decimal = Decimal(20)) -> Invoice:
    extra = Extra("drip trim", Decimal(3), "m", 10_00, extra_rate, ExtraState.AGREED)
    job = laid_job(quote(trader, deposit=deposit), extras=(extra,))
    if deposit:
        first = deposit_invoice_for(job, trader, 7, builders.AGREED)
        job = replace(job, documents=(first.document(),))
    return invoice_for(job, trader, 42, builders.SIGNED)


def test_a_registered_invoice_shows_what_the_regulations_ask() -> None:
    # VAT Regulations 1995 reg. 14(1), read.
    made = invoice(registered())
    shown = invoice_paper(made)
    words = words_of(shown)
    assert shown.title == "Invoice INV-42"
    for wanted in (
        *("Thu 25 Jun 2026", "Tax point", "Robin Thorne", "3 Tannery Row", "VAT number 980780684"),
        *(
            "Mrs Adeyemi",
            "7 Birch Lane, Osmerton",
            "Materials: square butt shingles, slate grey; underlay; fixings",
        ),
        *("Shed, apex roof, 2.4 × 1.8 m", "20 %", "Before VAT", "Drip trim"),
    ):
        assert wanted in words
    assert totals(shown) == [
        ("Total before VAT", show_money(made.totals.net)),
        (f"VAT at 20 % on {show_money(made.totals.net)}", show_money(made.totals.vat_whole)),
        ("Total due", show_money(made.totals.gross)),
    ]
    assert len(tables(shown)[0].rows) == len(made.lines)


def test_an_unregistered_invoice_speaks_of_no_vat() -> None:
    made = invoice(builders.trader(vat_number="980780684"))
    words = words_of(invoice_paper(made))
    assert "VAT" not in words
    assert "Tax point" not in words
    assert totals(invoice_paper(made)) == [("Total due", show_money(made.due))]
    titles = [column.title for column in tables(invoice_paper(made))[0].columns]
    assert titles == ["Description", "Amount"]


def test_how_to_pay_and_by_when() -> None:
    made = invoice(builders.trader())
    (block,) = (b for b in invoice_paper(made).blocks if isinstance(b, Details) and b.framed)
    assert (block.heading, block.rows) == (
        "How to pay: by bank transfer",
        (
            ("Account name", "R Thorne"),
            ("Sort code", "00-00-00"),
            ("Account number", "12345678"),
            ("Reference", "INV-42"),
            ("Amount", show_money(made.due)),
            ("Pay by", "Thu 9 Jul 2026"),
        ),
    )


def test_a_roof_at_the_customers_own_address_is_not_named_twice() -> None:
    customer = builders.customer(address="7 Birch Lane\nOsmerton")
    at_home = builders.site(place="Birch Lane", address=customer.address)
    job = replace(laid_job(quote(deposit=100_00)), customer=customer, site=at_home)
    made = invoice_for(job, builders.trader(), 42, builders.SIGNED)
    rows = details(invoice_paper(made))
    assert rows["Address"] == "7 Birch Lane, Osmerton"
    assert "Roof at" not in rows
    elsewhere = replace(job, site=replace(at_home, address="The Old Yard\nOsmerton"))
    made = invoice_for(elsewhere, builders.trader(), 42, builders.SIGNED)
    assert "The Old Yard" in details(invoice_paper(made))["Roof at"]


def test_the_deposit_invoice_is_taken_off_net_vat_and_in_all() -> None:
    made = invoice(registered(), deposit=250_00)
    whole, less, own = tables(invoice_paper(made))[-1].rows
    assert whole == ("Total, 20 %", *_sums(made.totals.net, made.totals.vat_whole))
    # VAT Notice 700 §7.3.1 (memory): £250.00 holds £41.67.
    words = "Less deposit invoice INV-7 of Mon 8 Jun 2026, 20 %"
    assert less == (words, "−£208.33", "−£41.67", "−£250.00")
    own_sums = _sums(made.totals.net - 208_33, made.totals.vat_whole - 41_67)
    assert own == ("This invoice", *own_sums)
    assert totals(invoice_paper(made)) == [("Total due", own_sums[-1])]


@given(st.integers(min_value=1, max_value=40_496), st.sampled_from(["0", "5", "20"]))
def test_the_vat_of_a_final_invoice_adds_up_for_the_reader(asked: int, rate: str) -> None:
    made = invoice(registered(), deposit=asked, extra_rate=Decimal(rate))
    shown = invoice_paper(made)
    rows = [tuple(map(_pence, row[1:])) for row in tables(shown)[-1].rows]
    assert all(net + vat == gross for net, vat, gross in rows)
    *parts, own = rows
    assert own == tuple(map(sum, zip(*parts, strict=True)))
    assert sum(_pence(row[-1]) for row in tables(shown)[0].rows) == made.totals.net
    assert [_pence(amount) for _, amount in totals(shown)] == [own[-1]] == [made.due]


def test_without_vat_the_deposit_is_taken_off_in_one_row() -> None:
    made = invoice(builders.trader(), deposit=250_00)
    assert totals(invoice_paper(made))[1:] == [
        ("Less deposit invoice INV-7 of Mon 8 Jun 2026", "−£250.00"),
        ("Total due", show_money(made.totals.gross - 250_00)),
    ]


def test_the_deposit_invoice_is_called_what_it_is() -> None:
    trader = registered()
    job = laid_job(quote(trader, deposit=250_00))
    shown = invoice_paper(deposit_invoice_for(job, trader, 7, builders.AGREED))
    assert shown.title == "Deposit invoice INV-7"
    assert totals(shown)[-1] == ("Total due", "£250.00")


def test_the_paper_of_the_snapshot_is_the_paper() -> None:
    made = invoice(registered(), deposit=99_99)
    assert invoice_paper(from_json(Invoice, made.document().snapshot)) == invoice_paper(made)


def test_boards_at_the_named_rate_are_on_one_line_with_it() -> None:
    boards = Extra("boards", Decimal("4.2"), "m", 58_80, Decimal(20), ExtraState.AGREED)
    job = laid_job(quote(registered()), extras=(boards,))
    made = invoice_for(job, registered(), 42, builders.SIGNED)
    titles, *_ = tables(invoice_paper(made))
    assert [column.title for column in titles.columns] == ["Description", "VAT", "Before VAT"]
    assert titles.rows[-1] == ("Boards, 4.2 m at £14.00 per metre", "20 %", "£58.80")


def test_an_invoice_of_before_there_were_colours_is_read_as_it_was() -> None:
    made = invoice(builders.trader(look=Look(colour="#14285a")))
    kept = json.loads(made.document().snapshot)
    del kept["roof"], kept["seller"]["look"]
    shown = invoice_paper(from_json(Invoice, json.dumps(kept)))
    assert shown.look == Look()
    assert "Roof" not in details(shown)
    assert invoice_paper(made).look == Look(colour="#14285a")


def test_unit_prices_are_exact_or_to_a_hundredth_of_a_penny() -> None:
    assert show_unit_price(99_99, Decimal(3)) == "£33.33"
    assert show_unit_price(100_00, Decimal(3)) == "£33.3333"
    assert show_unit_price(7_99, Decimal(2)) == "£3.9950"
    assert show_unit_price(0, Decimal("4.2")) == "£0.00"
    assert show_unit_price(5_00, Decimal(0)) == ""


def test_it_says_when_the_work_was_done_and_every_paper_where_in_full() -> None:
    job = laid_job(quote(deposit=100_00))
    job = replace(job, site=replace(job.site, address="The Old Yard\n7 Birch Lane\nOsmerton"))
    made = invoice_for(job, builders.trader(), 42, builders.SIGNED)
    rows = details(invoice_paper(made))
    assert job.laying is not None
    assert rows["Work done on"] == show_date(job.laying.on)
    assert rows["Roof at"] == "The Old Yard, 7 Birch Lane, Osmerton"
    assert job.quote is not None
    quoted = details(quote_paper(job, job.quote, builders.trader()))
    assert rows["Roof at"] == quoted["Roof at"]
    payment = Payment(builders.DUE, made.due, "cash")
    receipt = receipt_for(job, payment, builders.trader(), 3, builders.DUE)
    assert rows["Roof at"] == details(receipt_paper(receipt))["Roof at"]
    deposit = deposit_invoice_for(replace(job, documents=()), builders.trader(), 7, builders.AGREED)
    assert "Work done on" not in details(invoice_paper(deposit))


def details(paper: Paper) -> dict[str, str]:
    return dict(row for block in paper.blocks if isinstance(block, Details) for row in block.rows)
