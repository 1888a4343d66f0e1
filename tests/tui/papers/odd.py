"""Papers whose every name is odd: what a person may type, and more than they would."""

from collections.abc import Iterator
from dataclasses import replace

from domain.accounts.invoice import invoice_for
from domain.accounts.receipt import receipt_for
from domain.job import Job, Payment, Stage
from domain.papers.blocks import (
    Column,
    Cut,
    CutPart,
    Cuts,
    Details,
    FillIn,
    LaidPart,
    LaidRow,
    Laying,
    Measures,
    NewPage,
    Offer,
    Offers,
    Paper,
    Signature,
    Step,
    Steps,
    Table,
    Ticks,
    Totals,
    Words,
)
from domain.papers.invoice_paper import invoice_paper
from domain.papers.materials_paper import materials_paper
from domain.papers.quote_paper import quote_paper
from domain.papers.receipt_paper import receipt_paper
from domain.papers.takeoff_paper import takeoff_paper
from domain.papers.week_paper import week_paper
from domain.tone import Tone
from domain.week import WeekData, plan_week
from tests import builders, priced
from tests.site_sheets import site_sheet_of
from tests.tui.books.an_enquiry import NASTY

ODD = f"{NASTY} \x1b[31m\x07👷🏽 {'Featherstonehaugh-' * 6}"


def _odd_job() -> Job:
    """A laid job whose every name is odd, with sums as great as a book takes."""
    job = priced.laid_job(priced.quote(priced.registered(), deposit=100_00))
    return replace(
        job,
        customer=replace(job.customer, name=ODD, address=f"{ODD}\nOsmerton"),
        site=replace(job.site, place=ODD, access=ODD),
    )


def _papers() -> Iterator[Paper]:
    job, trader = _odd_job(), priced.registered(name=ODD, trading_as="", address=f"{ODD}\n{ODD}")
    assert job.quote is not None
    yield quote_paper(job, job.quote, trader)
    yield invoice_paper(invoice_for(job, trader, 1, builders.SIGNED))
    yield materials_paper(job)
    paid = Payment(builders.DUE, 99_999_999_99, ODD)
    yield receipt_paper(
        receipt_for(builders.job_at(Stage.SIGNED_OFF), paid, trader, 9, paid.received_on)
    )
    line = replace(builders.week_line(builders.job_at(Stage.LAID)), place=ODD, customer=ODD)
    yield week_paper(plan_week(WeekData((line,), (), trader), builders.LAY_DAY))
    yield takeoff_paper(priced.worked_example())
    yield site_sheet_of(priced.worked_example(), job, trader)
    yield MADE_UP


MADE_UP = Paper(
    ODD,
    (
        Words(f"{ODD}\n\n{ODD}", ODD, Tone.STOP),
        Table((Column(ODD), Column("sum", number=True)), ((ODD, "£1,234.56"), ("", "£0.00")), ODD),
        Details(((ODD, ODD), ("", "")), ODD),
        Details((), ""),
        Ticks(((True, ODD), (False, "")), ODD),
        Totals(((ODD, "£99,999,999.99"), ("Total due", "−£0.01"))),
        Totals(()),
        Signature(ODD),
        Offers((Offer(ODD, ODD, "£99,999,999.99", ((ODD, "£0.01"),)), Offer("", "", "£1.00")), ODD),
        Offers((Offer("", "Total", "£1.00"),)),
        Steps((ODD, ""), ODD),
        FillIn((ODD, "")),
        NewPage(),
        Details(((ODD, ODD),), ODD, framed=True),
        Measures(((ODD, "1234"), ("", "")), ODD),
        Measures(()),
        Step(ODD, (ODD, "")),
        Cuts(
            (
                Cut(22, ("125", "250"), (CutPart(ODD, 125), CutPart("", 5))),
                Cut(1, (), (CutPart("", 1000),)),
            ),
            ODD,
            ODD,
            (ODD, ""),
        ),
        Laying(
            (LaidRow(ODD, (LaidPart(ODD, 125, 120, 5), LaidPart("", 2, 0)), 5),), ODD, ODD, (ODD,)
        ),
        Laying((), ODD),
    ),
    (ODD, "", ODD),
)
PAPERS = {paper.title[:8]: paper for paper in _papers()}
