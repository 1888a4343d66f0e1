"""What a screen asks of the program it runs in, so that no screen needs to know the app itself."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Protocol

from domain.page_names import PageName

if TYPE_CHECKING:
    from storage.kept_typing import KeptTyping
    from tui.frame.open_book import OpenBook


class Program(Protocol):
    """What screens may ask of the app."""

    open_book: "OpenBook"
    """The book that is worked on."""

    def list_jobs(self, *, finding: bool = False) -> None:
        """List all jobs, with the cursor where words are typed if ``finding``."""

    def open_job(
        self,
        job_id: int,
        page: PageName | None = None,
        field: str = "",
        settled: Callable[[], bool] | None = None,
    ) -> None:
        """Open a job, at the page of its stage or at the one named, there at a field.

        It closes by itself once something was saved and what it was opened for is ``settled``.
        """

    def close_deleted(self, job_id: int, words: str) -> None:
        """Close the pages of a job that was just deleted, and say so with the key to undo it."""

    def go_on_with(self, typing: "KeptTyping") -> None:
        """Open the form that was typed into, with what was typed in it."""

    def note_unforeseen(self, error: Exception) -> str:
        """Log the details of a fault, and return the sentence to say about it."""

    def look_round_example(self) -> None:
        """Leave for the example; this book opens again after it."""

    def may_leave_all(self) -> bool:
        """Whether every screen may be left; one with typing comes to the front and says so."""

    def begin_restored(self, told: str) -> None:
        """Begin with the week of the book that was restored, and say ``told`` there."""

    def action_go(self, where: str) -> None:
        """Go to one of the main screens."""

    async def run_action(self, action: str) -> bool:
        """Run one of the app's own commands by the name of its action."""
