"""Jobs that are laid at a price of the test's own, to be invoiced."""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from domain.accounts.ledger import COLUMNS, ledger_rows
from domain.estimate.usage import UsageRecord, estimate, leftovers_to_stock
from domain.job import (
    Booking,
    Customer,
    CustomerKind,
    EnquiryRecord,
    Extra,
    ExtraState,
    Job,
    Line,
    LineKind,
    Means,
    Quote,
    Sending,
    Stage,
    StageMove,
)
from domain.money import share
from domain.trader import CisStanding
from storage.book import Book
from storage.export import rows_as_plain_csv
from tests import builders, priced
from tests.storage.books import BOTH_ON_A_DAY


@dataclass(frozen=True, slots=True)
class Price:
    """What a customer agrees to."""

    net: tuple[int, ...] = (400_00,)
    """Pence of the lines."""
    deposit: int = 0
    """VAT included."""
    metre: int = 14_33
    """Net pence."""
    metres: str = ""
    extra: int = 0
    """Pence, in the terms that the customer was given."""
    kind: CustomerKind = CustomerKind.HOUSEHOLDER


def begin(book: Book, *, registered: bool) -> None:
    """The trader's details and prices."""
    trader = priced.registered() if registered else builders.trader()
    book.save_trader(replace(trader, utr="1955839661", cis_standing=CisStanding.REGISTERED))
    for price in priced.PRICES:
        book.set_price(price)


def agreed_job(book: Book, price: Price, customer: str | Customer, *, registered: bool) -> Job:
    """A job that is laid on 24 June 2026 and recorded, not invoiced; of a new customer by name."""
    job = only_agreed(book, price, customer, registered=registered)
    return laid(book, job, price, registered=registered)


def only_agreed(book: Book, price: Price, customer: str | Customer, *, registered: bool) -> Job:
    """A job to which its customer has said yes."""
    who = customer
    if isinstance(who, str):
        who = builders.customer(name=who, kind=price.kind, end_user_on=builders.SENT)
    job = book.take_enquiry(EnquiryRecord(who, builders.site(), builders.enquiry()))
    job = book.save_survey(job, builders.survey())
    job = book.move_stage(job, StageMove(Stage.SURVEY, builders.VISIT, {}))
    job = book.save_quote(job, _quote(job, price, registered=registered))
    job = book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))
    option = job.quotes[0].options[0].id or 0
    return book.accept_quote(job, builders.acceptance(option_id=option))


def laid(book: Book, job: Job, price: Price, *, registered: bool) -> Job:
    """A job that was agreed, laid with the extras of a price."""
    job = book.book_days(job, Booking((builders.booked_day(),), materials_in_hand=True))
    job = book.move_stage(job, StageMove(Stage.BOOKED, builders.AGREED, BOTH_ON_A_DAY))
    job = book.record_stripping(job, builders.stripping())
    job = book.move_stage(job, StageMove(Stage.STRIPPED, builders.LAY_DAY, {}))
    for extra in _extras(price, registered=registered):
        job = book.save_extra(job, extra)
    job = book.record_laying(job, builders.laying())
    rows = estimate(job.quotes[0].counting.basis)
    job = book.record_usage(job, UsageRecord(rows, leftovers_to_stock(job, rows, builders.LAY_DAY)))
    return book.move_stage(job, StageMove(Stage.LAID, builders.LAY_DAY, {}))


def csv_of(book: Book, today: date = builders.DUE) -> bytes:
    """The whole ledger as it is printed."""
    return rows_as_plain_csv(COLUMNS, ledger_rows(book.money_events(), today))


def _quote(job: Job, price: Price, *, registered: bool) -> Quote:
    made = priced.quote(priced.registered() if registered else None, deposit=0, job=job)
    rate = Decimal(20 if registered else 0)
    lines = tuple(
        Line(LineKind.LABOUR, f"part {at}", Decimal(1), "hour", 0, net, rate)
        for at, net in enumerate(price.net)
    )
    option = replace(made.options[0], lines=lines)
    return replace(made, options=(option,), deposit=price.deposit, deck_rate=price.metre)


def _extras(price: Price, *, registered: bool) -> list[Extra]:
    rate = Decimal(20 if registered else 0)
    with_vat = registered and price.kind is CustomerKind.HOUSEHOLDER
    metre = price.metre + share(price.metre, rate) if with_vat else price.metre
    wanted = []
    if price.metres:
        metres = Decimal(price.metres)
        wanted.append(("boards", metres, "m", int(metres * metre + Decimal("0.5"))))
    if price.extra:
        wanted.append(("a lock", Decimal(1), "job", price.extra))
    return [
        Extra(
            words,
            quantity,
            unit,
            pence,
            rate,
            ExtraState.AGREED,
            agreed_by="Mrs Adeyemi",
            agreed_on=builders.LAY_DAY,
            means=Means.TEXT,
            with_vat=with_vat,
        )
        for words, quantity, unit, pence in wanted
    ]
