"""The keys of the week that make papers: what is sent, and what is taken along tomorrow."""

from typing import TYPE_CHECKING

from domain.tone import Tone
from domain.week import Task, TaskKind
from tui.frame.screen import BaseScreen
from tui.week.tonight_list import TonightList

if TYPE_CHECKING:
    from tui.week.sending import HandOn


class SendingKeys(BaseScreen):
    """A screen with the list Tonight. What sends is loaded with the first of these keys."""

    def action_send(self) -> None:
        """Make the quote or invoice in front final, or mark it as sent."""
        from tui.week.sending import send

        task = self.one_in_front()
        if task is not None:
            self.save_in_worker(send(self, task))

    def action_draft(self) -> None:
        """Draft an e-mail with the quote or invoice in front attached."""
        from tui.papers.handing_on import draft_email

        self._hand_on(draft_email)

    def action_copy(self) -> None:
        """Copy a short message about the quote or invoice in front."""
        from tui.papers.handing_on import copy_message

        self._hand_on(copy_message)

    def action_open_pdf(self) -> None:
        """Open the quote or invoice in front."""
        from tui.papers.handing_on import open_pdf

        self._hand_on(open_pdf)

    def action_tomorrow(self) -> None:
        """Save what is taken along tomorrow."""
        from tui.week.tomorrow_papers import keep_tomorrow

        self.save_in_worker(keep_tomorrow(self))

    def _hand_on(self, how: "HandOn") -> None:
        from tui.week.sending import hand_on

        task = self.one_in_front()
        if task is not None and task.kind is TaskKind.OVERDUE:
            self.action_open()  # what was sent long ago is chased
        elif task is not None:
            self.save_in_worker(hand_on(self, task, how))

    def action_open(self) -> None:
        """Open the line in front; the week does."""
        raise NotImplementedError

    def one_in_front(self) -> Task | None:
        """The task in front; says so if there is none."""
        task = self.query_one(TonightList).task_in_front
        if task is None:
            self.say("Pick one line in the Tonight list first.", Tone.QUIET)
        return task
