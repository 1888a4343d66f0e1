"""Mistakes planted in the program's money, or in what it prints: the reckoner finds each one."""

import csv
import shutil
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from decimal import ROUND_HALF_EVEN, Decimal
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

from domain.accounts import agreed, credit_note, invoice, ledger, receipt, taxed_ahead, write_off
from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited
from domain.accounts.money_events import CameIn, GoneBack, Moved
from domain.accounts.taxed_ahead import TaxMoved
from domain.accounts.transfer import shared_out
from domain.accounts.write_off import GivenUp
from domain.job import CustomerKind, DocumentKind, Job, Received
from domain.tax import years
from storage import ledger_read
from storage.actions import accounts_actions
from storage.book import Book
from tests import builders
from tests.storage.books import opened
from tests.storage.ledger.agreed_jobs import Price, agreed_job, begin, csv_of
from tests.storage.ledger.reckoner import Wrong, reckon
from tests.storage.ledger.tax_reckoner import reckon_tax

Row = dict[str, str]
Plant = Callable[[pytest.MonkeyPatch], None]
LAST_OF_A_YEAR = date(2027, 4, 5)
NOTHING = TaxMoved(0, 0, LAST_OF_A_YEAR)


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("laid") / "book.headlap"
    with opened(path) as book:
        begin(book, registered=True)
        agreed_job(
            book, Price(deposit=99_99, metres="3", extra=99_99), "Mrs Adeyemi", registered=True
        )
        price = Price(net=(900_00,), kind=CustomerKind.CONTRACTOR)
        first = agreed_job(book, price, "Rook Ltd", registered=True)
        agreed_job(book, price, first.customer, registered=True)
    return path


def _live(book: Book) -> str:
    """A deposit overpaid, the rest credited in part and paid, the first cheque returned."""
    job = book.issue_deposit_invoice(book.job(1), builders.SIGNED)
    job = _pay(book, job, 150_00, builders.SIGNED)
    job = book.issue_invoice(job, builders.DUE)
    last = job.invoice
    assert last is not None
    job = book.credit(job, Credited(last.id or 0, 60_05, "agreed"), builders.DUE)
    job = _pay(book, job, 500_00, LAST_OF_A_YEAR)
    cheque = GivenBack(DocumentKind.MISTAKE, job.payments[0].id or 0, 150_00, builders.DUE, "gone")
    job = book.give_back(job, cheque, builders.DUE)
    over = job.payments[1].unallocated
    back = GivenBack(DocumentKind.REFUND, job.payments[1].id or 0, over, LAST_OF_A_YEAR, "over")
    job = book.give_back(job, back, LAST_OF_A_YEAR)
    for each in job.documents:
        if each.owed:  # the debt is young, and so bears no VAT back
            early = GivenUp(each.id or 0, each.due_on + timedelta(30), "moved away")
            job = book.take_back_write_off(book.write_off(job, early), early)
    _contractors(book)
    return csv_of(book, LAST_OF_A_YEAR).decode()


def _contractors(book: Book) -> None:
    """Two invoices, one of them credited in part, paid by one transfer."""
    jobs = [book.issue_invoice(book.job(key), builders.DUE) for key in (2, 3)]
    asked = jobs[0].invoice
    assert asked is not None
    book.credit(jobs[0], Credited(asked.id or 0, 60_00, "agreed"), builders.DUE)
    owing = book.owing(jobs[0].customer.id or 0)
    money, cis = (
        sum(each.document.owed for each in owing),
        sum(each.document.to_deduct for each in owing),
    )
    shares = shared_out(owing, money + cis, cis)
    came = Received(None, money, builders.DUE, "bank transfer", cis, shares)
    book.record_payment(book.job(2), came)


def _pay(book: Book, job: Job, pence: int, on: date) -> Job:
    of = next(each.id for each in job.documents if each.owed)
    return book.record_payment(job, Received(of or 0, pence, on, "cheque"))


def _half_even(patch: pytest.MonkeyPatch) -> None:
    def rounded(pence: Decimal) -> int:
        return int(pence.quantize(Decimal(1), rounding=ROUND_HALF_EVEN))

    patch.setattr("domain.tax.vat.whole_pence", rounded)


def _net_first(patch: pytest.MonkeyPatch) -> None:
    whole = agreed.agreed_sums

    def net_first(job: Job, option: Any, *, registered: bool) -> Any:
        business = replace(job, customer=replace(job.customer, kind=CustomerKind.BUSINESS))
        told = whole(job, option, registered=registered)
        return replace(whole(business, option, registered=registered), terms=told.terms)

    patch.setattr(invoice, "agreed_sums", net_first)


