"""Site sheets for tests: of any take-off, with what it loads at the usual prices."""

from functools import cache

from domain.estimate.job_takeoff import supplied
from domain.estimate.supplies import PricesAndStock
from domain.estimate.weights import old_of, weigh
from domain.job import Job, Stage
from domain.papers.blocks import Paper
from domain.papers.load_list import Load, load_of
from domain.papers.site_sheet import site_sheet
from domain.takeoff.roof_takeoff import TakeOff, worked_out
from domain.trader import Trader
from tests import builders
from tests.priced import PRICES

_worked = cache(worked_out)
"""A second or two of search each."""


def load_for(takeoff: TakeOff, job: Job, trader: Trader) -> Load:
    """What a job loads, nothing in stock."""
    sources = PricesAndStock(PRICES, (), builders.VISIT)
    weights = weigh(takeoff, sources, old_of(job), trader.van)
    return load_of(job, takeoff, supplied(job, takeoff, sources), weights, trader.nailing)


def site_sheet_of(takeoff: TakeOff, job: Job | None = None, trader: Trader | None = None) -> Paper:
    """The sheet of a booked job whose roof it is."""
    job = job or builders.job_at(Stage.BOOKED)
    trader = trader or builders.trader()
    takeoff = _worked(takeoff)
    return site_sheet(job, takeoff, trader, load_for(takeoff, job, trader))
