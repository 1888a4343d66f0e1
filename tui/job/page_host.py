"""What a page of a job asks of its screen, so that no page needs to know the screen itself."""

from collections.abc import Callable, Coroutine
from typing import TYPE_CHECKING, Any, Protocol

from textual.app import App
from textual.widget import Widget

from domain.checks.check import Situation
from domain.page_names import PageName
from domain.tone import Tone

if TYPE_CHECKING:
    from tui.frame.open_book import OpenBook


class PageHost(Protocol):
    """What the pages of a job may ask of its screen."""

    situation: Situation | None
    """The record as it was last read; None until then."""
    opened_at: PageName | None
    """The page that the job was opened at; None for what is to be done next."""

    @property
    def app(self) -> App[object]:
        """The app, to put a screen or a dialog on top."""

    @property
    def open_book(self) -> "OpenBook":
        """The book that is worked on."""

    @property
    def unsaved(self) -> list[str]:
        """The names of the pages with something typed that is not saved."""

    def say(self, sentence: str, tone: Tone = Tone.GOOD, *, lasting: bool = False) -> None:
        """Say one sentence at the foot."""

    async def say_saved(
        self, sentence: str, tone: Tone = Tone.GOOD, *, lasting: bool = False
    ) -> None:
        """Say what was saved, and with which key it is undone if it can be."""

    def attempt(self, look: Callable[[], None]) -> None:
        """Look something up at once; what is refused is said."""

    def in_worker(self, work: Coroutine[Any, Any, Any]) -> None:
        """Do something that asks the book; what it refuses is said. Keys wait."""

    def in_background(self, work: Coroutine[Any, Any, Any]) -> None:
        """As :meth:`in_worker`, for what only shows more beside what is typed: keys go on."""

    def save_in_worker(self, work: Coroutine[Any, Any, Any]) -> None:
        """As :meth:`in_worker`, for what saves: one at a time, so a key held down saves once."""

    async def reload_job(self, saved: Widget | None = None) -> None:
        """Read the job and show it on every page; the page ``saved`` lets go of what was typed."""

    async def turn_to(self, name: PageName, *, enter: bool = True) -> None:
        """Bring a page to the front; ``enter`` puts the cursor into it."""

    def typed_again(self) -> None:
        """Something was typed in the page in front: what is missing may be less, or more."""

    def action_save(self) -> None:
        """Save the page in front."""

    def save_first(self) -> None:
        """Save the page in front as if for the first time: what is asked before it is asked."""