def _wrong_tax_year(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(years.TaxYear, "last", property(lambda year: date(year.begins + 1, 4, 4)))


def _mistake_stays_in_its_quarter(patch: pytest.MonkeyPatch) -> None:
    all_in = ledger._money_in
    patch.setattr(
        ledger,
        "_money_in",
        lambda events: all_in([each for each in events if not isinstance(each, GoneBack)]),
    )


def _credit_with_vat_on_top(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(credit_note, "vat_in", lambda gross, rate: int(gross * rate / 100))


def _tax_point_of_the_work(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(invoice, "_tax_point", lambda job, done_on, issued_on: done_on)


def _deposit_asked_twice(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(ledger, "less", lambda whole, part: whole)


def _credit_lies_unused(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(accounts_actions, "credit_used", lambda *given: ())


def _refund_read_as_a_payment(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(ledger, "_gone_back", _free_of_charge)


def _free_of_charge(event: GoneBack, standing: Any) -> Row:
    return {**standing.row(event.of, event.entry.on, event.entry.kind), "number": event.number}


def _an_allocation_twice(patch: pytest.MonkeyPatch) -> None:
    _doubled(patch, Moved)


def _a_payment_twice(patch: pytest.MonkeyPatch) -> None:
    _doubled(patch, CameIn)


def _doubled(patch: pytest.MonkeyPatch, kind: type) -> None:
    once = ledger_read._events

    def twice(*given: Any) -> Any:
        first = True
        for event in once(*given):
            yield event
            if first and isinstance(event, kind):
                first = False
                yield event

    patch.setattr(ledger_read, "_events", twice)


def _a_deduction_on_each(patch: pytest.MonkeyPatch) -> None:
    once = ledger_read._events

    def on_each(*given: Any) -> Any:
        whole: dict[int, int] = {}
        for event in once(*given):
            if isinstance(event, CameIn):
                whole[event.payment_id] = event.cis
            if isinstance(event, Moved):
                yield replace(event, cis=whole[event.payment_id])
            else:
                yield event

    patch.setattr(ledger_read, "_events", on_each)


def _deduction_as_it_was(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(credit_note, "_deducted_less", lambda *given: 0)


def _vat_of_a_young_debt(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(write_off, "RELIEF_AFTER", 0)


def _money_ahead_taxed_twice(patch: pytest.MonkeyPatch) -> None:
    used = ledger._used
    blank = {"net": "0.00", "vat": "0.00", "tax_point": ""}
    patch.setattr(ledger, "_used", lambda *given: {**used(*given), **blank})


def _a_payment_over_has_no_tax_point(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(receipt, "brought_to_tax", lambda *given: None)


def _vat_of_a_mistake_stays(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(taxed_ahead.TaxedAhead, "never_came", lambda *given: NOTHING)


PLANTED: tuple[Plant, ...] = (
    _half_even,
    _net_first,
    _wrong_tax_year,
    _mistake_stays_in_its_quarter,
    _credit_with_vat_on_top,
    _tax_point_of_the_work,
    _deposit_asked_twice,
    _credit_lies_unused,
    _refund_read_as_a_payment,
    _an_allocation_twice,
    _a_payment_twice,
    _a_deduction_on_each,
    _deduction_as_it_was,
    _vat_of_a_young_debt,
    _money_ahead_taxed_twice,
    _a_payment_over_has_no_tax_point,
    _vat_of_a_mistake_stays,
)


def _reckoned(text: str) -> int:
    reckon_tax(text)
    return reckon(text)


def test_the_life_comes_out_as_it_is(laid: Path, path: Path) -> None:
    shutil.copy(laid, path)
    with opened(path) as book:
        assert _reckoned(_live(book)) > 10


@pytest.mark.parametrize("plant", PLANTED, ids=lambda plant: plant.__name__.strip("_"))
def test_a_planted_mistake_is_found(
    laid: Path, path: Path, plant: Plant, monkeypatch: pytest.MonkeyPatch
) -> None:
    shutil.copy(laid, path)
    with opened(path) as book:
        plant(monkeypatch)
        with pytest.raises(Wrong):
            _reckoned(_live(book))


def test_a_penny_in_any_sum_is_found(laid: Path, path: Path) -> None:
    shutil.copy(laid, path)
    with opened(path) as book:
        told = _live(book)
    rows = list(csv.DictReader(StringIO(told, newline="")))
    for at, row in enumerate(rows):
        for column in ("gross", "owed_after", "credit_after"):
            if row[column] and (column == "gross" or row["kind"] in ("use", "free", "invoice")):
                changed = {**row, column: f"{Decimal(row[column]) + Decimal('0.01')}"}
                with pytest.raises(Wrong):
                    _reckoned(_written([*rows[:at], changed, *rows[at + 1 :]]))


def _written(rows: list[Row]) -> str:
    out = StringIO(newline="")
    lines = csv.DictWriter(out, rows[0], lineterminator="\n")
    lines.writeheader()
    lines.writerows(rows)
    return out.getvalue()
