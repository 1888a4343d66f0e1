"""Coverings side by side for the roof of one job: one is taken, or several are offered."""

import asyncio
from dataclasses import replace
from typing import ClassVar

from textual.containers import VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.coverings.registry import name_of
from domain.errors import HeadlapError
from domain.estimate.compare import (
    Compared,
    Costed,
    Counted,
    Unsuited,
    compare,
    draft_of,
    keys_beside,
    miles_of,
)
from domain.job import MOST_OPTIONS, Job
from domain.signs import Sign
from domain.tone import Tone
from domain.trader import Trader
from tui.frame.commands import key_of
from tui.frame.safe_text import one_line
from tui.frame.screen import BaseScreen
from tui.job.coverings.covering_columns import CoveringColumns
from tui.job.coverings.coverings_compared import compared_rows, covering_title
from tui.job.reprice_dialog import RepriceDialog


class CoveringsScreen(BaseScreen):
    """What each covering takes and costs on the roof of a job."""

    place: ClassVar[str] = "coverings"
    title_words: ClassVar[str] = "compare coverings"
    CSS = """
    CoveringsScreen VerticalScroll { padding: 0 2; scrollbar-size-vertical: 1; }
    CoveringsScreen #remarks { margin-top: 1; color: $quiet; }
    """

    def __init__(self, job: Job) -> None:
        super().__init__()
        self.job = job
        self._coverings: tuple[Compared, ...] = ()
        self._trader: Trader | None = None
        self._beside: set[str] | None = None
        """Keys of what is offered beside the survey's own; None until the job was read."""
        self._left = False

    def heading_words(self) -> str:
        """Return whose roof it is."""
        return one_line(f"{self.job.ref}  {self.job.site.place}")

    def body(self) -> list[Widget]:
        """The columns, and what cannot be offered."""
        return [VerticalScroll(CoveringColumns(), Static("Counting …", id="remarks"))]

    async def reload(self) -> None:
        """Read the job, and work its roof out in each covering at the prices of now."""
        today = self.open_book.today
        situation = await self.open_book.ask(lambda book: book.situation(self.job.id or 0, today))
        self.job = situation.job
        trader, sources = await self.open_book.ask(
            lambda book: (
                book.trader(),
                book.sources(situation.job.id, today),
            )
        )
        self._trader = trader
        if self._beside is None:
            self._beside = keys_beside(situation.job)
        # Not through the open book: others may ask the book while this is counted.
        try:
            self._coverings = await asyncio.to_thread(
                compare, situation.job, trader, sources, self._goes_on
            )
        except HeadlapError:
            self.query_one("#remarks", Static).update("")  # nothing is counted any more
            raise
        if self.is_attached:
            self._show()

    def on_unmount(self) -> None:
        """Nobody waits for the count any more: what runs is stopped."""
        self._left = True

    def _goes_on(self) -> bool:
        return not self._left

    def action_take(self, number: int) -> None:
        """Take a covering for the survey."""
        if number <= len(self._coverings):
            self.save_in_worker(self._taken(self._coverings[number - 1]))

    def on_covering_columns_picked(self, event: CoveringColumns.Picked) -> None:
        """Use the covering whose column was clicked, as its digit does."""
        event.stop()
        self.action_take(event.column + 1)

    def action_offer(self, number: int) -> None:
        """Put a covering into the quote, or leave it out."""
        if number > len(self._coverings) or self._beside is None:
            return
        covering = self._coverings[number - 1]
        if not isinstance(covering, Costed):
            self.say(covering.why, Tone.STOP)
        elif covering.choice.key == self._own:
            self.say("The quote begins with the covering of the survey: it stays in.", Tone.QUIET)
        elif len({self._own, covering.choice.key, *self._beside}) > MOST_OPTIONS:
            words = f"A quote offers up to {MOST_OPTIONS} coverings: leave one out first."
            self.say(words, Tone.STOP)
        else:
            self._beside ^= {covering.choice.key}
            self._show()

    def on_covering_columns_offered(self, event: CoveringColumns.Offered) -> None:
        """Offer or leave out the covering that was clicked, as its letter does."""
        event.stop()
        self.action_offer(event.column + 1)

    def action_price(self) -> None:
        """Price what is offered; after a quote that was sent only once asked."""
        quote, quotes = self.job.quote, self.job.quotes
        if quote is not None and quotes[-1].sent_on is not None:
            self.app.push_screen(RepriceDialog(quote, quotes[-1].number + 1, self._begin_pricing))
        else:
            self._begin_pricing()

    def _begin_pricing(self) -> None:
        if self._trader is not None and self._coverings:
            self.save_in_worker(self._priced(self._trader))

    async def _priced(self, trader: Trader) -> None:
        job, beside = self.job, self._beside or set()
        quote = draft_of(job, self._coverings, beside, trader, self.open_book.today)
        self.job = await self.open_book.ask(lambda book: book.save_quote(job, quote))
        names = ", ".join(name_of(option.covering) for option in quote.options)
        self.say(f"Priced: {names}. It is a draft: go back to mark it as sent.")

    @property
    def _own(self) -> str | None:
        """The covering of the survey, by its key."""
        survey = self.job.survey
        return survey.covering.key if survey and survey.covering else None

    async def _taken(self, covering: Compared) -> None:
        job, survey = self.job, self.job.survey
        if isinstance(covering, Unsuited):
            self.say(covering.why, Tone.STOP)
        elif survey is not None and survey.covering == covering.choice:
            self.say(f"It is in {covering_title(covering)} already.", Tone.QUIET)
        elif survey is not None:
            chosen = replace(survey, covering=covering.choice)
            await self.open_book.ask(lambda book: book.save_survey(job, chosen))
            await self.reload()
            then = (
                f"{key_of('coverings', 'price')} prices it."
                if isinstance(covering, Costed)
                else covering.why
            )
            self.say(f"Chosen: {covering_title(covering)}. {then}")

    def _show(self) -> None:
        columns = self.query_one(CoveringColumns)
        keys = [each.choice.key for each in self._coverings]
        columns.names = tuple(covering_title(each) for each in self._coverings)
        columns.groups = compared_rows(self.job, self._coverings)
        columns.chosen = keys.index(self._own) if self._own in keys else None
        offered = {self._own, *(self._beside or ())}
        columns.offered = tuple(
            each.choice.key in offered if isinstance(each, Costed) else None
            for each in self._coverings
        )
        self.query_one("#remarks", Static).update(Content("\n".join(self._remarks())))

    def _remarks(self) -> list[str]:
        """What the figures leave out."""
        remarks = []
        for each in self._coverings:
            if isinstance(each, Unsuited):
                remarks.append(
                    f"{Sign.CAUTION} {covering_title(each).capitalize()}: {one_line(each.why)}"
                )
            elif isinstance(each, Counted):  # the sentence names it
                remarks.append(f"{Sign.CAUTION} {each.why}")
        if not miles_of(self.job):
            remarks.append("Travel not included: no mileage entered yet.")
        return remarks
