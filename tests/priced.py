"""Prices, take-offs and quotes for tests of the money side."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache
from typing import Any

from domain.coverings.felt import FELT
from domain.coverings.materials import Material
from domain.coverings.registry import SHINGLES
from domain.estimate.quoting import draft_quote
from domain.estimate.stock import Price, StockLine
from domain.job import Job, Quote, Stage
from domain.setting_out.forms.roof import build_roof
from domain.takeoff.felt_takeoff import FeltTakeOff, take_off_felt
from domain.takeoff.packing import Packing
from domain.takeoff.roof_takeoff import ShingleTakeOff, TakeOff, take_off_shingles, worked_out
from domain.trader import Trader, VatStanding
from tests import builders

PRICED = date(2026, 1, 5)


def price(material: Material, net: int, per_pack: str, **changes: Any) -> Price:
    """A price of 5 January 2026 at 20 % VAT."""
    plain = Price(material, "Osmerton Roofing", Decimal(per_pack), net, Decimal(20), PRICED)
    return replace(plain, **changes)


PRICES = (
    price(Material("square-butt"), 31_50, "21"),
    price(Material("hexagonal"), 33_00, "21"),
    price(Material.UNDERLAY, 24_99, "15"),
    price(Material.SHINGLE_NAILS, 6_45, "900"),
    price(Material.FELT_NAILS, 6_45, "900"),
    price(Material.MASTIC, 3_33, "1"),
    price(Material("felt"), 27_50, "10"),
    price(Material.ADHESIVE, 15_75, "30"),
)


@cache
def worked_example(covering: str = "square-butt") -> ShingleTakeOff:
    """The apex of 2.4 m by 1.8 m: 55 strips with breakage, 463 nails, 2 cartridges."""
    return take_off_shingles(build_roof(builders.measures()), SHINGLES[covering])


def three_options(job: Job | None = None, stock: tuple[StockLine, ...] = ()) -> Quote:
    """The worked example in each covering, the survey's own first."""
    takeoffs = (worked_out(worked_example()), worked_out(worked_example("hexagonal")), in_felt())
    return quote(job=job, stock=stock, takeoffs=takeoffs)


@cache
def in_felt() -> FeltTakeOff:
    """The same apex in felt: 3 rolls, 11.5 m, 402 nails, 11.48 m of lap."""
    return take_off_felt(build_roof(builders.measures()), FELT, Packing())


def registered(**changes: Any) -> Trader:
    """A trader who is registered for VAT."""
    return builders.trader(
        **{"vat_standing": VatStanding.STANDARD, "vat_number": "980780684", **changes}
    )


def quote(
    trader: Trader | None = None,
    stock: tuple[StockLine, ...] = (),
    deposit: int = 0,
    job: Job | None = None,
    takeoffs: tuple[TakeOff, ...] = (),
) -> Quote:
    """The worked example's quote, drafted on the day of the visit, 12 miles there and back."""
    return draft_quote(
        job or builders.ready_for(Stage.QUOTED, quotes=()),
        takeoffs or (worked_example(),),
        trader or builders.trader(),
        PRICES,
        stock,
        Decimal(12),
        builders.VISIT,
        deposit,
    )


def accepted(made: Quote) -> Quote:
    """The quote sent, recorded and accepted."""
    options = tuple(replace(each, id=at) for at, each in enumerate(made.options, start=1))
    return replace(
        made,
        id=1,
        options=options,
        sent_on=builders.SENT,
        valid_until=builders.VALID_UNTIL,
        acceptance=builders.acceptance(),
    )


def laid_job(made: Quote, **changes: Any) -> Job:
    """A job that is laid, on the accepted quote, not invoiced."""
    return builders.job_at(Stage.LAID, **{"quotes": (accepted(made),), "usages": (), **changes})
