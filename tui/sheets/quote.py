"""The quote: what the customer sees, and apart from it what it costs and leaves."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import ClassVar

from rich.text import Text
from textual.widget import Widget
from textual.widgets import Static

from domain.checks.check import Severity, Situation
from domain.coverings import SHINGLES
from domain.errors import NotNow
from domain.job import Acceptance, CustomerKind, Job, Quote, Stage
from domain.money import read_money, show_money
from domain.papers.blocks import Tone
from domain.papers.quote import quote_paper
from domain.quoting import cost_and_margin, draft_quote, option_total
from domain.roof import build_roof
from domain.sheets import SheetName
from domain.stages import missing
from domain.supplies import Sources
from domain.takeoff import take_off
from storage.book import Book
from tui.dialogs.quote import Sending, accepted_dialog, send_dialog
from tui.reading.plain import read_number, typed_money
from tui.reading.takeoff import packing_for
from tui.safe_text import fitted
from tui.sheets.base import Sheet
from tui.widgets.form import Field, Form

FIELDS = (
    Field("miles", "There and back", unit="miles", hint="14"),
    Field("deposit", "Deposit", unit="£", hint="0.00"),
)


class QuoteSheet(Sheet):
    """Priced from the survey, sent, accepted; each a key."""

    sheet: ClassVar[SheetName] = SheetName.QUOTE
    place: ClassVar[str] = "quote"
    DEFAULT_CSS = "QuoteSheet Form { height: 3; } QuoteSheet Static { height: auto; }"

    def body(self) -> Iterable[Widget]:
        """What is asked for pricing, and the lines."""
        yield Form(FIELDS)
        yield Static("", id="lines")

    def fill(self, situation: Situation) -> None:
        """The deposit on record; the lines are drawn by :meth:`follow`."""
        quote = situation.job.quote
        deposit = typed_money(quote.deposit) if quote and quote.deposit else ""
        self.query_one(Form).fill({"deposit": deposit})

    def follow(self, situation: Situation) -> None:
        """The lines of the quote that counts."""
        self.query_one("#lines", Static).update(self._lines(situation.job))

    def part(self, job: Job) -> object:
        """The quotes."""
        return job.quotes

    async def save(self) -> None:
        """Price it with what was typed."""
        job, today = self.job, self.desk.today
        values = self.query_one(Form).values
        miles = read_number("There and back", values["miles"] or "0", "miles such as 14")
        deposit = read_money("Deposit", values["deposit"] or "0")

        def priced(book: Book) -> Job:
            return book.save_quote(job, _priced(book, job, (miles, deposit), today))

        await self.record(priced, f"Priced as of {today:%d %b}: a draft until it is sent.")

    def action_price(self) -> None:
        """As saving: the price is what is saved here."""
        self.job_screen.action_save()

    def action_send(self) -> None:
        """It was sent: ask when, and for notes on cautions."""
        situation = self.situation
        cautions = [
            check
            for check in missing(situation, Stage.QUOTED)
            if check.severity is Severity.CAUTION
        ]

        async def save(sending: Sending) -> None:
            job = self.situation.job
            await self.record(
                lambda book: book.send_quote(
                    job, sending.sent_on, sending.holds_until, dict(sending.notes)
                ),
                "The quote is sent, and frozen.",
            )

        self.app.push_screen(send_dialog(situation, cautions, save))

    def action_accepted(self) -> None:
        """The customer said yes."""
        job, quote = self.situation.job, self.situation.job.quote
        if quote is None or quote.sent_on is None:
            self.job_screen.say("Send the quote first.", Tone.QUIET)
            return

        async def save(acceptance: Acceptance) -> None:
            now = self.situation.job
            await self.record(
                lambda book: book.accept_quote(now, acceptance), "Saved: the customer's yes."
            )

        name, today = job.customer.name, self.desk.today
        self.app.push_screen(accepted_dialog(quote.options[0], name, today, save))

    def action_paper(self) -> None:
        """As the customer sees it."""
        from tui.screens.paper import PaperScreen

        job, quote = self.situation.job, self.situation.job.quote
        if quote is None:
            self.job_screen.say("There is no quote yet: price it first.", Tone.QUIET)
        else:
            self.app.push_screen(PaperScreen(quote_paper(job, quote, self.situation.trader)))

    def _lines(self, job: Job) -> Text:
        p, quote = self.palette, job.quote
        if quote is None:
            return Text("No quote yet: ctrl+r prices the survey.", style=p.quiet)
        text = Text(f"Quote {quote.number} · {_state(quote)}\n", style=f"bold {p.ink}")
        option = quote.accepted or quote.options[0]
        for line in option.lines:
            text.append(f"{fitted(line.words, 44)} ", style=p.quiet)
            text.append(f"{show_money(line.price):>11}\n", style=p.ink)
        totals, margin = option_total(option), cost_and_margin(option)
        householder = job.customer.kind is CustomerKind.HOUSEHOLDER
        whole = totals.gross if householder else totals.net
        text.append(f"{'To pay' if householder else 'Net of VAT':<44} ", style=p.quiet)
        text.append(f"{show_money(whole):>11}\n", style=f"bold {p.brick}")
        text.append("\nYours alone: ", style=p.heather)
        text.append(
            f"cost {show_money(margin.cost)}, leaves {show_money(margin.pence)}"
            f" ({margin.percent:.0f} %)",
            style=p.quiet,
        )
        return text


def _state(quote: Quote) -> str:
    if quote.acceptance is not None:
        return f"accepted by {quote.acceptance.who}, {quote.acceptance.on:%d %b}"
    if quote.sent_on is None:
        return "a draft, not sent"
    return f"sent {quote.sent_on:%d %b}, holds until {quote.holds_until:%d %b}"


def _priced(book: Book, job: Job, asked: tuple[Decimal, int], today: date) -> Quote:
    """Price the survey at today's prices; asked are the miles and the deposit."""
    survey = job.survey
    if survey is None or survey.covering is None:
        raise NotNow("Write up the survey first: the roof and the covering.")
    miles, deposit = asked
    sources = Sources(book.prices(), book.stock(), today)
    packing = packing_for(survey.covering, sources)
    counted = take_off(build_roof(survey.measures), SHINGLES[survey.covering.key], packing)
    return draft_quote(
        job, counted, book.trader(), sources.prices, sources.stock, miles, today, deposit
    )
