"""Sending a quote or an invoice from its line: final first, handed on, then marked as sent."""

from collections.abc import Awaitable, Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import TypeAlias

from domain.accounts.invoice import deposit_invoice_for, invoice_for
from domain.accounts.vat_since import as_if_said, asks_for_vat_terms
from domain.checks.check import Severity, Situation
from domain.checks.stages import before_sending
from domain.days.calendar import show_date
from domain.errors import NotNow
from domain.job import Document, DocumentKind, Job, Outgoing, Sending
from domain.papers.blocks import Paper
from domain.papers.quote_paper import quote_paper
from domain.trader import Trader
from domain.week import Task, TaskKind
from domain.week.tasks import Going
from storage.book import Book
from tui.frame.screen import BaseScreen
from tui.job.money.invoice_dialog import IssueDialog
from tui.job.money.vat_terms_dialog import Said, VatTermsDialog
from tui.job.quote.quote_dialogs import final_dialog
from tui.job.quote.quote_shown import price_to_send
from tui.job.stage_moves import stops_ahead
from tui.papers.as_issued import paper_as_issued
from tui.papers.handing_on import keep_pdf

HandOn: TypeAlias = Callable[[BaseScreen, Paper], Awaitable[None]]
"""What is done with the paper once it is final."""

_NOT_ISSUED = 1  # the number is taken when it is issued


async def hand_on(screen: BaseScreen, task: Task, how: HandOn) -> None:
    """Hand on the paper of a task; one that is not final is made so first, which asks.

    Raises :class:`NotNow` for a task that sends nothing, or where a stop stands in the way.
    """
    job_id, going = _sent_by(task)
    if going.number is None:
        await _make_final(screen, task, job_id, how)
    else:
        job, trader = await screen.open_book.ask(lambda book: (book.job(job_id), book.trader()))
        await how(screen, _paper(job, trader, going))


async def send(screen: BaseScreen, task: Task) -> None:
    """Make the paper of a task final and save it as PDF; one that is final, mark as sent.

    Raises as :func:`hand_on` does.
    """
    job_id, going = _sent_by(task)
    number = going.number
    if number is None:
        await _make_final(screen, task, job_id, _saved)
        return
    today = screen.open_book.today
    job = await screen.open_book.ask(
        lambda book: book.mark_sent(book.job(job_id), going.paper, number, today)
    )
    screen.undo_of = job_id
    await screen.reload()
    await screen.say_saved(_said(job, going, today))


async def _saved(screen: BaseScreen, paper: Paper) -> None:
    where = await keep_pdf(screen.open_book, paper)
    screen.say(f"{paper.title} is final. Saved as {where}")


def _said(job: Job, going: Going, today: date) -> str:
    """That it is marked as sent, and on which day: the paper bears another if it lay a while."""
    if going.paper is Outgoing.QUOTE:
        dated = next(q.sent_on for q in job.quotes if q.number == going.number) or today
    else:
        dated = next(d.issued_on for d in _invoices(job) if d.number == going.number)
    if dated >= today:
        return f"Marked as sent on {show_date(dated)}."
    return f"Marked as sent today, {show_date(today)}; it is dated {show_date(dated)}."


async def send_newest(screen: BaseScreen, task: Task, job_id: int) -> None:
    """Make the newest draft of a quote final, which asks, and save it as PDF."""
    await _make_final(screen, replace(task, kind=TaskKind.QUOTE), job_id, _saved)


async def _make_final(screen: BaseScreen, task: Task, job_id: int, how: HandOn) -> None:
    today = screen.open_book.today
    situation = await screen.open_book.ask(lambda book: book.situation(job_id, today))
    ask = _ask_about_quote if task.kind is TaskKind.QUOTE else _ask_about_invoice
    ask(screen, task, situation, how)


def _ask_how_vat_stands(screen: BaseScreen, task: Task, job: Job, how: HandOn) -> None:
    """Ask how VAT stands to a price that was agreed without it, then go on to the invoice."""

    async def save(said: Said) -> None:
        await screen.open_book.ask(lambda book: book.say_vat_terms(job, said.terms, said.on))

    def go_on(saved: bool | None) -> None:
        if saved:
            screen.in_worker(_make_final(screen, task, job.id or 0, how))

    screen.app.push_screen(VatTermsDialog(screen.open_book.today, save), go_on)


def _ask_about_invoice(screen: BaseScreen, task: Task, situation: Situation, how: HandOn) -> None:
    job, today = situation.job, situation.today
    deposit = task.kind is TaskKind.DEPOSIT
    plan = deposit_invoice_for if deposit else invoice_for
    issue = Book.issue_deposit_invoice if deposit else Book.issue_invoice
    if asks_for_vat_terms(job, situation.trader):
        plan(as_if_said(job), situation.trader, _NOT_ISSUED, today)
        _ask_how_vat_stands(screen, task, job, how)
        return
    planned = plan(job, situation.trader, _NOT_ISSUED, today)
    made: list[Job] = []

    async def save() -> None:
        made.append(await screen.open_book.ask(lambda book: issue(book, job, today)))

    def go_on(saved: bool | None) -> None:
        if saved:
            going = Going(Outgoing.INVOICE, _invoices(made[-1])[-1].number)
            screen.in_worker(_handed_on(screen, made[-1], situation.trader, going, how))

    last, stops = situation.last_issued.get(DocumentKind.INVOICE), stops_ahead(situation)
    screen.app.push_screen(IssueDialog(planned, last, save, stops, job.extras), go_on)


def _ask_about_quote(screen: BaseScreen, task: Task, situation: Situation, how: HandOn) -> None:
    """Ask for how many days it is valid, and for the notes. Raises :class:`NotNow` at a stop."""
    job, today, days = situation.job, situation.today, situation.trader.quote_days
    checks = before_sending(situation, today + timedelta(days=days))
    if checks and checks[0].severity is Severity.STOP:
        raise NotNow(f"Not ready to send. {checks[0].words} {checks[0].remedy}")
    made: list[Job] = []

    async def save(sending: Sending) -> None:
        made.append(await screen.open_book.ask(lambda book: book.make_final(job, sending)))

    def go_on(saved: bool | None) -> None:
        if saved:
            going = Going(Outgoing.QUOTE, made[-1].quotes[-1].number)
            screen.in_worker(_handed_on(screen, made[-1], situation.trader, going, how))

    told = f"{task.who}: {price_to_send(job)}"
    screen.app.push_screen(final_dialog(job.quotes[-1], checks, days, today, save, told), go_on)


async def _handed_on(
    screen: BaseScreen, job: Job, trader: Trader, going: Going, how: HandOn
) -> None:
    await screen.reload()
    await how(screen, _paper(job, trader, going))


def _sent_by(task: Task) -> tuple[int, Going]:
    """The job and the paper of a task. Raises :class:`NotNow` for one that sends nothing."""
    if task.job_id is None or task.to_send is None:
        raise NotNow("Pick a quote or an invoice to send in the Tonight list first.")
    return task.job_id, task.to_send


def _paper(job: Job, trader: Trader, going: Going) -> Paper:
    if going.paper is Outgoing.QUOTE:
        return quote_paper(job, next(q for q in job.quotes if q.number == going.number), trader)
    document = next(d for d in _invoices(job) if d.number == going.number)
    return paper_as_issued(document, job.customer)


def _invoices(job: Job) -> list[Document]:
    return [each for each in job.documents if each.kind.asks]
