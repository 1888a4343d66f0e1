"""The keys of a job that open something beside its pages: drawing, papers, folder, its history."""

from collections.abc import Callable

from domain.checks.check import Situation
from domain.page_names import PageName
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.frame.screen import BaseScreen
from tui.job.deleting import ask_to_delete
from tui.job.job_heading import show_customer
from tui.job.page import JobPage
from tui.job.page_tabs import TABS


class JobKeys(BaseScreen):
    """A screen that shows a job. What a key opens is loaded when it is first asked for."""

    job_id: int
    situation: Situation | None
    """The record as it was last read; None until then."""

    @property
    def front(self) -> JobPage:
        """The page in front."""
        raise NotImplementedError

    @property
    def called(self) -> str:
        """The reference and place of the job; empty until it is read."""
        raise NotImplementedError

    @property
    def unsaved(self) -> list[str]:
        """The names of the pages with something typed that is not recorded."""
        raise NotImplementedError

    def _is_ready(self) -> bool:
        """Whether a page is in front."""
        raise NotImplementedError

    def action_drawing(self) -> None:
        """Show the roof to scale, what goes where: as typed where it is being typed."""
        from tui.job.roof_views import show_drawing
        from tui.roof.drawing_screen import DrawingScreen

        typed = self.front.typed_roof if self._is_ready() else None
        if typed is not None:
            self.app.push_screen(DrawingScreen(typed, f"{self.front.job.ref}, as typed"))
        else:
            self._once_surveyed(show_drawing)

    def action_history(self) -> None:
        """Show what was done of the job."""
        from tui.job.history_screen import HistoryScreen

        if self.situation is not None:
            self.app.push_screen(HistoryScreen(self.job_id, self.called))

    def action_folder(self) -> None:
        """Make the folder of the job if there is none, and open it."""
        from tui.job.job_folder import show_folder

        if self.situation is not None:
            self.in_worker(show_folder(self, self.situation.job))

    def action_customer(self) -> None:
        """Show the customer with all their jobs."""
        show_customer(self, self.situation)

    def action_delete_enquiry(self) -> None:
        """Delete an enquiry that came to nothing, once it was asked."""
        if self.situation is not None and self.may_leave():
            self.in_worker(ask_to_delete(self, self.situation.job))

    def action_site_sheet(self) -> None:
        """Show the site sheet of the recorded roof."""
        from tui.job.roof_views import show_site_sheet

        self._once_surveyed(show_site_sheet)

    def _once_surveyed(self, show: Callable[[JobPage], None]) -> None:
        """Show something of the recorded roof, unless the survey says another by now."""
        survey = TABS[PageName.SURVEY][0]
        if survey in self.unsaved:
            self.say(
                f"Save what you typed under {survey} first: {key_of('job', 'save')}.", Tone.CAUTION
            )
        elif self._is_ready():
            show(self.front)
