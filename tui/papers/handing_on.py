"""A paper handed on: kept as PDF, opened, drafted as an e-mail, its message copied."""

import asyncio
from pathlib import Path

from domain.errors import NotNow
from domain.papers.blocks import Letter, Paper
from domain.tone import Tone
from storage.saved_papers import keep_paper, papers_folder
from tui.frame.open_book import OpenBook
from tui.frame.opener import opened
from tui.frame.safe_text import one_line, shortened
from tui.frame.screen import BaseScreen
from tui.papers.as_email import draft_of
from tui.papers.as_pdf import pdf_of
from tui.papers.as_text import plain_text
from tui.papers.copying import copy_or_save

_SHOWN = 60
"""Cells of what was copied that are said back."""


async def keep_pdf(open_book: OpenBook, paper: Paper) -> Path:
    """Save a paper as an A4 PDF, and return where.

    Raises :class:`storage.saved_papers.PaperNotKept`.
    """
    logo = await open_book.ask(lambda book: book.picture(paper.look.logo))
    folder = papers_folder(open_book.path)
    return await asyncio.to_thread(
        lambda: keep_paper(folder, paper.title, pdf_of(paper, logo), ".pdf")
    )


def keep_text(open_book: OpenBook, title: str, text: str) -> Path:
    """Save a text, and return where. Raises as :func:`keep_pdf`."""
    return keep_paper(papers_folder(open_book.path), title, text.encode(), ".txt")


async def open_pdf(screen: BaseScreen, paper: Paper) -> None:
    """Save a paper as PDF and open it with the system's own program."""
    screen.in_background(_show(screen, await keep_pdf(screen.open_book, paper)))


async def draft_email(screen: BaseScreen, paper: Paper) -> None:
    """Save an e-mail to the customer with the PDF attached, and open it. Nothing is sent.

    Raises :class:`NotNow` for a paper that cannot go to a customer.
    """
    letter = letter_of(paper)
    if letter is None:
        raise NotNow("This paper is your own: there is nobody to send it to.")
    today = screen.open_book.today
    pdf = await keep_pdf(screen.open_book, paper)

    def keep() -> Path:
        draft = draft_of(letter, pdf.read_bytes(), pdf.name, today)
        return keep_paper(pdf.parent, paper.title, draft, ".eml")

    screen.in_background(_show(screen, await asyncio.to_thread(keep)))


async def copy_message(screen: BaseScreen, paper: Paper) -> None:
    """Copy the short message that goes with a paper, or the text of a paper of one's own.

    A terminal may refuse without a word: what only it was asked to copy is saved too. Raises
    :class:`NotNow` as :func:`draft_email` does.
    """
    letter = letter_of(paper)
    if letter is None:
        what, text = paper.title, plain_text(paper)
    else:
        what, text = f"{paper.title} message", " ".join(one_line(letter.short).split())
    unsure = await copy_or_save(screen.app, screen.open_book.path, what, text)
    if unsure:
        screen.say(unsure, Tone.QUIET)
    else:
        screen.say(f"Copied: {shortened(text, _SHOWN)}")


def letter_of(paper: Paper) -> Letter | None:
    """What goes with a paper to the customer. Raises :class:`NotNow` for one that is a draft."""
    if paper.not_yet:
        raise NotNow(paper.not_yet)
    return paper.letter


async def _show(screen: BaseScreen, where: Path) -> None:
    """Open a file, and say where it is."""
    if await opened(where):
        screen.say(f"Opened {where}")
    else:
        screen.say(f"Saved as {where} – open it from there.")
