"""What is said to a customer beside a paper."""

from dataclasses import replace
from datetime import timedelta

import pytest

from domain.accounts.invoice import deposit_invoice_for, invoice_for
from domain.days.calendar import show_date
from domain.job import CustomerKind, Stage
from domain.money import show_money
from domain.papers.blocks import Letter, Paper
from domain.papers.invoice_paper import invoice_paper
from domain.papers.letters import reminder_text
from domain.papers.quote_paper import quote_paper
from domain.trader import Trader
from tests import builders
from tests.priced import laid_job, quote, registered, three_options


def _letter(paper: Paper) -> Letter:
    assert paper.letter is not None
    return paper.letter


def test_that_of_an_invoice_says_what_to_pay_by_when_and_where() -> None:
    trader = builders.trader()
    made = invoice_for(laid_job(quote(trader)), trader, 42, builders.SIGNED)
    letter = _letter(invoice_paper(made))
    assert letter.subject == "Invoice INV-42 for your roof at Birch Lane"
    for wanted in (show_money(made.due), trader.sort_code, trader.account, "reference INV-42"):
        assert wanted in letter.short
    assert "Our invoice INV-42 is attached" in letter.text
    assert "attached" not in letter.short


def test_a_reminder_says_the_sum_the_days_and_how_to_pay_and_blames_nobody() -> None:
    trader = builders.trader()
    made = invoice_for(laid_job(quote(trader)), trader, 42, builders.SIGNED)
    today = made.due_on + timedelta(days=8)
    whole = reminder_text(made, 0, made.due, today)
    assert f"{show_money(made.due)} was due on {show_date(made.due_on)}, 8 days ago." in whole
    for wanted in (trader.sort_code, trader.account, "reference INV-42"):
        assert wanted in whole
    credited = reminder_text(made, 0, 100_00, today)
    assert f": £100.00 was due on {show_date(made.due_on)}" in credited  # no thanks for a credit
    part = reminder_text(made, made.due - 100_00, 100_00, today)
    assert f"thank you for {show_money(made.due - 100_00)}; the other £100.00 was due" in part
    for never in ("interest", "charge", "failed", "must"):
        assert never not in whole.lower()


def test_that_of_a_deposit_says_so() -> None:
    trader = builders.trader()
    made = deposit_invoice_for(laid_job(quote(trader, deposit=50_00)), trader, 7, builders.AGREED)
    assert "our deposit invoice INV-7" in _letter(invoice_paper(made)).short
    assert "£50.00" in _letter(invoice_paper(made)).text


@pytest.mark.parametrize(
    ("trader", "kind", "words"),
    [
        (builders.trader(), CustomerKind.HOUSEHOLDER, ", valid until"),
        (registered(), CustomerKind.HOUSEHOLDER, " including VAT, valid until"),
        (registered(), CustomerKind.BUSINESS, " before VAT, valid until"),
    ],
)
def test_that_of_a_quote_has_the_price_the_paper_has_large(
    trader: Trader, kind: CustomerKind, words: str
) -> None:
    customer = builders.customer(kind=kind, email="ann@example.com")
    made = quote(trader)
    job = builders.ready_for(Stage.QUOTED, quotes=(made,), customer=customer)
    letter = _letter(quote_paper(job, made, trader))
    assert letter.to == "ann@example.com"
    assert words in letter.text
    assert words in letter.short
    assert ("VAT" in letter.text) == ("VAT" in words)


def test_that_of_a_quote_names_the_price_of_every_covering() -> None:
    trader = builders.trader()
    made = replace(three_options(), sent_on=None)
    letter = _letter(quote_paper(builders.ready_for(Stage.QUOTED, quotes=(made,)), made, trader))
    assert letter.short.count("£") == len(made.options)
    assert "by the covering you choose" in letter.short
