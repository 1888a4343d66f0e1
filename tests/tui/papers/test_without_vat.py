"""A trader who is not registered for VAT: no paper of theirs speaks of it, on screen or as PDF.

Every maker of a paper in the domain is here, with each of its states that has words of its own.
"""

import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from importlib import import_module

import pytest

import domain.papers
from domain.accounts.counter_entries import GivenBack, counter_note
from domain.accounts.credit_note import Credited, credit_note
from domain.accounts.invoice import deposit_invoice_for, invoice_for
from domain.accounts.receipt import receipt_for
from domain.accounts.transfer import OpenInvoice
from domain.books.items import items_of
from domain.books.money_in import MoneyIn
from domain.books.quarter import Books
from domain.customer_record import CustomerRecord
from domain.estimate.ordered import Ordered
from domain.estimate.ordering import JobToSupply, MerchantList, OrderLine
from domain.estimate.usage import estimate
from domain.job import (
    CustomerKind,
    Document,
    DocumentKind,
    Extra,
    ExtraState,
    Job,
    Payment,
    SignOff,
    Stage,
)
from domain.papers.blocks import Paper
from domain.papers.confirmation_paper import confirmation_paper
from domain.papers.counter_paper import counter_paper
from domain.papers.credit_note_paper import credit_note_paper
from domain.papers.extra_paper import extra_paper
from domain.papers.guarantee_paper import guarantee_paper
from domain.papers.held_paper import held_paper
from domain.papers.invoice_paper import invoice_paper
from domain.papers.load_list import load_list
from domain.papers.materials_paper import materials_paper
from domain.papers.order_paper import order_paper, ordered_paper
from domain.papers.quarter_paper import quarter_paper
from domain.papers.quote_paper import quote_paper
from domain.papers.receipt_paper import receipt_paper
from domain.papers.reminder_paper import second_reminder
from domain.papers.statement_paper import statement_of, statement_paper
from domain.papers.takeoff_paper import takeoff_paper
from domain.papers.waste_note import waste_note
from domain.papers.week_paper import week_paper
from domain.tax.years import TaxYear
from domain.trader import VatStanding
from domain.week import WeekData, plan_week
from tests import builders
from tests.priced import PRICES, accepted, in_felt, laid_job, quote, three_options, worked_example
from tests.site_sheets import load_for, site_sheet_of
from tests.tui.papers.pdf import pages_of
from tui.papers.as_pdf import pdf_of
from tui.papers.as_text import plain_text

_OF_VAT = re.compile(r"\b(vat|net|gross)\b", re.IGNORECASE)

# The number of an earlier registration may still stand in the details.
TRADER = builders.trader(vat_number="980780684")
_BOARDS = Extra("boards", Decimal(3), "m", 42_00, Decimal(0), ExtraState.AGREED)


def _quotes() -> Iterator[Paper]:
    for kind in CustomerKind:
        customer = builders.customer(kind=kind)
        job = builders.ready_for(Stage.QUOTED, customer=customer, quotes=())
        for made in (quote(TRADER, deposit=100_00, job=job), three_options(job)):
            yield quote_paper(job, made, TRADER)
            yield quote_paper(job, accepted(made), TRADER)


def _invoices() -> Iterator[Paper]:
    job = laid_job(quote(TRADER, deposit=100_00), extras=(_BOARDS,))
    deposit = deposit_invoice_for(job, TRADER, 41, builders.AGREED)
    yield invoice_paper(deposit)
    yield invoice_paper(invoice_for(job, TRADER, 42, builders.SIGNED))
    billed = replace(job, documents=(replace(deposit.document(), id=1),))
    yield invoice_paper(invoice_for(billed, TRADER, 42, builders.SIGNED))


def _confirmations() -> Iterator[Paper]:
    yield confirmation_paper(laid_job(quote(TRADER, deposit=100_00)), TRADER)


def _quarters() -> Iterator[Paper]:
    came = MoneyIn(builders.SIGNED, 486_00, "bank transfer", "Mrs Adeyemi", "0421")
    books, quarter = Books(money=(came,)), TaxYear(2026).quarters[0]
    yield quarter_paper(books, items_of(books, {}, quarter.year, quarter.last), quarter, TRADER)


def _receipts() -> Iterator[Paper]:
    paid = Payment(builders.DUE, 500_00, "cheque")
    job = builders.job_at(Stage.SIGNED_OFF)
    yield receipt_paper(receipt_for(job, paid, TRADER, 3, builders.DUE))


def _materials() -> Iterator[Paper]:
    made = quote(TRADER)
    yield materials_paper(laid_job(made))
    yield materials_paper(laid_job(made, usages=estimate(made.counting.basis)))


def _takeoffs() -> Iterator[Paper]:
    yield takeoff_paper(worked_example())
    yield takeoff_paper(in_felt(), builders.job_at(Stage.SURVEY))


def _site_sheets() -> Iterator[Paper]:
    job = builders.job_at(Stage.BOOKED)
    yield site_sheet_of(worked_example(), job, TRADER)
    yield site_sheet_of(in_felt(), job, TRADER)


def _load_lists() -> Iterator[Paper]:
    job = builders.job_at(Stage.BOOKED)
    for takeoff in (worked_example(), in_felt()):
        yield load_list(job, takeoff, load_for(takeoff, job, TRADER))


def _weeks() -> Iterator[Paper]:
    lines = tuple(builders.week_line(builders.job_at(s)) for s in (Stage.LAID, Stage.SIGNED_OFF))
    yield week_paper(plan_week(WeekData(lines, (), TRADER), builders.LAY_DAY))


