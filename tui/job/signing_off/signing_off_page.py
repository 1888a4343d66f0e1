"""Signing off: the customer's word, a guarantee if one is given, and snags."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import ClassVar

from rich.text import Text
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.accounts.as_sent import guarantee_given
from domain.checks.check import Situation
from domain.days.calendar import show_date, show_hours
from domain.days.dates import read_past_date
from domain.job import Job, SignOff, Snag
from domain.money import show_money
from domain.page_names import PageName
from domain.quantity import show_amount
from domain.signs import Sign
from domain.trader import Trader
from tui.frame.commands import key_of
from tui.frame.safe_text import fitted
from tui.job.page import JobPage
from tui.job.signing_off.callback_dialog import callback_dialog
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, read_optional_until, read_text
from tui.widgets.form import Form
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes
from tui.widgets.line_list import LineList

FIELDS = (
    Field("who", "Signed off by", hint="the customer's name"),
    Field("on", "On", takes=Takes.DONE, today_with="who"),
    Field(
        "until",
        "Guarantee until",
        hint="leave empty if none; a date, or e.g. 10 years",
        takes=Takes.LAST_DAY,
    ),
    Field("words", "It covers", example="workmanship, not storm damage"),
)


def read_sign_off(values: Mapping[str, str], today: date) -> SignOff:
    """Return what was typed as a value. Raises :class:`domain.errors.Refused`."""
    who = read_text("who", values["who"], "Give the customer's name.")
    on = read_past_date("on", values["on"], today)
    return SignOff(
        who=who,
        on=on,
        guarantee_until=read_optional_until("until", values["until"], on, today),
        guarantee_words=values["words"].strip(),
    )


def sign_off_typed(job: Job, trader: Trader) -> dict[str, str]:
    """Return what stands in the fields; at first the guarantee that the quote gave."""
    done = job.sign_off
    if done is None:
        years = guarantee_given(job, trader)
        return {"until": show_amount(Decimal(years), "year")} if years else {}
    return {
        "who": done.who,
        "on": date_typed(done.on),
        "until": date_typed(done.guarantee_until),
        "words": done.guarantee_words,
    }


class SigningOffPage(JobPage):
    """A form, and the snags under it; Enter on a snag says that it is fixed, and what it took."""

    page: ClassVar[PageName] = PageName.SIGN_OFF
    place: ClassVar[str] = "signed_off"
    DEFAULT_CSS = """
    SigningOffPage Form { height: 4; margin-bottom: 1; }
    SigningOffPage #snags-title { height: 1; text-style: bold; }
    """

    def body(self) -> Iterable[Widget]:
        """Yield the form and the list of snags."""
        yield Form(FIELDS)
        yield Static("", id="snags-title")
        yield LineList()

    def fill(self, situation: Situation) -> None:
        """Put what is recorded into the fields."""
        self.query_one(Form).fill(sign_off_typed(situation.job, situation.trader))

    def follow(self, situation: Situation) -> None:
        """Show the snags."""
        snags = situation.job.snags
        words = (
            "Snags: press Enter when one is fixed"
            if snags
            else (f"No snags: {key_of('signed_off', 'add_snag')} adds one")
        )
        self.query_one("#snags-title", Static).update(Content(words))
        self.query_one(LineList).show(len(snags), self._draw)

    def part(self, job: Job) -> object:
        """Return what this page keeps of the job: the customer's word."""
        return job.sign_off

    def action_add_snag(self) -> None:
        """Record a snag."""
        self.app.push_screen(
            FormDialog(
                "Snag",
                (Field("words", "What", example="drip trim loose"),),
                lambda values: Snag(read_text("words", values["words"], "Say what it is.")),
                self._keep,
            )
        )

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Ask when the snag that was chosen was put right and what that took; or correct it."""
        event.stop()
        snag = self.situation.job.snags[event.row]
        self.app.push_screen(callback_dialog(snag, self.open_book.today, self._keep))

    def as_typed(self) -> Job:
        """The job with the customer's word as it is typed."""
        done = read_sign_off(self.query_one(Form).values, self.open_book.today)
        return replace(self.job, sign_off=done)

    async def save(self) -> None:
        """Record the customer's word."""
        job, done = self.job, read_sign_off(self.query_one(Form).values, self.open_book.today)
        await self.record(
            lambda book: book.sign_off(job, done), ("Saved: signed off by the customer.")
        )

    async def _keep(self, snag: Snag) -> None:
        job = self.situation.job
        await self.act(lambda book: book.save_snag(job, snag), "Saved: the snag.")

    def _draw(self, row: int, width: int) -> Text:
        snag, p = self.situation.job.snags[row], self.palette
        done = (
            f"{Sign.GOOD} fixed {show_date(snag.done_on)}"
            if snag.done_on
            else f"{Sign.CAUTION} open"
        )
        took = f"{show_hours(snag.hours)} h" if snag.hours else ""
        cost = show_money(snag.cost) if snag.cost else ""
        took = ", ".join(filter(None, (took, cost)))
        line = Text(fitted(snag.words, width - 44), style=p.ink, end="")
        line.append(f" {took:<16}", style=p.quiet)
        line.append(f" {done}", style=p.moss if snag.done_on else p.caution)
        return line
