"""What came after a quote was sent: for the trader's eyes, on no paper that a customer gets."""

from collections.abc import Iterator

from domain.accounts.as_sent import AsSent
from domain.accounts.invoice import buyer_of
from domain.checks.sending import went_out_on
from domain.days.calendar import show_date
from domain.days.cancellation import right_ends
from domain.estimate.work_in_words import work_in_words
from domain.job import Acceptance, Job, Quote
from domain.papers.blocks import Details
from domain.papers.quote_paper import covering_words
from domain.papers.shared_parts import on_one_line
from domain.snapshot import from_json


def since_sent(job: Job, quote: Quote) -> Details | None:
    """What was agreed and asked since, and what of the paper is no longer so; None for nothing."""
    if quote.sent_on is None:
        return None
    sent_on = went_out_on(job, quote)
    rows = [("Sent", show_date(sent_on) if sent_on else "not marked as sent")]
    if quote.acceptance is not None:
        rows += _agreed(job, quote, quote.acceptance)
    rows += _changed(job, quote)
    return Details(tuple(rows), "Since this was sent") if len(rows) > 1 else None


def _agreed(job: Job, quote: Quote, yes: Acceptance) -> Iterator[tuple[str, str]]:
    yield "Accepted", f"{show_date(yes.on)}, {yes.who}, {yes.means}"
    if len(quote.options) > 1:
        yield "Chosen", covering_words(quote.counting)
    if yes.notice_on is not None:
        yield "Told of right to cancel", show_date(yes.notice_on)
    if yes.early_request_on is not None:
        how = f", {yes.request_means}" if yes.request_means else ""
        yield "Asked to start early", f"{show_date(yes.early_request_on)}{how}"
    if yes.urgent_why:
        yield "No right to cancel", f"urgent repair: {yes.urgent_why}"
    if yes.materials_on is not None:
        yield "Last materials came", show_date(yes.materials_on)
    ends = right_ends(job.customer, yes)
    if ends is not None:
        yield "Can cancel until", show_date(ends)


def _changed(job: Job, quote: Quote) -> Iterator[tuple[str, str]]:
    """What is recorded now and was not so when it was sent; the paper stays as it was."""
    if not quote.sent_as:
        return
    then, buyer = from_json(AsSent, quote.sent_as), buyer_of(job)
    for label, was, now in (
        ("Name now", then.buyer.name, buyer.name),
        ("Address now", on_one_line(then.buyer.address), on_one_line(buyer.address)),
        ("Roof at now", then.place, job.site.on_a_line),
        ("Roof now", then.work.roof, work_in_words(job).roof),
    ):
        if was != now:
            yield label, now or "none"
