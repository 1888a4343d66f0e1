"""What is held on a customer: all of it is on the paper, and nothing that is the trader's alone."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from decimal import Decimal
from enum import Enum
from typing import Any

from domain.customer_record import CustomerRecord
from domain.days.calendar import show_date
from domain.job import (
    Around,
    CautionNote,
    Edges,
    Ending,
    Extra,
    ExtraState,
    Job,
    Means,
    OldCovering,
    OldKind,
    Sample,
    SignOff,
    Snag,
    Stage,
    Suspicion,
)
from domain.money import show_money
from domain.papers.held_paper import held_paper
from tests import builders
from tests.domain.papers.reading import words_of
from tests.priced import accepted, laid_job, quote

TRADER = builders.trader()
NASTY = "Smith [/] & Sons [a] \\[z] #strong[b] *c* $d$"


def _whole() -> Job:
    """A job with something said in every field that can hold words."""
    job = laid_job(accepted(quote(TRADER)))
    survey = builders.survey()
    edges = Edges("painted boards", "new fascia", "one finial", "white trim", "no gutter")
    edges = replace(edges, ventilation="vents", slope_one="to the lane", wind_from="north-east")
    around = Around("a nest", "overhead", "the neighbour's wall", "soft ground")
    found = OldCovering(
        *(OldKind.FELT, 1, Suspicion.BEFORE, "Lab of Osmerton", Sample.FOUND, "S 17"),
        *(builders.VISIT, "Remover of Osmerton", builders.SENT, "CN 42", "a waste firm"),
    )
    extra = Extra("more boards", Decimal(3), "m", 42_00, Decimal(0), ExtraState.AGREED)
    return replace(
        job,
        customer=builders.customer(name=NASTY, email="ann@example.com"),
        site=builders.site(address="The allotments\nMill Row", access="side gate", ruled_out="Mon"),
        enquiry=builders.enquiry(said="torn at the ridge", nominal="8 x 6 ft", rough=600_00),
        ended=Ending.CALLED_OFF,
        ended_why="moved house",
        survey=replace(survey, edges=edges, old=found, around=around),
        extras=(
            replace(extra, agreed_by="their son", agreed_on=builders.SIGNED, means=Means.TEXT),
        ),
        sign_off=SignOff("the neighbour", builders.SIGNED, builders.DUE, "ten years on leaks"),
        snags=(Snag("drip trim loose", builders.DUE), Snag("nail to set")),
        documents=(builders.invoice(),),
        payments=(replace(builders.payment(), method="cheque"),),
        notes=(CautionNote("spoken", "she will write", builders.SENT),),
    )


def _typed(value: Any) -> Iterator[str]:
    """Every text within a value that a person may have typed."""
    if isinstance(value, str) and not isinstance(value, Enum):
        yield from filter(None, value.splitlines())
    elif isinstance(value, tuple):
        for each in value:
            yield from _typed(each)
    elif is_dataclass(value):
        for field in fields(value):
            yield from _typed(getattr(value, field.name))


def _paper(*jobs: Job) -> str:
    record = CustomerRecord(jobs[0].customer, jobs)
    return words_of(held_paper(record, TRADER, builders.SIGNED))


def test_everything_that_was_typed_of_them_is_on_it() -> None:
    job = _whole()
    assert job.survey is not None
    assert job.quote is not None
    assert job.quote.acceptance is not None
    held = (
        *(job.customer, job.site, job.enquiry, job.ended_why, job.survey.edges),
        *(job.survey.access, job.survey.old, job.survey.deck.profile, job.quote.acceptance),
        *(job.stripping, job.sign_off, job.snags),
        *(each.words for each in job.notes),
        *((extra.words, extra.agreed_by) for extra in job.extras),
        *(payment.method for payment in job.payments),
    )
    paper = _paper(job)
    typed = list(_typed(held))
    assert len(typed) > 30
    assert [words for words in typed if words not in paper] == []


def test_every_day_and_sum_of_theirs_is_on_it() -> None:
    job = _whole()
    paper = _paper(job)
    days = (builders.RECEIVED, builders.SENT, builders.AGREED, builders.LAY_DAY, builders.SIGNED)
    assert [day for day in days if show_date(day) not in paper] == []
    sums = (600_00, builders.invoice().gross, builders.payment().pence, 42_00)
    assert [show_money(pence) for pence in sums if show_money(pence) not in paper] == []
    assert "INV-42" in paper


def test_it_says_why_it_is_kept_and_until_when() -> None:
    assert "yours until 31 January 2033" in _paper(_whole())
    late = replace(_whole(), payments=(replace(builders.payment(), received_on=builders.DUE),))
    assert "yours until 31 January 2033" in _paper(builders.job_at(Stage.ENQUIRY), late)


def test_of_a_mere_enquiry_it_says_that_it_can_be_deleted() -> None:
    paper = _paper(builders.job_at(Stage.ENQUIRY))
    assert "Nothing of it has to be kept for the tax. Tell us if you want it deleted." in paper
    assert "31 January" not in paper


def test_every_job_is_on_it_under_its_number() -> None:
    job = builders.job_at(Stage.ENQUIRY)
    paper = _paper(replace(job, ref="0002"), replace(job, ref="0001"))
    assert paper.index("Job 0002, ") < paper.index("Job 0001, ")
