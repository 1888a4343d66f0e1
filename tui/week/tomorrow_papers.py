"""What is taken along tomorrow, kept as PDFs with one key: site sheet and load list of each job."""

import asyncio
from datetime import timedelta
from pathlib import Path

from domain.days.calendar import show_weekday
from domain.tone import Tone
from domain.week import plan_days
from storage.week_and_jobs import read_week
from tui.frame.screen import BaseScreen
from tui.papers.handing_on import keep_pdf
from tui.papers.job_papers import paper_of

_PAPERS = ("site-sheet", "load-list")


async def keep_tomorrow(screen: BaseScreen) -> None:
    """Save the papers of every job that is worked on tomorrow, and say where.

    Raises :class:`NotNow` for a roof that is not surveyed, :class:`Refused` for one that cannot be
    counted, and as :func:`keep_pdf` does.
    """
    today, path = screen.open_book.today, screen.open_book.path
    tomorrow = today + timedelta(days=1)
    (day,) = plan_days(read_week(path, today), tomorrow, 1, today)
    jobs = list(dict.fromkeys(entry.job_id for entry in day.entries if entry.is_work))
    if not jobs:
        screen.say(f"No work is booked for tomorrow, {show_weekday(tomorrow)}.", Tone.QUIET)
        return
    kept = [where for job_id in jobs for where in await _kept(screen, job_id)]
    first, *others = kept
    screen.say(f"Saved as {' and '.join([str(first), *(each.name for each in others)])}")


async def _kept(screen: BaseScreen, job_id: int) -> list[Path]:
    """The papers of one job, saved."""
    today = screen.open_book.today
    job, trader, sources = await screen.open_book.ask(
        lambda book: (book.job(job_id), book.trader(), book.sources(job_id, today))
    )
    return [
        await keep_pdf(
            screen.open_book, await asyncio.to_thread(paper_of, name, job, trader, sources)
        )
        for name in _PAPERS
    ]
