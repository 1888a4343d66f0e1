"""The folder of a job, opened with the system's own program for folders."""

import asyncio
from pathlib import Path

from domain.job import Job
from storage.job_folders import made_job_folder, photographs_of
from tui.frame.opener import opened
from tui.frame.screen import BaseScreen

_USE = "photographs put there are counted"


async def show_folder(screen: BaseScreen, job: Job) -> None:
    """Make it if it is not there, open it, and say where it is and what it is good for."""
    book = screen.open_book.path
    folder = await asyncio.to_thread(made_job_folder, book, job)
    count = await asyncio.to_thread(photographs_of, book, job)
    screen.in_background(_opened(screen, folder, count))


async def _opened(screen: BaseScreen, folder: Path, count: int) -> None:
    holds = f"{count} photograph{'' if count == 1 else 's'} in it" if count else _USE
    if await opened(folder):
        screen.say(f"Opened {folder}: {holds}.")
    else:
        screen.say(f"The folder of the job is {folder}: {holds}.")
