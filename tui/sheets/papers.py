"""What more than one sheet of a job shows: papers of the work, the roof, coverings side by side."""

import asyncio
from typing import TYPE_CHECKING

from domain.drawing.draw import draw_roof
from domain.estimate.job_takeoff import takeoff_of
from domain.estimate.supplies import PricesAndStock
from domain.papers.site_sheet import site_sheet
from domain.takeoff.take_off import TakeOff
from domain.tone import Tone
from tui.commands import key_of
from tui.papers.choose import takeoff_in_full
from tui.sheets.base import Sheet

if TYPE_CHECKING:
    from storage.book import Book


def show_takeoff(sheet: Sheet) -> None:
    """Count the roof on record and show its take-off; what stands in the way is said."""
    sheet.job_screen.errand(_counted_out(sheet))


def show_site_sheet(sheet: Sheet) -> None:
    """As :func:`show_takeoff`, the sheet for the roof."""
    sheet.job_screen.errand(_set_out(sheet))


def show_drawing(sheet: Sheet) -> None:
    """As :func:`show_takeoff`, the roof to scale."""
    sheet.job_screen.errand(_drawn(sheet))


def show_coverings(sheet: Sheet) -> None:
    """Show the roof on record in each covering side by side."""
    from tui.screens.side_by_side import SideBySideScreen

    if sheet.job_screen.unsaved:
        sheet.job_screen.say(f"Save what you typed first: {key_of('job', 'save')}.", Tone.CAUTION)
    else:
        sheet.app.push_screen(SideBySideScreen(sheet.situation.job))


async def _counted_out(sheet: Sheet) -> None:
    from tui.screens.takeoff import TakeoffScreen

    counted, sources = await _counted(sheet)
    job, trader = sheet.situation.job, sheet.situation.trader
    paper = takeoff_in_full(counted, job, sources, trader)
    sheet.app.push_screen(TakeoffScreen(paper, counted))


async def _set_out(sheet: Sheet) -> None:
    from tui.screens.takeoff import TakeoffScreen

    (takeoff, _sources), situation = await _counted(sheet), sheet.situation
    paper = site_sheet(situation.job, takeoff, situation.trader)
    sheet.app.push_screen(TakeoffScreen(paper, takeoff))


async def _drawn(sheet: Sheet) -> None:
    from tui.screens.drawing import DrawingScreen

    takeoff, _sources = await _counted(sheet)
    drawing = await asyncio.to_thread(draw_roof, takeoff)
    sheet.app.push_screen(DrawingScreen(drawing, sheet.situation.job.ref))


async def _counted(sheet: Sheet) -> tuple[TakeOff, PricesAndStock]:
    job, today = sheet.situation.job, sheet.desk.today

    def count(book: "Book") -> tuple[TakeOff, PricesAndStock]:
        sources = PricesAndStock(book.prices(), book.free_stock(job.id), today)
        return takeoff_of(job, sources), sources

    return await sheet.desk.ask(count)
