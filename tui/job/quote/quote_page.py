"""The quote: what the customer sees, what is the trader's alone, and its way to a yes."""

from collections.abc import Iterable
from datetime import timedelta
from typing import TYPE_CHECKING, ClassVar

from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.checks.check import Severity, Situation
from domain.checks.sending import waiting
from domain.checks.stages import before_sending
from domain.days.calendar import show_date
from domain.errors import Refused
from domain.estimate.quoting import price_job
from domain.job import Acceptance, Job, Outgoing, Quote, Sending
from domain.page_names import PageName
from domain.papers.quote_paper import quote_paper
from domain.signs import BEFORE_WORDS
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.frame.safe_text import one_line
from tui.job.coverings.show_coverings import show_coverings
from tui.job.page import JobPage
from tui.job.quote.quote_dialogs import accept_dialog, agreed, send_dialog
from tui.job.quote.quote_fields import (
    PRICING,
    pricing_typed,
    read_pricing,
)
from tui.job.quote.quote_shown import customer_part, own_part, quote_standing, two_versions
from tui.job.reprice_dialog import RepriceDialog
from tui.papers.paper_part import PaperPart
from tui.widgets.form import Form

if TYPE_CHECKING:
    from storage.book import Book

_NOT_PRICED = f"Not priced yet. Type the miles, then press {key_of('quote', 'price')}."


