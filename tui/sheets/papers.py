"""The papers of the work that more than one sheet of a job shows."""

from domain.estimate.counted import takeoff_of
from domain.estimate.supplies import Sources
from domain.papers.takeoff import takeoff_paper
from tui.sheets.base import Sheet


def show_takeoff(sheet: Sheet) -> None:
    """Count the roof on record and show its take-off; what stands in the way is said."""
    sheet.job_screen.errand(_counted(sheet))


async def _counted(sheet: Sheet) -> None:
    from tui.screens.paper import PaperScreen

    job, today = sheet.situation.job, sheet.desk.today
    takeoff = await sheet.desk.ask(
        lambda book: takeoff_of(job, Sources(book.prices(), book.free_stock(job.id), today))
    )
    sheet.app.push_screen(PaperScreen(takeoff_paper(takeoff, job)))
