"""What more than one sheet of a job shows: papers of the work, coverings side by side."""

from collections.abc import Callable

from domain.estimate.counted import takeoff_of
from domain.estimate.supplies import Sources
from domain.papers.blocks import Paper, Tone
from domain.papers.site_sheet import site_sheet
from domain.papers.takeoff import takeoff_paper
from domain.takeoff.take_off import TakeOff
from tui.sheets.base import Sheet


def show_takeoff(sheet: Sheet) -> None:
    """Count the roof on record and show its take-off; what stands in the way is said."""
    job = sheet.situation.job
    sheet.job_screen.errand(_counted(sheet, lambda takeoff: takeoff_paper(takeoff, job)))


def show_site_sheet(sheet: Sheet) -> None:
    """As :func:`show_takeoff`, the sheet for the roof."""
    job, trader = sheet.situation.job, sheet.situation.trader
    sheet.job_screen.errand(_counted(sheet, lambda takeoff: site_sheet(job, takeoff, trader)))


def show_coverings(sheet: Sheet) -> None:
    """Show the roof on record in each covering side by side."""
    from tui.screens.side_by_side import SideBySideScreen

    if sheet.job_screen.unsaved:
        sheet.job_screen.say("Save what you typed first: ctrl+s.", Tone.CAUTION)
    else:
        sheet.app.push_screen(SideBySideScreen(sheet.situation.job))


async def _counted(sheet: Sheet, written: Callable[[TakeOff], Paper]) -> None:
    from tui.screens.paper import PaperScreen

    job, today = sheet.situation.job, sheet.desk.today
    takeoff = await sheet.desk.ask(
        lambda book: takeoff_of(job, Sources(book.prices(), book.free_stock(job.id), today))
    )
    sheet.app.push_screen(PaperScreen(written(takeoff)))
