"""A text is copied, and it is said truly whether that is known."""

from pathlib import Path
from typing import Any

from textual.app import App

from storage.saved_papers import keep_paper, papers_folder
from tui.frame.clipboard import copied


async def copy_or_save(app: App[Any], book: Path, title: str, text: str) -> str:
    """Copy a text; return nothing if it is known that it was done, else a sentence to say.

    A terminal may refuse without a word: what only it was asked to copy is saved among the
    papers of ``book`` too, as ``title``.
    """
    if await copied(text):
        return ""
    where = keep_paper(papers_folder(book), title, text.encode(), ".txt")
    app.copy_to_clipboard(text)
    return f"Your terminal may have copied it. Also saved as {where}"
