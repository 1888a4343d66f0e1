"""Money before an invoice: which part it brings to tax, and on which day."""

from datetime import date

import pytest

from domain.accounts.paid_ahead import brought_to_tax
from domain.accounts.receipt import allocations_for, demand_after_enquiry
from domain.errors import Refused
from tests import builders, priced

BEFORE = builders.AGREED
AFTER = date(2026, 7, 10)  # the work is of 24 June


@pytest.mark.parametrize(
    ("deposit", "on", "vat"),
    [
        (50_00, AFTER, 16_67),
        (0, AFTER, None),  # a payment after the basic tax point makes none (VATTOS5105: read)
        (0, BEFORE, 16_67),
    ],
    ids=["deposit-asked", "none-asked", "before-the-work"],
)
def test_a_hundred_pounds_bring_their_own_day_only_where_the_agreement_or_the_work_lets_them(
    deposit: int, on: date, vat: int | None
) -> None:
    trader = priced.registered()
    job = priced.laid_job(priced.quote(trader, deposit=deposit))
    brought = brought_to_tax(job, 100_00, on, trader)
    assert (brought.vat_whole if brought else None) == vat
    assert brought is None or brought.gross == 100_00


def test_without_an_agreement_it_holds_the_standard_rate_and_without_registering_none() -> None:
    job = priced.laid_job(priced.quote(), quotes=(), laying=None)
    known = [
        brought_to_tax(job, 60_00, AFTER, who) for who in (priced.registered(), builders.trader())
    ]
    assert [each.vat_whole for each in known if each] == [10_00, 0]


def test_it_goes_to_no_invoice_and_never_comes_before_the_enquiry() -> None:
    job = priced.laid_job(priced.quote())
    assert allocations_for(job, None, 60_00) == ()
    demand_after_enquiry(job, builders.RECEIVED)
    with pytest.raises(Refused, match="1 Jun 2026"):
        demand_after_enquiry(job, date(2026, 5, 31))