def _held() -> Iterator[Paper]:
    made = accepted(quote(TRADER, deposit=100_00))
    job = laid_job(made, extras=(_BOARDS,), usages=estimate(made.counting.basis))
    invoice = replace(invoice_for(job, TRADER, 42, builders.SIGNED).document(), id=1)
    job = replace(job, documents=(invoice,), payments=(builders.payment(),))
    for jobs in ((job,), (builders.job_at(Stage.ENQUIRY),)):
        yield held_paper(CustomerRecord(job.customer, jobs), TRADER, builders.SIGNED)


def _credit_notes() -> Iterator[Paper]:
    job = laid_job(accepted(quote(TRADER)))
    invoice = replace(invoice_for(job, TRADER, 42, builders.SIGNED).document(), id=1)
    asked = Credited(1, 60_00, "two metres of boards too many")
    note = credit_note(replace(job, documents=(invoice,)), asked, TRADER, 1, builders.DUE)
    yield credit_note_paper(note)


def _counter_notes() -> Iterator[Paper]:
    job = laid_job(accepted(quote(TRADER)))
    came = Payment(builders.SIGNED, 50_00, "cash", id=1)
    receipt = receipt_for(job, came, TRADER, 1, builders.SIGNED).document()
    job = replace(job, payments=(came,), documents=(replace(receipt, id=1),))
    for kind in (DocumentKind.MISTAKE, DocumentKind.REFUND):
        back = GivenBack(kind, 1, 50_00, builders.DUE, "cheque returned")
        yield counter_paper(counter_note(job, back, TRADER, 1, builders.DUE))


def _owed() -> Document:
    job = laid_job(accepted(quote(TRADER)))
    return replace(invoice_for(job, TRADER, 42, builders.SIGNED).document(), id=1)


def _statements() -> Iterator[Paper]:
    owing = [OpenInvoice(1, "0001", "Mill Row", _owed())]
    for credit in (0, 20_00):
        told = statement_of(builders.customer(), owing, credit, TRADER, builders.DUE)
        yield statement_paper(told, "ann@example.com")


def _orders() -> Iterator[Paper]:
    job = JobToSupply(1, "0001", "Mill Row", "Mill Row\nOsmerton", builders.LAY_DAY, ())
    priced = next(each for each in PRICES if each.material.coloured)
    line = OrderLine(priced.material, "slate grey", 3, priced, (job,))
    for with_prices in (True, False):
        given = MerchantList("Osmerton Roofing", (line,))
        yield order_paper(given, TRADER, job.address, priced=with_prices)


def _ordered() -> Iterator[Paper]:
    day = builders.LAY_DAY
    packs = Ordered(
        "Osmerton Roofing", PRICES[0].material, "", 3, Decimal(21), day, day, "Mill Row"
    )
    yield ordered_paper([packs], TRADER)


def _of_the_work() -> Job:
    open_ = replace(_BOARDS, state=ExtraState.OPEN)
    done = SignOff("Mrs Adeyemi", builders.SIGNED, builders.DUE)
    return laid_job(accepted(quote(TRADER)), extras=(open_,), sign_off=done)


def _extras() -> Iterator[Paper]:
    job = _of_the_work()
    for kind in CustomerKind:
        yield extra_paper(replace(job, customer=builders.customer(kind=kind)), TRADER)
    yield extra_paper(replace(job, extras=(_BOARDS,)), TRADER)


PAPERS: dict[str, Callable[[], Iterator[Paper]]] = {
    "quote_paper": _quotes,
    "confirmation_paper": _confirmations,
    "invoice_paper": _invoices,
    "extra_paper": _extras,
    "guarantee_paper": lambda: iter([guarantee_paper(_of_the_work(), TRADER)]),
    "waste_note": lambda: iter([waste_note(_of_the_work(), TRADER)]),
    "receipt_paper": _receipts,
    "credit_note_paper": _credit_notes,
    "second_reminder": lambda: iter([second_reminder(_owed(), builders.DUE + timedelta(days=21))]),
    "statement_paper": _statements,
    "counter_paper": _counter_notes,
    "materials_paper": _materials,
    "order_paper": _orders,
    "ordered_paper": _ordered,
    "takeoff_paper": _takeoffs,
    "site_sheet": _site_sheets,
    "load_list": _load_lists,
    "week_paper": _weeks,
    "quarter_paper": _quarters,
    "held_paper": _held,
}
"""The papers by the name of their maker."""


def _makers() -> Iterator[str]:
    """The name of everything in the domain that gives a paper."""
    for found in pkgutil.iter_modules(domain.papers.__path__, "domain.papers."):
        for name, made in inspect.getmembers(import_module(found.name), inspect.isfunction):
            gives_one = made.__annotations__.get("return") is Paper
            if made.__module__ == found.name and gives_one and not name.startswith("_"):
                yield name


def test_every_maker_of_a_paper_is_asked() -> None:
    assert sorted(_makers()) == sorted(PAPERS)


@pytest.mark.parametrize("maker", PAPERS)
def test_no_paper_of_a_trader_who_is_not_registered_speaks_of_vat(maker: str) -> None:
    for paper in PAPERS[maker]():
        for shown in (plain_text(paper), *pages_of(pdf_of(paper))):
            assert _OF_VAT.findall(shown) == [], paper.title


def test_the_same_papers_of_one_who_is_registered_do() -> None:
    job = builders.ready_for(Stage.QUOTED, quotes=())
    registered = replace(TRADER, vat_standing=VatStanding.STANDARD)
    paper = quote_paper(job, quote(registered, job=job), registered)
    assert _OF_VAT.findall(plain_text(paper))
    assert any(_OF_VAT.findall(page) for page in pages_of(pdf_of(paper)))
