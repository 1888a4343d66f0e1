from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.accounts.invoice import Invoice, deposit_invoice_for, invoice_for
from domain.errors import NotNow
from domain.estimate.quoting import option_total
from domain.job import DocumentKind, Extra, ExtraState, Job, Option, Stage
from domain.snapshot import from_json
from domain.trader import Trader
from tests import builders
from tests.priced import accepted, laid_job, quote, registered

ISSUED = builders.SIGNED
TWENTY = Decimal(20)


def boards(**changes: Any) -> Extra:
    agreed = Extra(
        "boards found rotten", Decimal("4.2"), "m", 58_80, TWENTY, ExtraState.AGREED, "Mrs Adeyemi"
    )
    return replace(agreed, **changes)


def invoiced(trader: Trader | None = None, deposit: int = 0, **changes: Any) -> Invoice:
    trader = trader or registered()
    return invoice_for(laid_job(quote(trader, deposit=deposit), **changes), trader, 42, ISSUED)


def with_deposit(job: Job, trader: Trader) -> tuple[Invoice, Job]:
    deposit = deposit_invoice_for(job, trader, 7, builders.AGREED)
    return deposit, replace(job, documents=(replace(deposit.document(), id=5),))


def test_a_registered_invoice_carries_what_the_regulations_ask() -> None:
    # VAT Regulations 1995 reg. 14(1), read.
    invoice = invoiced()
    assert invoice.number == 42
    assert (invoice.issued_on, invoice.tax_point) == (ISSUED, ISSUED)
    assert invoice.seller.name == "Robin Thorne"
    assert invoice.seller.address == "3 Tannery Row\nOsmerton"
    assert invoice.seller.vat_number == "980780684"
    assert (invoice.buyer.name, invoice.buyer.address) == ("Mrs Adeyemi", "7 Birch Lane\nOsmerton")
    for line in invoice.lines:
        assert line.words
        assert line.unit
        assert line.quantity > 0
        assert line.vat_rate == TWENTY
    assert invoice.totals.net == sum(line.net for line in invoice.lines)
    assert invoice.totals.vat_whole > 0
    assert invoice.due == invoice.totals.gross == invoice.totals.net + invoice.totals.vat_whole


def test_how_to_pay_is_on_it() -> None:
    invoice = invoiced()
    assert invoice.due_on == ISSUED + timedelta(days=14)
    assert (invoice.seller.sort_code, invoice.seller.account) == ("00-00-00", "12345678")


def test_an_unregistered_trader_charges_no_vat_and_shows_no_number() -> None:
    invoice = invoiced(builders.trader(vat_number="980780684"), extras=(boards(),))
    assert invoice.totals.rated == ()
    assert invoice.totals.gross == invoice.totals.net
    assert invoice.seller.vat_number == ""
    assert {line.vat_rate for line in invoice.lines} == {Decimal(0)}


@pytest.mark.parametrize(
    ("issued", "tax_point"),
    [
        # VAT Act 1994 s. 6(5): issued within 14 days of the work, read (HMRC VATTOS2230).
        (builders.LAY_DAY, builders.LAY_DAY),
        (date(2026, 7, 8), date(2026, 7, 8)),
        (date(2026, 7, 9), builders.LAY_DAY),
    ],
)
def test_the_tax_point_is_the_invoice_if_it_is_in_time(issued: date, tax_point: date) -> None:
    trader = registered()
    assert invoice_for(laid_job(quote(trader)), trader, 1, issued).tax_point == tax_point


def test_agreed_extras_are_lines_and_those_not_charged_are_named_at_nil() -> None:
    free = boards(words="drip trim refixed", state=ExtraState.NOT_CHARGED)
    plain, extra = invoiced(), invoiced(extras=(boards(), free))
    assert extra.totals.net == plain.totals.net + 58_80
    assert [(line.words, line.net) for line in extra.lines[-2:]] == [
        ("boards found rotten", 58_80),
        ("drip trim refixed (not charged)", 0),
    ]


def test_an_extra_still_to_agree_stops_the_invoice_by_name() -> None:
    with pytest.raises(NotNow, match="boards found rotten"):
        invoiced(extras=(boards(state=ExtraState.OPEN),))


def test_the_invoice_waits_for_the_roof_and_comes_once() -> None:
    trader = builders.trader()
    job = laid_job(quote(trader))
    with pytest.raises(NotNow, match="until the roof is laid"):
        invoice_for(replace(job, stage=Stage.STRIPPED), trader, 1, ISSUED)
    with pytest.raises(NotNow, match="INV-42"):
        invoice_for(replace(job, documents=(builders.invoice(),)), trader, 1, ISSUED)
    with pytest.raises(NotNow, match="accepted"):
        invoice_for(replace(job, quotes=(quote(trader),)), trader, 1, ISSUED)


