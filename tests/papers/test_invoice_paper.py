from dataclasses import replace
from decimal import Decimal

from domain.accounts.invoice import Invoice, deposit_invoice_for, invoice_for
from domain.job import Extra, ExtraState
from domain.money import show_money
from domain.papers.invoice import invoice_paper
from domain.papers.parts import show_unit_price
from domain.snapshot import from_json
from domain.trader import Trader
from tests import builders
from tests.papers.reading import tables, totals, words_of
from tests.priced import laid_job, quote, registered


def invoice(trader: Trader, deposit: int = 0) -> Invoice:
    extra = Extra("drip trim", Decimal(3), "m", 10_00, Decimal(20), ExtraState.AGREED)
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
        *("Mrs Adeyemi", "7 Birch Lane, Osmerton", "Square butt shingles, slate grey", "3 packs"),
        *("Unit price", "20 %", "Net", "Drip trim"),
    ):
        assert wanted in words
    assert totals(shown) == [
        ("Net", show_money(made.totals.net)),
        (f"VAT at 20 % on {show_money(made.totals.net)}", show_money(made.totals.vat_whole)),
        ("To pay", show_money(made.totals.gross)),
    ]
    assert len(tables(shown)[0].rows) == len(made.lines)


def test_an_unregistered_invoice_speaks_of_no_vat() -> None:
    made = invoice(builders.trader(vat_number="980780684"))
    words = words_of(invoice_paper(made))
    assert "VAT" not in words
    assert "Tax point" not in words
    assert totals(invoice_paper(made)) == [("To pay", show_money(made.due))]


def test_how_to_pay_and_by_when() -> None:
    words = words_of(invoice_paper(invoice(builders.trader())))
    assert "R Thorne, sort code 00-00-00, account number 12345678" in words
    assert "with the reference INV-42, by Thu 9 Jul 2026" in words


def test_the_deposit_invoice_is_taken_off_net_vat_and_in_all() -> None:
    made = invoice(registered(), deposit=250_00)
    rows = dict(totals(invoice_paper(made)))
    assert rows["The whole"] == show_money(made.totals.gross)
    # VAT Notice 700 §7.3.1 (memory): £250.00 holds £41.67.
    assert rows["less deposit invoice INV-7 of Mon 8 Jun 2026: net"] == "−£208.33"
    assert rows["VAT on it"] == "−£41.67"
    assert rows["deposit in all"] == "−£250.00"
    assert rows["To pay"] == show_money(made.totals.gross - 250_00)


def test_without_vat_the_deposit_is_taken_off_in_one_row() -> None:
    made = invoice(builders.trader(), deposit=250_00)
    assert totals(invoice_paper(made))[1:] == [
        ("less deposit invoice INV-7 of Mon 8 Jun 2026", "−£250.00"),
        ("To pay", show_money(made.totals.gross - 250_00)),
    ]


def test_the_deposit_invoice_is_called_what_it_is() -> None:
    trader = registered()
    job = laid_job(quote(trader, deposit=250_00))
    shown = invoice_paper(deposit_invoice_for(job, trader, 7, builders.AGREED))
    assert shown.title == "Deposit invoice INV-7"
    assert totals(shown)[-1] == ("To pay", "£250.00")


def test_the_paper_of_the_snapshot_is_the_paper() -> None:
    made = invoice(registered(), deposit=99_99)
    assert invoice_paper(from_json(Invoice, made.document().snapshot)) == invoice_paper(made)


def test_unit_prices_are_exact_or_to_a_hundredth_of_a_penny() -> None:
    assert show_unit_price(99_99, Decimal(3)) == "£33.33"
    assert show_unit_price(100_00, Decimal(3)) == "£33.3333"
    assert show_unit_price(7_99, Decimal(2)) == "£3.9950"
    assert show_unit_price(0, Decimal("4.2")) == "£0.00"
    assert show_unit_price(5_00, Decimal(0)) == ""