class QuotePage(JobPage):
    """Three fields and a key price it; below them the newest version as it stands."""

    page: ClassVar[PageName] = PageName.QUOTE
    place: ClassVar[str] = "quote"
    DEFAULT_CSS = """
    QuotePage Form { height: 3; }
    QuotePage #standing { height: auto; max-height: 2; margin: 1 0; text-style: bold; }
    QuotePage #standing.-good { color: $moss; } QuotePage #standing.-caution { color: $caution; }
    QuotePage #standing.-quiet { color: $quiet; text-style: none; }
    QuotePage.-low #standing { margin: 0; }
    QuotePage FieldRow > Input { width: 15; }
    QuotePage #lines { height: 1fr; scrollbar-size-vertical: 1; }
    QuotePage #lines:focus { background: $panel; }
    QuotePage #lines > Container { layout: horizontal; height: auto; }
    QuotePage.-narrow #lines > Container { layout: vertical; }
    QuotePage PaperPart { width: 3fr; }
    QuotePage #own { width: 2fr; min-width: 36; max-width: 60; margin-left: 4; }
    QuotePage.-narrow PaperPart { width: 1fr; }
    QuotePage.-narrow #own { width: 1fr; max-width: 100%; margin: 1 0 0 0; }
    """

    def body(self) -> Iterable[Widget]:
        """Yield the fields, the quote as the customer sees it, and the trader's own figures."""
        yield Form(PRICING)
        yield Static("", id="standing")
        yield VerticalScroll(Container(PaperPart(id="seen"), PaperPart(id="own")), id="lines")

    def fill(self, situation: Situation) -> None:
        """The miles, the deposit and the own price of the newest quote."""
        self._form.fill(pricing_typed(situation.job))

    def follow(self, situation: Situation) -> None:
        """Show the newest quote as it stands."""
        job, quote = situation.job, _newest(situation.job)
        seen, own = self.query_one("#seen", PaperPart), self.query_one("#own", PaperPart)
        seen.paper = customer_part(job, quote, situation.trader) if quote else None
        own.paper = own_part(job, quote) if quote else None
        words, tone = quote_standing(job, quote) if quote else (_NOT_PRICED, Tone.QUIET)
        line = self.query_one("#standing", Static)
        line.set_classes(f"-{tone.value}")
        line.update(Content(BEFORE_WORDS.get(tone, "") + one_line(words)))

    def begin(self) -> None:
        """Put the cursor into the miles; with a quote on record, on what it says: it is read."""
        super().begin()
        if self.job.quotes:
            self.query_one("#lines").focus(scroll_visible=False)

    def part(self, job: Job) -> object:
        """Return what this page keeps of the job: the quotes."""
        return job.quotes

    def keys_left_out(self) -> frozenset[str]:
        """No yes before a quote has gone out, and nothing to send once it has.

        Nothing more of a quote on a job that is closed.
        """
        job, newest = self.job, _newest(self.job)
        if job.ended is not None:
            return frozenset({"price", "send", "accepted"})
        goes_out = newest is not None and (
            newest.sent_on is None or waiting(job, Outgoing.QUOTE, newest.number) is not None
        )
        nothing_to_accept = frozenset() if job.newest_sent else frozenset({"accepted"})
        return nothing_to_accept if goes_out else nothing_to_accept | {"send"}

    async def save(self) -> None:
        """Price it if anything was typed. Raises :class:`domain.errors.HeadlapError`."""
        if not self.dirty:
            self.job_screen.say(
                (f"Nothing to save. Press {key_of('quote', 'price')} to re-price."), Tone.QUIET
            )
        elif not self._asked_first():
            await self._price()

    def action_price(self) -> None:
        """A draft from the survey, in place of one that was not sent, after one that was."""
        if not self._asked_first():
            self._begin_pricing()

    def action_send(self) -> None:
        """Record that the draft was sent, if nothing stops it; or a quote that was final before."""
        job, draft = self.situation.job, _newest(self.situation.job)
        if draft is not None and waiting(job, Outgoing.QUOTE, draft.number):
            self.job_screen.save_in_worker(self._mark_sent(draft))
        elif draft is None or draft.sent_on is not None:
            words = (
                f"No draft. Press {key_of('quote', 'price')} to price it (a new version if one "
                "has gone out)."
            )
            self.job_screen.say(words, Tone.QUIET)
        elif self._all_saved():
            self.job_screen.attempt(lambda: self._ask_to_send(draft))

    def action_accepted(self) -> None:
        """Record the customer's yes, or correct it."""
        job, quote = self.situation.job, self.situation.job.newest_sent
        if quote is None:
            self.job_screen.say(
                (f"No quote sent yet: press {key_of('quote', 'send')} to mark the draft as sent."),
                Tone.QUIET,
            )
            return

        async def save(acceptance: Acceptance) -> None:
            now = self.situation.job
            await self.act(
                lambda book: book.accept_quote(now, acceptance), agreed(now, acceptance, today)
            )

        today = self.open_book.today
        self.app.push_screen(accept_dialog(job, quote, today, save))

    def action_side_by_side(self) -> None:
        """Show the roof in each covering."""
        show_coverings(self)

    def action_paper(self) -> None:
        """Show the quote that counts as the customer gets it; a newer version lies beneath it."""
        from tui.papers.paper_screen import PaperScreen

        job, trader, newest = self.situation.job, self.situation.trader, _newest(self.situation.job)
        if job.quote is None or newest is None:
            self.job_screen.say(
                (f"No quote yet: press {key_of('quote', 'price')} to price the job."), Tone.QUIET
            )
            return
        paper = quote_paper(job, job.quote, trader)
        if newest is job.quote:
            self.app.push_screen(PaperScreen(paper))
        else:
            words = two_versions(job.quote, newest)
            self.app.push_screen(PaperScreen(paper, quote_paper(job, newest, trader), words))

    def action_confirmation(self) -> None:
        """Show what was agreed, as the customer keeps it."""
        from domain.papers.confirmation_paper import confirmation_paper
        from tui.papers.paper_screen import PaperScreen

        job, trader = self.situation.job, self.situation.trader
        if job.quote is None or job.quote.acceptance is None:
            key = key_of("quote", "accepted")
            self.job_screen.say(f"Nobody has accepted yet: {key} records it.", Tone.QUIET)
            return
        self.app.push_screen(PaperScreen(confirmation_paper(job, trader)))

    def _asked_first(self) -> bool:
        """Ask before a version begins after one that was sent, and tell whether it was asked."""
        quote, newest = self.situation.job.quote, _newest(self.situation.job)
        if quote is None or newest is None or newest.sent_on is None:
            return False
        self.app.push_screen(RepriceDialog(quote, newest.number + 1, self._begin_pricing))
        return True

    def _begin_pricing(self) -> None:
        self.job_screen.save_in_worker(self._priced_or_refused())

    async def _priced_or_refused(self) -> None:
        try:
            await self._price()
        except Refused as error:
            self.job_screen.say(self.refuse(error), Tone.STOP)

    async def _price(self) -> None:
        job, today, pricing = self.job, self.open_book.today, read_pricing(self._form.values)

        def drafted(book: "Book") -> Job:
            sources = book.sources(job.id, today)
            asked = pricing.miles, pricing.deposit, pricing.own_price
            quote = price_job(job, book.trader(), sources, *asked)
            return book.save_quote(job, quote)

        await self.record(drafted, "Priced at today's prices and rates: a draft, not sent.")

    def _ask_to_send(self, draft: Quote) -> None:
        days = self.situation.trader.quote_days
        checks = before_sending(self.situation, self.situation.today + timedelta(days=days))
        if checks and checks[0].severity is Severity.STOP:
            words = f"Not ready to send. {checks[0].words} {checks[0].remedy}"
            self.job_screen.say(words, Tone.STOP)
            return

        async def save(sending: Sending) -> None:
            job = self.situation.job
            await self.act(
                lambda book: book.send_quote(job, sending),
                f"Marked as sent. Valid until {show_date(sending.valid_until)}.",
            )

        self.app.push_screen(send_dialog(draft, checks, days, self.open_book.today, save))

    async def _mark_sent(self, quote: Quote) -> None:
        job, today = self.situation.job, self.open_book.today
        await self.act(
            lambda book: book.mark_sent(job, Outgoing.QUOTE, quote.number, today), "Marked as sent."
        )

    def _all_saved(self) -> bool:
        """Tell whether nothing is only typed; what is sent is what is recorded."""
        unsaved = self.job_screen.unsaved
        if unsaved:
            self.job_screen.say(
                f"Save what you typed under {' and '.join(unsaved)} first.", Tone.CAUTION
            )
        return not unsaved

    @property
    def _form(self) -> Form:
        return self.query_one(Form)


def _newest(job: Job) -> Quote | None:
    """The quote of the highest number, sent or in draft."""
    return job.quotes[-1] if job.quotes else None
