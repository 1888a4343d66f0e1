"""Jobs and days as the week reads them."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from domain.checks.before_quoted import BEFORE_QUOTED
from domain.checks.check import Severity, Situation
from domain.checks.sending import waiting
from domain.days.cancellation import right_applies
from domain.days.forecast import Forecast
from domain.days.forecast_line import read_line
from domain.job import DocumentKind, ExtraState, Job, Outgoing
from domain.page_names import PageName
from domain.trader import Trader
from domain.week import Bill, WeekLine
from tests.builders.parts import LAY_DAY


def forecast(day: date = LAY_DAY, typed: str = "d/12@8g14") -> Forecast:
    """The forecast of a day, as it is typed; a fair day if not said: dry, mild, a light wind."""
    (told,) = read_line("forecast", typed, day)
    return told


def week_line(job: Job, **changes: Any) -> WeekLine:
    """A job as the week reads it."""
    quote, lay = job.quote, job.laying
    accepted = quote.acceptance if quote else None
    plain = WeekLine(
        job_id=job.id or 0,
        ref=job.ref,
        place=job.site.place,
        customer=job.customer.name,
        phone=job.customer.phone,
        email=job.customer.email,
        address=job.site.address or job.customer.address,
        stage=job.stage,
        ended=job.ended,
        told_on=job.told_on,
        credit=job.credit,
        received_on=job.enquiry.received_on,
        visit_on=job.enquiry.visit_on,
        visit_at=job.enquiry.visit_at,
        survey_answered=_is_answered(job),
        old_covering=job.survey.old if job.survey else None,
        quote_sent_on=quote.sent_on if quote else None,
        quote_number=quote.number if quote else None,
        quote_unsent=bool(quote and waiting(job, Outgoing.QUOTE, quote.number)),
        valid_until=quote.valid_until if quote else None,
        accepted_on=accepted.on if accepted else None,
        may_cancel=accepted is not None and right_applies(job.customer, accepted),
        notice_on=accepted.notice_on if accepted else None,
        early_request_on=accepted.asked_in_writing_on if accepted else None,
        knows_right_ends=accepted.knows_right_ends if accepted else False,
        materials_on=accepted.materials_on if accepted else None,
        quote_gross=sum(line.price for line in quote.options[0].lines) if quote else None,
        deposit=quote.deposit if quote else 0,
        ruled_out=job.site.ruled_out,
        days=job.days,
        rung=job.rung,
        materials_in_hand=job.materials_in_hand,
        stripped_on=job.stripping.on if job.stripping else None,
        cover=job.stripping.cover if job.stripping else None,
        extras_open=sum(extra.state is ExtraState.OPEN for extra in job.extras),
        laid_on=lay.on if lay else None,
        usage_recorded=bool(job.usages),
        hours_used=sum((u.used for u in job.usages if u.unit == "hour"), Decimal(0)),
        open_snags=tuple(snag.words for snag in job.snags if snag.done_on is None),
        chased=job.chased,
        bills=_bills(job),
        paid=tuple((p.received_on, p.pence) for p in job.payments),
    )
    return replace(plain, **changes)


def _is_answered(job: Job) -> bool:
    """Whether no stop of the survey page is left, but for those of the roof and of asbestos."""
    asked = Situation(job, Trader(), job.enquiry.received_on, {})
    left = (c.id for c in BEFORE_QUOTED if c.severity is Severity.STOP and not c.holds(asked))
    return not set(left) & ANSWERS


ANSWERS = {c.id for c in BEFORE_QUOTED if c.page is PageName.SURVEY} - {
    "roof-drawn",
    "covering-chosen",
    "asbestos",
}
"""What the survey is asked by its stops that a draft does not take for granted."""


def _bills(job: Job) -> tuple[Bill, ...]:
    return tuple(
        Bill(
            id=d.id or 0,
            label=d.label,
            issued_on=d.issued_on,
            due_on=d.due_on,
            gross=d.gross,
            owed=d.owed,
            deposit=d.kind is DocumentKind.DEPOSIT,
            number=d.number,
            unsent=waiting(job, Outgoing.INVOICE, d.number) is not None,
        )
        for d in job.documents
        if d.kind.asks and not d.is_withdrawn
    )
