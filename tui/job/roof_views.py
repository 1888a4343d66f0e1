"""What more than one page of a job shows: papers of the work, and the roof to scale."""

import asyncio
from typing import TYPE_CHECKING

from domain.drawing.draw_roof import draw_roof
from domain.estimate.job_takeoff import takeoff_of
from domain.estimate.supplies import PricesAndStock
from domain.takeoff.roof_takeoff import TakeOff, worked_out
from tui.job.page import JobPage
from tui.papers.job_papers import site_sheet_in_full, takeoff_in_full

if TYPE_CHECKING:
    from storage.book import Book


def show_takeoff(page: JobPage) -> None:
    """Count the recorded roof and show its take-off; what stands in the way is said."""
    page.job_screen.in_worker(_counted_out(page))


def show_site_sheet(page: JobPage) -> None:
    """Show the site sheet of the recorded roof; what stands in the way is said."""
    page.job_screen.in_worker(_set_out(page))


def show_drawing(page: JobPage) -> None:
    """Show the recorded roof to scale; what stands in the way is said."""
    page.job_screen.in_worker(_drawn(page))


async def _counted_out(page: JobPage) -> None:
    from tui.papers.takeoff_screen import TakeoffScreen

    counted, sources = await _counted(page)
    job, trader = page.situation.job, page.situation.trader
    paper = takeoff_in_full(counted, job, sources, trader)
    page.app.push_screen(TakeoffScreen(paper, counted))


async def _set_out(page: JobPage) -> None:
    from tui.papers.takeoff_screen import TakeoffScreen

    counted, sources = await _counted(page)
    takeoff = await asyncio.to_thread(worked_out, counted)
    job, trader = page.situation.job, page.situation.trader
    page.app.push_screen(TakeoffScreen(site_sheet_in_full(takeoff, job, sources, trader), takeoff))


async def _drawn(page: JobPage) -> None:
    from tui.roof.drawing_screen import DrawingScreen

    takeoff, _sources = await _counted(page)
    drawing = await asyncio.to_thread(draw_roof, takeoff)
    page.app.push_screen(DrawingScreen(drawing, page.situation.job.ref))


async def _counted(page: JobPage) -> tuple[TakeOff, PricesAndStock]:
    job, today = page.situation.job, page.open_book.today

    def count(book: "Book") -> tuple[TakeOff, PricesAndStock]:
        sources = book.sources(job.id, today)
        return takeoff_of(job, sources), sources

    return await page.open_book.ask(count)
