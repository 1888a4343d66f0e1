"""What is typed and not saved, gathered from every open form and kept in case the window goes."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from typing import TYPE_CHECKING, Any
from weakref import WeakKeyDictionary

from textual.app import App
from textual.screen import Screen

from domain.errors import HeadlapError
from domain.page_names import PageName
from storage.kept_typing import KeptTyping, keep_typing
from storage.marks import mark_of_book, mark_of_job
from tui.frame.open_book import OpenBook
from tui.frame.safe_text import one_line

if TYPE_CHECKING:
    from tui.job.job_screen import JobScreen


class TypingKept:
    """Keeps it every few seconds, and when told to leave; ``left`` is what others left behind."""

    def __init__(self, app: App[Any], open_book: OpenBook) -> None:
        self._app, self._open_book = app, open_book
        self._last: tuple[KeptTyping, ...] = ()
        self.left: tuple[KeptTyping, ...] = ()
        self._marks: WeakKeyDictionary[Screen[Any], str] = WeakKeyDictionary()

    def keep(self) -> None:
        """Write it down if it has changed. A full disk is said at the next save."""
        now = (*self.left, *self._gathered(self._app.screen_stack))
        if now != self._last:
            with suppress(OSError):
                keep_typing(self._open_book.path, now)
                self._last = now

    def forget(self) -> None:
        """Let go of what is in open forms: it was thrown away on purpose."""
        with suppress(OSError):
            keep_typing(self._open_book.path, self.left)

    def _gathered(self, screens: Sequence[Screen[Any]]) -> Iterator[KeptTyping]:
        from tui.job.job_screen import JobScreen  # not needed at the first paint

        job: JobScreen | None = None
        for screen in screens:
            job = screen if isinstance(screen, JobScreen) else job
            for typing in _of_screen(screen, job):
                of = job if typing.job_id is not None else None
                yield replace(typing, job_mark=self._mark(of), book_mark=self._mark_of_book())

    def _mark(self, job: "JobScreen | None") -> str:
        """By what the job of a screen is known again: read once, while it is the job shown."""
        if job is None:
            return ""
        if job not in self._marks and job.called:
            with suppress(HeadlapError):
                found = mark_of_job(self._open_book.path, job.job_id)
                if found is not None and found.called == job.called:
                    self._marks[job] = found.mark
        return self._marks.get(job, "")

    def _mark_of_book(self) -> str:
        with suppress(HeadlapError):
            return mark_of_book(self._open_book.path)
        return ""


def _of_screen(screen: Screen[Any], job: "JobScreen | None") -> Iterator[KeptTyping]:
    """What is typed in one screen; ``job`` is the one it lies on, or shows."""
    from tui.job.enquiry.enquiry_dialog import EnquiryDialog  # not needed at the first paint
    from tui.widgets.form_dialog import FormDialog
    from tui.your_details.details_screen import DetailsScreen

    if screen is job:
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
