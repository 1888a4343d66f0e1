"""The paper of a job that a name on the command line asks for."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TypeAlias

from domain.accounts.chasing import goes_out_again
from domain.errors import NotNow
from domain.estimate.job_takeoff import supplied, takeoff_of
from domain.estimate.supplies import PricesAndStock
from domain.estimate.weights import old_of, weigh
from domain.job import DocumentKind, Job, Quote
from domain.papers.blocks import Paper
from domain.papers.confirmation_paper import confirmation_paper
from domain.papers.extra_paper import extra_paper
from domain.papers.guarantee_paper import guarantee_paper
from domain.papers.load_list import Load, load_list, load_of
from domain.papers.materials_paper import materials_paper
from domain.papers.quote_paper import quote_paper
from domain.papers.reminder_paper import second_reminder
from domain.papers.site_sheet import site_sheet
from domain.papers.takeoff_paper import takeoff_paper
from domain.papers.waste_note import waste_note
from domain.takeoff.roof_takeoff import TakeOff, worked_out
from domain.trader import Trader
from tui.papers.as_issued import paper_as_issued

Maker: TypeAlias = Callable[[Job, Trader, PricesAndStock], Paper]


def paper_of(kind: str, job: Job, trader: Trader, sources: PricesAndStock) -> Paper:
    """Return the paper of a job that ``kind`` names: a key of :data:`MAKERS`.

    Take-off and site sheet are counted at the prices and the stock of ``sources``.

    Raises :class:`NotNow` where the job has no such paper yet, and ``KeyError`` for a name that no
    paper has.
    """
    return MAKERS[kind](job, trader, sources)


def _takeoff(job: Job, trader: Trader, sources: PricesAndStock) -> Paper:
    return takeoff_in_full(takeoff_of(job, sources), job, sources, trader)


def _site_sheet(job: Job, trader: Trader, sources: PricesAndStock) -> Paper:
    return site_sheet_in_full(worked_out(takeoff_of(job, sources)), job, sources, trader)


def _load_list(job: Job, trader: Trader, sources: PricesAndStock) -> Paper:
    takeoff = worked_out(takeoff_of(job, sources))
    return load_list(job, takeoff, _load_of(job, takeoff, trader, sources))


def _load_of(job: Job, takeoff: TakeOff, trader: Trader, sources: PricesAndStock) -> Load:
    weights = weigh(takeoff, sources, old_of(job), trader.van)
    return load_of(job, takeoff, supplied(job, takeoff, sources), weights, trader.nailing)


def _quote(job: Job, trader: Trader, _sources: PricesAndStock) -> Paper:
    return quote_paper(job, _quote_of(job), trader)


def _materials(job: Job, _trader: Trader, _sources: PricesAndStock) -> Paper:
    _quote_of(job)
    return materials_paper(job)


def _second_reminder(job: Job, _trader: Trader, sources: PricesAndStock) -> Paper:
    _quote_of(job)
    late = goes_out_again(job, sources.today)
    return second_reminder(late, sources.today, job.customer.email)


def _of_the_work(make: Callable[[Job, Trader], Paper]) -> Maker:
    """Make a paper that comes with the work: there was a quote before it."""

    def made(job: Job, trader: Trader, _sources: PricesAndStock) -> Paper:
        _quote_of(job)
        return make(job, trader)

    return made


def _newest(kind: DocumentKind) -> Maker:
    """Make the newest document of a kind as it was issued; an invoice only if it stands."""

    def made(job: Job, _trader: Trader, _sources: PricesAndStock) -> Paper:
        _quote_of(job)
        of_kind = (each for each in reversed(job.documents) if each.kind is kind)
        found = next((each for each in of_kind if not each.is_withdrawn), None)
        if found is None:
            words = "is not invoiced yet" if kind is DocumentKind.INVOICE else f"has no {kind} yet"
            raise NotNow(f"Job {job.ref} {words}.")
        return paper_as_issued(found, job.customer)

    return made


def _quote_of(job: Job) -> Quote:
    """Return the quote that counts; raises :class:`NotNow` before there is one."""
    if job.quote is None:
        raise NotNow(f"Job {job.ref} has no quote yet.")
    return job.quote


MAKERS: Mapping[str, Maker] = MappingProxyType(
    {
        "quote": _quote,
        "confirmation": _of_the_work(confirmation_paper),
        "extra": _of_the_work(extra_paper),
        "guarantee": _of_the_work(guarantee_paper),
        "waste-note": _of_the_work(waste_note),
        "second-reminder": _second_reminder,
        "takeoff": _takeoff,
        "materials": _materials,
        "site-sheet": _site_sheet,
        "load-list": _load_list,
        **{kind.value.replace(" ", "-"): _newest(kind) for kind in DocumentKind},
    }
)
"""What makes each paper, by the name it is asked for by."""


def takeoff_in_full(takeoff: TakeOff, job: Job, sources: PricesAndStock, trader: Trader) -> Paper:
    """The take-off of a job with its weights, bought as ``sources`` have it."""
    weights = weigh(takeoff, sources, old_of(job), trader.van)
    return takeoff_paper(takeoff, job, weights, supplied(job, takeoff, sources))


def site_sheet_in_full(
    takeoff: TakeOff, job: Job, sources: PricesAndStock, trader: Trader
) -> Paper:
    """The site sheet of a job with what it loads, bought as ``sources`` have it."""
    return site_sheet(job, takeoff, trader, _load_of(job, takeoff, trader, sources))
