"""What is typed and not saved, gathered from every open form and kept in case the window goes."""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from typing import Any

from textual.app import App
from textual.screen import Screen

from domain.page_names import PageName
from storage.kept_typing import KeptTyping, keep_typing
from tui.frame.open_book import OpenBook
from tui.frame.safe_text import one_line


class TypingKept:
    """Keeps it every few seconds, and when told to leave; ``left`` is what others left behind."""

    def __init__(self, app: App[Any], open_book: OpenBook) -> None:
        self._app, self._open_book = app, open_book
        self._last: tuple[KeptTyping, ...] = ()
        self.left: tuple[KeptTyping, ...] = ()

    def keep(self) -> None:
        """Write it down if it has changed. A full disk is said at the next save."""
        now = (*self.left, *_gathered(self._app.screen_stack))
        if now != self._last:
            with suppress(OSError):
                keep_typing(self._open_book.path, now)
                self._last = now

    def forget(self) -> None:
        """Let go of what is in open forms: it was thrown away on purpose."""
        with suppress(OSError):
            keep_typing(self._open_book.path, self.left)


def _gathered(screens: "list[Screen[Any]]") -> Iterator[KeptTyping]:
    from tui.job.enquiry.enquiry_dialog import EnquiryDialog
    from tui.job.job_screen import JobScreen  # not needed at the first paint
    from tui.widgets.form_dialog import FormDialog
    from tui.your_details.details_screen import DetailsScreen

    job: JobScreen | None = None
    for screen in screens:
        if isinstance(screen, JobScreen):
            job = screen
            yield from _of_pages(screen)
        elif isinstance(screen, DetailsScreen):
            typed = screen.typed
            if typed:
                yield KeptTyping("your details", "", None, "", typed, _words(typed, screen.labels))
        elif isinstance(screen, EnquiryDialog) and screen.typed:
            words = _words(screen.typed, screen.labels)
            page = PageName.ENQUIRY.value
            yield KeptTyping(screen.called, "", None, page, screen.typed, words)
        elif isinstance(screen, FormDialog) and screen.typed:
            of, page = (job.job_id, job.front.page.value) if job is not None else (None, "")
            called = job.called if job is not None else ""
            words = _words(screen.typed, screen.labels)
            yield KeptTyping(screen.called, called, of, page, screen.typed, words, is_dialog=True)


def _of_pages(screen: Any) -> Iterator[KeptTyping]:
    for page, name in screen.typed_on:
        words = _words(page.typed, page.labels)
        yield KeptTyping(name, screen.called, screen.job_id, page.page.value, page.typed, words)


def _words(typed: Mapping[str, str], labels: Mapping[str, str]) -> str:
    return ", ".join(f"{labels.get(key, key)} {one_line(text)}" for key, text in typed.items())