def test_what_the_traders_details_lack_is_named() -> None:
    bare = registered(vat_number="", account="", address=" ")
    with pytest.raises(NotNow, match="address, account number, VAT number"):
        invoice_for(laid_job(quote(bare)), bare, 1, ISSUED)


def test_a_vat_invoice_needs_an_address_of_the_customer() -> None:
    with pytest.raises(NotNow, match="customer's address"):
        invoiced(customer=builders.customer(address=""))
    here = builders.site(address="Mill Row allotments")
    invoice = invoiced(customer=builders.customer(address=""), site=here)
    assert invoice.buyer.address == "Mill Row allotments"


def test_the_deposit_invoice_has_its_own_number_tax_point_and_vat() -> None:
    trader = registered()
    job = builders.job_at(Stage.BOOKED, quotes=(accepted(quote(trader, deposit=250_00)),))
    deposit, _ = with_deposit(job, trader)
    assert deposit.kind is DocumentKind.DEPOSIT
    assert deposit.tax_point == deposit.issued_on == builders.AGREED
    # VAT Notice 700 §7.3.1 (memory): £250.00 holds £41.67.
    assert (deposit.totals.net, deposit.totals.vat_whole) == (208_33, 41_67)
    assert (deposit.due, deposit.document().gross, deposit.document().label) == (
        250_00,
        250_00,
        "INV-7",
    )


def test_the_final_invoice_shows_the_whole_and_takes_the_deposit_invoice_off() -> None:
    trader = registered()
    _, job = with_deposit(laid_job(quote(trader, deposit=250_00), extras=(boards(),)), trader)
    final = invoice_for(job, trader, 42, ISSUED)
    assert final.deduction is not None
    assert (final.deduction.label, final.deduction.issued_on) == ("INV-7", builders.AGREED)
    assert (final.deduction.totals.net, final.deduction.totals.vat_whole) == (208_33, 41_67)
    assert final.totals == invoiced(deposit=250_00, extras=(boards(),)).totals
    assert final.due == final.document().gross == final.totals.gross - 250_00


@given(st.booleans(), st.integers(min_value=1, max_value=100_000))
def test_deposit_and_final_invoice_come_to_the_quote(with_vat: bool, asked: int) -> None:
    trader = registered() if with_vat else builders.trader()
    whole = option_total(quote(trader).options[0])
    asked = min(asked, whole.gross)
    deposit, job = with_deposit(laid_job(quote(trader, deposit=asked)), trader)
    final = invoice_for(job, trader, 42, ISSUED)
    assert deposit.due + final.due == whole.gross
    assert deposit.due == asked
    assert final.due >= 0
    assert 0 <= deposit.totals.vat_whole <= whole.vat_whole


def test_a_deposit_is_invoiced_once_and_only_if_asked_for() -> None:
    trader = builders.trader()
    job = laid_job(quote(trader, deposit=100_00))
    _, again = with_deposit(job, trader)
    for taken in (again, replace(job, documents=(builders.invoice(),))):
        with pytest.raises(NotNow, match="Already invoiced"):
            deposit_invoice_for(taken, trader, 8, ISSUED)
    with pytest.raises(NotNow, match="no deposit"):
        deposit_invoice_for(laid_job(quote(trader)), trader, 8, ISSUED)


def test_the_snapshot_is_the_invoice_exactly() -> None:
    trader = registered()
    _, job = with_deposit(laid_job(quote(trader, deposit=99_99), extras=(boards(),)), trader)
    final = invoice_for(job, trader, 42, ISSUED)
    document = final.document()
    assert from_json(Invoice, document.snapshot) == final
    assert from_json(Invoice, document.snapshot).document() == document
    assert (document.kind, document.number) == (DocumentKind.INVOICE, 42)


@given(st.text(max_size=60), st.integers(min_value=0, max_value=10**9))
@pytest.mark.long
def test_hostile_words_go_through_the_snapshot_unchanged(words: str, pence: int) -> None:
    extra = boards(words=words, price=pence)
    invoice = invoiced(extras=(extra,))
    assert from_json(Invoice, invoice.document().snapshot) == invoice


def test_nothing_of_the_traders_cost_is_in_the_invoice() -> None:
    made = quote(registered())
    option: Option = made.options[0]
    # Costs that no other figure happens to be.
    marked = replace(option, lines=tuple(replace(line, cost=770_013) for line in option.lines))
    job = laid_job(replace(made, options=(marked,)))
    snapshot = invoice_for(job, registered(), 42, ISSUED).document().snapshot
    assert "770013" not in snapshot
    assert "cost" not in snapshot
