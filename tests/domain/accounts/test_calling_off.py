"""A job that ends with money asked for or held."""

from dataclasses import replace
from datetime import date

import pytest

from domain.accounts.calling_off import settling, to_pay_back
from domain.accounts.invoice import deposit_invoice_for
from domain.days.calendar import pay_back_by
from domain.errors import Refused
from domain.job import Allocation, Closing, Ending, Job, Payment, Stage
from tests import builders

DEPOSIT = 100_00


def _asked(*paid: int) -> Job:
    """A booked job whose deposit is invoiced, with payments towards it."""
    job = builders.job_at(Stage.BOOKED)
    quotes = tuple(replace(quote, deposit=DEPOSIT) for quote in job.quotes)
    job = replace(job, quotes=quotes)
    invoice = deposit_invoice_for(job, builders.trader(), 1, builders.AGREED)
    taken = min(sum(paid), DEPOSIT)
    document = replace(invoice.document(), id=7, paid=taken)
    payments, left = [], DEPOSIT
    for number, pence in enumerate(paid, 1):
        part = min(pence, left)
        left -= part
        parts = (Allocation(7, part),) if part else ()
        payments.append(Payment(builders.AGREED, pence, "cash", parts, id=number))
    return replace(job, documents=(document,), payments=tuple(payments))


def _closing(kept: int = 0, why: str = "felt cut to size") -> Closing:
    return Closing(Ending.CALLED_OFF, "sold it", builders.AGREED, None, kept, why)


def test_money_goes_back_within_14_days_of_the_day_we_were_told() -> None:
    """Consumer Contracts Regulations 2013 reg. 34 (quoted): told 1 Dec 2026, by 15 Dec 2026."""
    assert pay_back_by(date(2026, 12, 1)) == date(2026, 12, 15)
    over = replace(_asked(), ended=Ending.CALLED_OFF, told_on=date(2026, 12, 1))
    assert to_pay_back(over) is None
    held = replace(over, payments=(Payment(builders.AGREED, 60_00, "cash", id=1),))
    assert to_pay_back(held) == (60_00, date(2026, 12, 15))
    assert to_pay_back(replace(held, ended=None)) is None


@pytest.mark.parametrize(
    ("paid", "kept", "credited", "back", "owed"),
    [
        ((), 0, DEPOSIT, 0, 0),
        ((), 40_00, 60_00, 0, 40_00),
        ((DEPOSIT,), 0, DEPOSIT, DEPOSIT, 0),
        ((DEPOSIT,), 40_00, 60_00, 60_00, 0),
        ((DEPOSIT,), DEPOSIT, 0, 0, 0),
        ((60_00,), 80_00, 20_00, 0, 20_00),
        ((60_00, 90_00), 0, DEPOSIT, 150_00, 0),
    ],
)
def test_what_is_not_kept_is_credited_and_what_was_paid_of_it_goes_back(
    paid: tuple[int, ...], kept: int, credited: int, back: int, owed: int
) -> None:
    comes = settling(_asked(*paid), _closing(kept), builders.trader())
    assert sum(each.pence for each in comes.credits) == credited
    assert (comes.pay_back, comes.owed) == (back, owed)


def test_a_part_is_kept_only_with_its_reason_and_never_more_than_was_asked_for() -> None:
    (credit,) = settling(_asked(), _closing(40_00), builders.trader()).credits
    assert credit.reason == "The job was called off. £40.00 is kept for felt cut to size."
    with pytest.raises(Refused, match="what it pays for"):
        settling(_asked(), _closing(40_00, " "), builders.trader())
    with pytest.raises(Refused, match=r"£100\.00 or less"):
        settling(_asked(), _closing(DEPOSIT + 1), builders.trader())
    with pytest.raises(Refused, match="Nothing is invoiced and no work is done"):
        settling(replace(_asked(), documents=()), _closing(1), builders.trader())
    early = builders.job_at(Stage.ENQUIRY).enquiry.received_on
    for day in (date(early.year - 1, 1, 1), date(builders.AGREED.year + 1, 1, 1)):
        with pytest.raises(Refused, match="from the enquiry on"):
            settling(_asked(), replace(_closing(), told_on=day), builders.trader())
