"""How a page of a job shows the comparison of coverings."""

from domain.tone import Tone
from tui.frame.commands import key_of
from tui.job.page import JobPage


def show_coverings(page: JobPage) -> None:
    """Show the recorded roof in each covering side by side; refuse while anything is only typed."""
    from tui.job.coverings.coverings_screen import CoveringsScreen

    if page.job_screen.unsaved:
        page.job_screen.say(f"Save what you typed first: {key_of('job', 'save')}.", Tone.CAUTION)
    else:
        page.app.push_screen(CoveringsScreen(page.situation.job))
