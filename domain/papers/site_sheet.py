"""The site sheet: what is needed on the roof, in the order of the work, in few words.

What could kill comes before everything else, of stripping as of laying: it is the one paper that
goes up the ladder.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from domain.checks.before_laid import LAYING_TICKS
from domain.cutting.working import WorkingPlan
from domain.drawing.draw_felt import draw_felt
from domain.drawing.draw_working import draw_working
from domain.drawing.drawing_parts import Drawing
from domain.drawing.like_slopes import like_slopes
from domain.drawing.plan_view import plan_of
from domain.errors import NotNow
from domain.estimate.edge_parts import stay_on_verges, to_renew
from domain.job import DeckKind, Job, Survey
from domain.papers.blocks import Block, Cuts, Laying, Paper, Picture, Step, Ticks, Words
from domain.papers.cut_and_lay import cuts_of
from domain.papers.felt_on_roof import felt_chalk_lines, work_in_felt
from domain.papers.load_list import Load
from domain.papers.page_one import head_of, page_one
from domain.papers.shared_parts import numbered
from domain.papers.shingle_work import chalk_lines, work_in_shingles
from domain.quantity import show_amount
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import ShingleTakeOff, TakeOff
from domain.trader import Trader


def site_sheet(job: Job, takeoff: TakeOff, trader: Trader, load: Load) -> Paper:
    """The sheet of one job, from the take-off of its roof, worked out."""
    steps = (
        *load.steps,
        Step("Strip, and mend the deck", tuple(_strip_rows(job, takeoff))),
        *_work(takeoff, trader, job.survey),
        Ticks(tuple((False, words) for words in LAYING_TICKS.values()), "Before you leave"),
    )
    blocks = (
        *page_one(job, takeoff, trader.limits),
        *_to_tape(takeoff, job.survey),
        *_in_order(steps),
    )
    return Paper(f"Site sheet {job.ref}", blocks, head_of(job, takeoff), on_the_roof=True)


def _in_order(blocks: Iterable[Block]) -> Iterator[Block]:
    """The steps with their numbers: what has a heading begins one."""
    number = 0
    for block in blocks:
        if isinstance(block, Step | Cuts | Laying | Ticks) and block.heading:
            number += 1
            block = replace(block, heading=f"{number}  {block.heading}")  # noqa: PLW2901
        yield block


def _work(takeoff: TakeOff, trader: Trader, survey: Survey | None) -> Iterator[Block]:
    on_the_roof = Words("", "On the roof")
    if isinstance(takeoff, FeltTakeOff):
        yield on_the_roof
        yield from work_in_felt(takeoff, trader, survey)
    else:
        # On the ground, while the mastic is still in its tube.
        yield cuts_of(takeoff, _plan(takeoff))
        yield on_the_roof
        yield from work_in_shingles(takeoff, _plan(takeoff), trader, survey)


def _to_tape(takeoff: TakeOff, survey: Survey | None) -> Iterator[Block]:
    """Chalk lines, large, then the drawing."""
    if isinstance(takeoff, FeltTakeOff):
        drawing = draw_felt(takeoff)
        yield from felt_chalk_lines(drawing)
    else:
        drawing = draw_working(takeoff, _plan(takeoff))
        yield from chalk_lines(takeoff)
    yield _picture(drawing, survey.edges.slope_one.strip() if survey else "")


def _picture(drawing: Drawing, slope_one: str) -> Picture:
    alike = like_slopes(drawing.slopes)
    return Picture(
        replace(drawing, slopes=tuple(each.drawn for each in alike)),
        tuple(f"Slope{'s' * (len(a.numbers) > 1)} {numbered(a.numbers)}" for a in alike),
        plan_of(drawing.takeoff.roof),
        slope_one,
    )


def _plan(takeoff: ShingleTakeOff) -> WorkingPlan:
    if takeoff.working is None:
        raise NotNow("The plan to work by is not worked out yet.")
    return takeoff.working


def _strip_rows(job: Job, takeoff: TakeOff) -> Iterator[str]:
    deck = job.survey.deck if job.survey else None
    boards = "sheets" if deck and deck.kind is DeckKind.SHEET else "boards"
    yield "Strip no more than you can lay or cover today. Anything suspect underneath: stop."
    if job.survey and stay_on_verges(takeoff.roof, job.survey.edges):
        again = "after the felt" if isinstance(takeoff, FeltTakeOff) else "after the underlay"
        yield f"Barge boards off first, each marked left or right; on again {again}."
    if deck and deck.replace_m:
        kind = f", {deck.profile}" if deck.profile else ""
        replaced = f"{show_amount(deck.replace_m, 'm')} of {boards}{kind}"
        yield f"Replace {replaced}; more is an extra: ask first."
    else:
        yield f"No {boards} to replace were seen. What is found rotten is an extra: ask first."
    parts = to_renew(takeoff.roof, job.survey.edges) if job.survey else ()
    if parts:
        told = (f"{part.material.words} {show_amount(part.metres, 'm')}" for part in parts)
        yield f"Renew: {', '.join(told)}."
    yield "Nails sticking up: out, or home. Deck swept, and dry."
