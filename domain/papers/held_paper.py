"""What is held on a customer, for whoever of them asks: all of it, in plain words.

UK GDPR article 15 gives them a copy of it, why it is held and for how long: from memory. Nothing of
it is the trader's alone: no cost, no markup, no rates, no hours.
"""

from collections.abc import Iterator
from datetime import date

from domain.checks.stages import note_heading
from domain.coverings.registry import name_of
from domain.customer_record import CustomerRecord
from domain.days.calendar import show_date, show_in_full
from domain.days.clock import show_time
from domain.estimate.quoting import option_total
from domain.job import Acceptance, Customer, Document, Extra, Job, MadeAt, Quote
from domain.keeping import kept_of
from domain.money import show_money
from domain.papers.blocks import Block, Details, Paper, Words
from domain.papers.held_on_site import on_site_blocks, survey_blocks
from domain.papers.held_rows import day_of, in_a_row, known_details, table_of
from domain.papers.shared_parts import lines_of, on_one_line, sentence
from domain.quantity import show_amount
from domain.tax import totals_of
from domain.trader import Trader

_WHY = (
    "You gave it to us, or it was seen and done on your roof. We hold it to price the work, to do "
    "it, to be paid for it, and to stand by it afterwards."
)
_KEPT = (
    "Tax law asks us to keep papers and payments for five years after the 31 January that follows "
    "the tax year: yours until {until}. They cannot be deleted before."
)
_WHERE = {
    MadeAt.AWAY: "at your home",
    MadeAt.DISTANCE: "at a distance (telephone, e-mail, post)",
    MadeAt.PREMISES: "at our own premises",
}
_NOT_KEPT = "Nothing of it has to be kept for the tax. Tell us if you want it deleted."
_COPIES = "The book also keeps what was changed and when, and its backups hold copies."


def held_paper(record: CustomerRecord, trader: Trader, today: date) -> Paper:
    """Everything held on a customer: who, every job with its papers and payments, and why."""
    blocks = [
        Words(f"Everything our job book holds on you, as of {show_in_full(today)}."),
        *_you(record.customer),
        *(block for job in record.jobs for block in _job(job)),
        *_why(record, today),
    ]
    head = lines_of(trader.heading, trader.name if trader.trading_as else "", trader.address)
    reach = lines_of(trader.phone, trader.email)
    return Paper(
        title=f"What we hold on {record.customer.called}",
        blocks=tuple(blocks),
        head=(*head, *reach),
        look=trader.look,
    )


def _you(customer: Customer) -> Iterator[Details]:
    return known_details(
        "You",
        ("Name", customer.name),
        ("You are a", customer.kind if customer.kind_asked else ""),
        ("Telephone", customer.phone),
        ("E-mail", customer.email),
        ("Address", on_one_line(customer.address)),
        ("Your CIS reference", customer.tax_reference),
        ("Your VAT number", customer.vat_number),
        ("End user, told on", day_of(customer.end_user_on)),
    )


def _job(job: Job) -> Iterator[Block]:
    """One job from the first call to the last payment."""
    asked, site = job.enquiry, job.site
    rough = "" if asked.rough is None else show_money(asked.rough)
    visit = in_a_row(day_of(asked.visit_on), show_time(asked.visit_at) if asked.visit_at else "")
    yield Words(
        f"It stands at: {in_a_row(job.stage, job.ended or '', job.ended_why)}.",
        in_a_row(f"Job {job.ref}", site.place),
    )
    yield from known_details(
        "Enquiry",
        ("Address", on_one_line(site.address)),
        ("Access", site.access),
        ("Days that don't suit", site.ruled_out),
        ("You asked on", show_date(asked.received_on)),
        ("You said", asked.said),
        ("Building", in_a_row(asked.building, asked.nominal)),
        ("Rough price given", rough),
        ("Visit", visit),
    )
    yield from survey_blocks(job.survey)
    yield from table_of("Quotes", ("Quote", "Covering", "Sent", "Valid until", "Sum"), _quotes(job))
    for quote in job.quotes:
        if quote.acceptance is not None:
            yield from _agreement(quote, quote.acceptance)
    yield from table_of("Extras", ("Extra", "Agreed", "How", "Price"), map(_extra, job.extras))
    days = ((show_date(booked.day), booked.task) for booked in job.days)
    yield from table_of("Days booked", ("Day", "For"), days)
    yield from on_site_blocks(job)
    yield from table_of("Papers", ("Number", "Date", "Sum", "Paid"), map(_document, job.documents))
    paid = ((show_date(p.received_on), p.method, show_money(p.pence)) for p in job.payments)
    yield from table_of("Payments", ("Received", "By", "Sum"), paid)
    notes = ((show_date(note.on), note_heading(note), note.words) for note in job.notes)
    yield from table_of("Notes", ("Date", "About", "Note"), notes)


def _quotes(job: Job) -> Iterator[tuple[str, ...]]:
    for quote in job.quotes:
        for option in quote.options:
            yield (
                f"{quote.number}",
                in_a_row(name_of(option.covering), option.colour),
                day_of(quote.sent_on) or "not sent",
                day_of(quote.valid_until),
                show_money(option_total(option).gross),
            )


def _agreement(quote: Quote, taken: Acceptance) -> Iterator[Details]:
    return known_details(
        f"Agreement to quote {quote.number}",
        ("Agreed by", taken.who),
        ("On", show_date(taken.on)),
        ("How", taken.means),
        ("Where", _WHERE[taken.made_at]),
        ("Told of the right to cancel", day_of(taken.notice_on)),
        ("Asked us to begin before it ends", day_of(taken.early_request_on)),
        ("How they asked", taken.request_means or ""),
        ("Said they know it ends with the work", "yes" if taken.knows_right_ends else ""),
        ("Last materials reached them", day_of(taken.materials_on)),
        ("Urgent repair they asked us to come for", taken.urgent_why),
    )


def _extra(extra: Extra) -> tuple[str, ...]:
    what = f"{extra.words}, {show_amount(extra.quantity, extra.unit)}"
    agreed = in_a_row(extra.agreed_by, day_of(extra.agreed_on))
    price = extra.price if extra.with_vat else totals_of([(extra.vat_rate, extra.price)]).gross
    return what, agreed or extra.state, extra.means or "", show_money(price)


def _document(document: Document) -> tuple[str, ...]:
    paid = show_money(document.paid) if document.kind.asks else ""
    kind = f"{sentence(document.kind)} {document.label}"
    return kind, show_date(document.issued_on), show_money(document.gross), paid


def _why(record: CustomerRecord, today: date) -> Iterator[Words]:
    kept = [each.until for job in record.jobs for each in kept_of(job) if each.until >= today]
    law = _NOT_KEPT if not kept else _KEPT.format(until=show_in_full(max(kept)))
    yield Words(f"{_WHY} {law} {_COPIES}", "Why we hold it, and until when")
    yield Words("If anything is wrong, tell us and we will put it right.")
