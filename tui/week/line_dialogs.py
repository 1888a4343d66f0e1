"""Lines of Tonight that a few fields settle, asked for over the list: nothing else is opened."""

from dataclasses import replace
from datetime import date, timedelta

from domain.accounts.counter_entries import GivenBack, receipt_of
from domain.checks.check import Situation
from domain.days.calendar import show_date
from domain.days.dates import read_past_date
from domain.errors import NotNow, Refused
from domain.estimate.extra_terms import terms_of
from domain.job import WRITTEN, Acceptance, Extra, ExtraState, Means, Snag
from domain.week import Task
from tui.frame.screen import BaseScreen
from tui.job.money.put_right_dialogs import PAY_BACK, GiveBackDialog, done_words
from tui.job.signing_off.callback_dialog import callback_dialog
from tui.job.stripping.extra_dialog import ExtraDialog
from tui.widgets.field_row import Field
from tui.widgets.field_values import date_typed, read_text
from tui.widgets.form import YES_NO
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes
from tui.widgets.question import Question

_SETTLED = "It has been settled meanwhile."
_YES, _NO = YES_NO
_ASKED = (
    Field("how", "They asked by", choices=tuple(WRITTEN)),
    Field("asked", "Asked on", hint="the day they asked", takes=Takes.DONE),
    Field("knows", "Knows it ends when done", choices=YES_NO),
)


async def put_snag_right(screen: BaseScreen, task: Task, job_id: int) -> None:
    """Ask when a snag was put right. Raises :class:`NotNow` if it was meanwhile."""
    job = await screen.open_book.ask(lambda book: book.job(job_id))
    named = task.words.partition(": ")[2]
    snag = next((s for s in job.snags if s.done_on is None and s.words == named), None)
    if snag is None:
        raise NotNow(_SETTLED)

    async def save(written: Snag) -> None:
        await screen.open_book.ask(lambda book: book.save_snag(book.job(job_id), written))
        await screen.say_saved("Saved: the snag.")

    screen.app.push_screen(callback_dialog(snag, screen.open_book.today, save))


async def agree_extra(screen: BaseScreen, job_id: int) -> None:
    """Ask how an open extra was agreed: by the customer and today, unless typed otherwise.

    Raises :class:`NotNow` if none is open any more.
    """
    today = screen.open_book.today
    situation = await screen.open_book.ask(lambda book: book.situation(job_id, today))
    job, trader = situation.job, situation.trader
    extra = next((each for each in job.extras if each.state is ExtraState.OPEN), None)
    if extra is None:
        raise NotNow(_SETTLED)

    async def save(written: Extra) -> None:
        await screen.open_book.ask(lambda book: book.save_extra(book.job(job_id), written))
        await screen.say_saved("Saved: the extra.")

    agreed = replace(extra, state=ExtraState.AGREED, agreed_by=job.customer.name, agreed_on=today)
    terms = terms_of(job, trader)
    screen.app.push_screen(ExtraDialog(agreed, trader, today, terms, save, begin_at="means"))


async def record_request(screen: BaseScreen, task: Task, job_id: int) -> None:
    """Ask when the customer asked for the work to start inside the right to cancel."""
    today = screen.open_book.today
    situation = await screen.open_book.ask(lambda book: book.situation(job_id, today))
    acceptance = _accepted(situation)
    ends = task.about.partition(": ")[2]

    def read(values: dict[str, str]) -> Acceptance:
        if values["knows"] != _YES:
            words = "Choose yes once they have confirmed it: otherwise the work is not paid for."
            raise Refused("knows", values["knows"], words)
        how = read_text("how", values["how"], "Choose how: what is only spoken does not count.")
        asked = read_past_date("asked", values["asked"], today)
        return replace(
            acceptance, early_request_on=asked, request_means=Means(how), knows_right_ends=True
        )

    async def save(written: Acceptance) -> None:
        await screen.open_book.ask(lambda book: book.accept_quote(book.job(job_id), written))
        asked = show_date(written.early_request_on or today)
        await screen.say_saved(f"Saved: asked on {asked} to start early.")

    dialog = FormDialog(
        f"{task.who}: the request to start early",
        _ASKED,
        read,
        save,
        words=(
            "In writing: that the work may start, and that they know the right to cancel ends "
            f"when it is done. The text of the confirmation asks for it. Without it {ends}."
        ),
        values={
            "how": acceptance.request_means.value if acceptance.request_means else "",
            "asked": date_typed(acceptance.early_request_on or today),
            "knows": _YES,
        },
    )
    dialog.add_class("-long-labels")
    screen.app.push_screen(dialog)


def _accepted(situation: Situation) -> Acceptance:
    """The customer's yes. Raises :class:`NotNow` if there is none any more."""
    quote = situation.job.quote
    if quote is None or quote.acceptance is None:
        raise NotNow(_SETTLED)
    return quote.acceptance


async def pay_back(screen: BaseScreen, job_id: int) -> None:
    """Ask when what stands to the customer's credit was paid back, a payment at a time.

    Raises :class:`NotNow` if nothing is left to be paid back.
    """
    today = screen.open_book.today
    situation = await screen.open_book.ask(lambda book: book.situation(job_id, today))
    job = situation.job
    payment = next((each for each in job.payments if each.refundable), None)
    if payment is None:
        raise NotNow(_SETTLED)

    async def save(back: GivenBack) -> None:
        await screen.open_book.ask(lambda book: book.give_back(book.job(job_id), back, today))
        screen.undo_of = job_id
        await screen.say_saved(f"Saved: {done_words(payment, back)}.")

    receipt = receipt_of(job, payment).label
    screen.app.push_screen(
        GiveBackDialog(payment, receipt, today, situation.last_issued, save, what=PAY_BACK)
    )


class TiedDown(Question):
    """Whether the tarpaulin is tied down for the night."""

    place = "tied_down"


def ask_whether_tied_down(screen: BaseScreen, task: Task, job_id: int) -> None:
    """Ask it; a yes holds until tomorrow."""
    until: date = screen.open_book.today + timedelta(days=1)

    async def save() -> None:
        await screen.open_book.ask(lambda book: book.tied_down(book.job(job_id), until))
        await screen.say_saved("Recorded: the tarpaulin is tied down.")

    words = "Strong wind is forecast for the night: weigh the tarpaulin down and lash it."
    screen.app.push_screen(TiedDown(f"{task.who}: is the tarpaulin tied down?", save, words))
