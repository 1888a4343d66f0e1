"""Jobs carried so far by the actions of a book, each by days counted from one evening."""

import random
from contextlib import suppress
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path

from domain.checks.check import Severity
from domain.checks.stages import missing
from domain.errors import HeadlapError, NotNow
from domain.estimate.usage import UsageRecord
from domain.job import (
    BookedDay,
    Booking,
    Closing,
    Cover,
    CustomerKind,
    Ending,
    EnquiryRecord,
    Extra,
    ExtraState,
    Job,
    MadeAt,
    Means,
    OldCovering,
    OldKind,
    Outgoing,
    Received,
    Sending,
    SignOff,
    Site,
    Snag,
    Stage,
    StageMove,
    Suspicion,
)
from storage.book import Book
from tests import builders, priced

DOUBTFUL = OldCovering(OldKind.CEMENT_SHEET, 1, Suspicion.BEFORE)


class Evening:
    """One evening, and the book of a trader as it stands then."""

    def __init__(self, path: Path, today: date) -> None:
        self.path, self.today, self._on = path, today, today
        self.book = Book.open(path, lambda: datetime.combine(self._on, time(19)))
        self.book.save_trader(replace(builders.trader(), version=self.book.trader().version))
        for price in priced.PRICES:
            self.book.set_price(price)

    def day(self, by: int) -> date:
        """So many days from the evening."""
        return self.today + timedelta(days=by)

    def asked(
        self, place: str, visit: int | None = -30, *, at: bool = True, business: bool = False
    ) -> Job:
        """An enquiry of forty days ago."""
        kind = CustomerKind.BUSINESS if business else CustomerKind.HOUSEHOLDER
        who = builders.customer(name=f"Mrs {place}", kind=kind)
        on = None if visit is None else self.day(visit)
        asked = replace(
            builders.enquiry(),
            received_on=self.day(-40),
            visit_on=on,
            visit_at=time(17, 30) if on and at else None,
        )
        return self.book.take_enquiry(EnquiryRecord(who, Site(place), asked))

    def surveyed(self, job: Job, *, doubtful: bool = False, answered: bool = True) -> Job:
        """Its roof surveyed; without an answer nothing is said of how it is reached."""
        survey = builders.survey()
        if doubtful:
            survey = replace(survey, old=DOUBTFUL)
        if not answered:
            survey = replace(survey, access=replace(survey.access, means=""))
        return self.book.save_survey(job, survey)

    def sent(
        self, job: Job, on: int = -20, valid: int = 20, deposit: int = 0, *, marked: bool = True
    ) -> Job:
        """A quote that was sent, or is final and waits to be."""
        drafted = replace(priced.quote(deposit=deposit, job=job), drafted_on=self.day(on))
        job = self.book.save_quote(job, drafted)
        sending = Sending(self.day(on), self.day(valid), {})
        return self.book.send_quote(job, sending) if marked else self.book.make_final(job, sending)

    def accepted(self, job: Job, on: int = -18, *, early: bool = True) -> Job:
        """The customer's yes at home; ``early`` they asked that day for the work to start."""
        said = builders.acceptance(
            option_id=job.quotes[-1].options[0].id,
            on=self.day(on),
            notice_on=self.day(on),
            made_at=MadeAt.AWAY,
            early_request_on=self.day(on) if early else None,
            request_means=Means.TEXT if early else None,
            knows_right_ends=early,
        )
        return self.book.accept_quote(job, said)

    def booked(self, job: Job, *days: int, task: str = "strip, lay", in_hand: bool = True) -> Job:
        """Its days, eight hours each."""
        kept = tuple(BookedDay(self.day(by), Decimal(8), task) for by in days)
        return self.book.book_days(job, Booking(kept, materials_in_hand=in_hand))

    def moved(self, job: Job, *stages: Stage) -> Job:
        """On to these stages, every caution passed; as far as no stop is in the way."""
        for to in stages:
            cautions = missing(self.book.situation(job.id or 0, self.today), to)
            notes = {c.id: "so be it" for c in cautions if c.severity is Severity.CAUTION}
            with suppress(HeadlapError):
                job = self.book.move_stage(job, StageMove(to, self.today, notes))
        return job

    def stripped(self, job: Job, on: int = -1, cover: Cover = Cover.SHEETED) -> Job:
        """Stripped, the roof left so."""
        return self.book.record_stripping(job, builders.stripping(on=self.day(on), cover=cover))

    def laid(self, job: Job, on: int = -1, *, used: bool = True) -> Job:
        """Laid, perhaps with what was used."""
        job = self.book.record_laying(job, builders.laying(on=self.day(on)))
        rows = tuple(replace(usage, id=None) for usage in builders.usages())
        return self.book.record_usage(job, UsageRecord(rows, ())) if used else job

    def invoiced(self, job: Job, on: int = 0, *, marked: bool = True) -> Job:
        """Invoiced on a day, marked as sent or not."""
        job = self.book.issue_invoice(job, self.day(on))
        number = job.documents[-1].number
        if marked:
            job = self.book.mark_sent(job, Outgoing.INVOICE, number, self.day(on))
        return job

    def paid(self, job: Job, on: int = 0, share: int = 100) -> Job:
        """So many per cent of what is owed on its last invoice."""
        bill = next(d for d in reversed(job.documents) if d.owed)
        pence = max(1, bill.owed * share // 100)
        received = Received(bill.id or 0, pence, self.day(on), "bank transfer")
        return self.book.record_payment(job, received)

    def called_off(self, place: str, *, kept: int) -> Job:
        """Called off today with its deposit paid, some of it kept."""
        job = self.ready(place, deposit=50_00)
        job = self.paid(self.book.issue_deposit_invoice(job, self.day(-2)), -1)
        closing = Closing(Ending.CALLED_OFF, "sold it", self.today, None, kept, "felt cut")
        return self.book.end_job(job, closing)

    def found_extra(self, job: Job) -> Job:
        """An extra that is still to agree."""
        more = Extra("two boards", Decimal(2), "m", 28_00, Decimal(0), ExtraState.OPEN)
        return self.book.save_extra(job, more)

    def found_snag(self, job: Job) -> Job:
        """A snag that is still to put right."""
        return self.book.save_snag(job, Snag("trim loose"))

    def ready(self, place: str, *, early: bool = True, deposit: int = 0, agreed: int = -18) -> Job:
        """Surveyed, quoted and agreed, with no day yet."""
        job = self.moved(self.surveyed(self.asked(place)), Stage.SURVEY)
        job = self.moved(self.sent(job, deposit=deposit), Stage.QUOTED)
        return self.accepted(job, agreed, early=early)

    def done(self, place: str) -> Job:
        """Laid four days ago, as it was booked."""
        job = self.moved(self.booked(self.ready(place), -4), Stage.BOOKED)
        job = self.moved(self.stripped(job, -4, Cover.LAID), Stage.STRIPPED)
        return self.moved(self.laid(job, -4), Stage.LAID)


def one_at_random(evening: Evening, rng: random.Random, number: int) -> Job:
    """A job carried as far as its number says, what its stage asks for recorded or not."""
    visit = rng.choice((None, -30, -3, 0, 1, 4))
    at, business = rng.random() < 0.7, rng.random() < 0.3
    job = evening.asked(f"Lane {number}", visit, at=at, business=business)
    for step in _STEPS[: number % (len(_STEPS) + 1)]:
        try:
            job = step(evening, rng, job)
        except HeadlapError:  # what is recorded does not allow it
            break
    job = evening.book.job(job.id or 0)
    if job.ended is None and rng.random() < _ENDS:
        ending = Ending.CALLED_OFF if job.stage.rank >= Stage.BOOKED.rank else Ending.DECLINED
        with suppress(HeadlapError):
            job = evening.book.end_job(job, Closing(ending, "sold the shed", evening.today))
    return job


def _moves(evening: Evening, rng: random.Random, job: Job, to: Stage) -> Job:
    """On to a stage, if somebody thought of it."""
    return evening.moved(job, to) if rng.random() < _MINDFUL else job


def _survey(evening: Evening, rng: random.Random, job: Job) -> Job:
    doubtful, answered = rng.random() < 0.1, rng.random() < 0.9
    job = evening.surveyed(job, doubtful=doubtful, answered=answered)
    return _moves(evening, rng, job, Stage.SURVEY)


def _quote(evening: Evening, rng: random.Random, job: Job) -> Job:
    if rng.random() < 0.15:
        return evening.book.save_quote(job, priced.quote(job=job))
    on, valid = rng.choice((-28, -20, -15)), rng.choice((-5, -1, 0, 2, 3, 4, 20))
    deposit, marked = rng.choice((0, 0, 50_00)), rng.random() < _MINDFUL
    job = evening.sent(job, on, valid, deposit, marked=marked)
    return _moves(evening, rng, job, Stage.QUOTED)


def _agree(evening: Evening, rng: random.Random, job: Job) -> Job:
    job = evening.accepted(job, rng.choice((-15, -14, -10, -3)), early=rng.random() < 0.6)
    if job.quotes[-1].deposit and rng.random() < 0.5:
        job = evening.book.issue_deposit_invoice(job, evening.day(-2))
    return job


def _book(evening: Evening, rng: random.Random, job: Job) -> Job:
    days = rng.sample((-30, -24, -9, -5, -2, -1, 0, 0, 1, 5, 7, 8, 20), rng.choice((1, 1, 2)))
    task = rng.choice(("strip, lay", "strip, lay", "strip", "lay"))
    job = evening.booked(job, *sorted(days), task=task, in_hand=rng.random() < 0.6)
    return _moves(evening, rng, job, Stage.BOOKED)


def _strip(evening: Evening, rng: random.Random, job: Job) -> Job:
    first = min(booked.day for booked in job.days)
    if first >= evening.today and rng.random() < 0.7:
        raise NotNow("Its day has not come.")
    on = min(first, evening.today) - evening.today
    job = evening.stripped(job, on.days, rng.choice((*Cover, Cover.SHEETED)))
    job = evening.found_extra(job) if rng.random() < 0.2 else job
    return _moves(evening, rng, job, Stage.STRIPPED)


def _lay(evening: Evening, rng: random.Random, job: Job) -> Job:
    stripped = job.stripping.on - evening.today if job.stripping else timedelta()
    job = evening.laid(job, rng.choice((stripped.days, -1, 0)), used=rng.random() < _MINDFUL)
    job = evening.found_snag(job) if rng.random() < 0.2 else job
    return _moves(evening, rng, job, Stage.LAID)


def _bill(evening: Evening, rng: random.Random, job: Job) -> Job:
    job = evening.invoiced(job, rng.choice((-20, 0)), marked=rng.random() < _MINDFUL)
    return evening.paid(job, 0, rng.choice((30, 100))) if rng.random() < 0.5 else job


def _sign(evening: Evening, rng: random.Random, job: Job) -> Job:
    job = evening.book.sign_off(job, SignOff("Mrs Lane", evening.today))
    return _moves(evening, rng, job, Stage.SIGNED_OFF)


_STEPS = (_survey, _quote, _agree, _book, _strip, _lay, _bill, _sign)
_ENDS, _MINDFUL = 0.08, 0.9
"""How often a job ends, and how often what is to be marked is marked."""
