"""Whatever stands in the fields of a form: it is read, or refused by the id of a field.

Nothing else may come of it, and what was read fills the fields so that it is read the same again.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.days.forecast_line import read_line
from domain.errors import Refused
from domain.estimate.extra_terms import Terms
from domain.estimate.supplies import PricesAndStock
from domain.job import MadeAt, Stage
from domain.trader import WeatherLimits
from tests import builders, priced
from tests.examples import examples
from tests.tui.books.an_enquiry import NASTY
from tui.frame.safe_text import one_line
from tui.job.booking import booking_fields as booking
from tui.job.enquiry import enquiry_fields as enquiry
from tui.job.laying import laying_page as laid
from tui.job.money import payment_dialog as payment
from tui.job.quote import quote_fields as quote
from tui.job.signing_off import signing_off_page as signed_off
from tui.job.stripping import extra_dialog as extra
from tui.job.stripping import stripping_page as stripped
from tui.job.survey import survey_fields, takeoff_as_typed
from tui.job.survey import survey_reading as survey
from tui.week import forecast_dialog as forecast
from tui.widgets import field_values as plain
from tui.widgets import kept_lines as kept
from tui.widgets.field_row import Field
from tui.your_details import details_fields, details_read

TODAY = builders.LAY_DAY
TERMS = Terms(14_00, with_vat=False)
ABSURD = [
    *("", " ", "0", "-1", "−3", "½", "1½", "1,200", "1,,2", ".", "1.", ".5", "0x10", "1e9"),
    *("nan", "inf", "9" * 40, "0" * 40, "٣٦٩", "²", "①", "1/0", "1/3", "7 ft 10 1/2 in"),
    *("2.4 m", "2400 mm", "41 F", "-400", "16 mph", "£486.00", "-£1", "today", "+3", "thu"),
    *("31 Feb", "29/2/2028", "25 Nov 9999", "0000-00-00", "25:61", "9.30", "m", "yes", NASTY),
    *("[/]", "'; --", "\x1b[31m", "\x00", "\ud800", "\u202e", "\n", "a" * 2000, "🏚" * 40),
]
TEXTS = st.one_of(st.sampled_from(ABSURD), st.text(max_size=30), st.decimals().map(str))
JOB = builders.job_at(Stage.QUOTED)


@dataclass(frozen=True)
class Form:
    """A form: its fields, what reads them, what fills them with what was read, and good texts."""

    fields: tuple[Field, ...]
    read: Callable[[dict[str, str]], Any]
    good: Mapping[str, str]
    fill: Callable[[Any], Mapping[str, str]] | None = field(default=None)

    def typed(self, texts: Mapping[str, str]) -> dict[str, str]:
        """What stands in all fields, as a line each."""
        return {f.id: one_line(texts.get(f.id, "")) for f in self.fields}


FORMS = {
    "enquiry": Form(
        enquiry.WHOLE,
        lambda typed: enquiry.read_enquiry(typed, enquiry.enquiry_of(JOB), TODAY),
        enquiry.enquiry_typed(enquiry.enquiry_of(JOB)),
        enquiry.enquiry_typed,
    ),
    "survey": Form(
        survey_fields.FIELDS,
        lambda typed: survey.survey_from_fields(typed, builders.survey(), TODAY),
        survey.survey_typed(builders.survey()),
        survey.survey_typed,
    ),
    "pricing": Form(quote.PRICING, quote.read_pricing, {"miles": "12"}),
    "sending": Form(
        quote.SENDING,
        lambda typed: quote.read_sending(typed, {}, builders.VISIT, TODAY),
        {"sent_on": "today", "valid_days": "30"},
    ),
    "yes": Form(
        quote.acceptance_fields(JOB, builders.sent()),
        lambda typed: quote.read_acceptance(typed, builders.sent(), TODAY),
        quote.acceptance_typed(JOB, builders.sent())
        | {"who": "Mrs Ek", "on": "today", "means": "text", "made_at": MadeAt.AWAY.value},
    ),
    "booking": Form(
        booking.FIELDS,
        lambda typed: booking.read_days(typed, JOB, builders.trader(), TODAY),
        {"day1": "+3"},
        lambda days: booking.days_typed(replace(JOB, days=days)),
    ),
    "stripped": Form(
        stripped.FIELDS,
        lambda typed: stripped.read_stripping(typed, TODAY),
        {"on": "today", "found": "nothing", "cover": "open"},
        lambda read: stripped.stripping_typed(replace(JOB, stripping=read), TODAY),
    ),
    "extra": Form(
        extra.FIELDS,
        lambda typed: extra.read_extra(typed, None, priced.registered(), TODAY, TERMS),
        {"words": "boards", "quantity": "3", "unit": "m", "state": "to agree", "before": "no"},
        lambda read: extra.extra_typed(read, TERMS),
    ),
    "laid": Form(
        laid.FIELDS,
        lambda typed: laid.read_laying(typed, TODAY),
        {"on": "today"},
        lambda read: laid.laying_typed(read, TODAY),
    ),
    "signed off": Form(
        signed_off.FIELDS,
        lambda typed: signed_off.read_sign_off(typed, TODAY),
        {"who": "Mrs Adeyemi", "on": "today"},
        lambda read: signed_off.sign_off_typed(replace(JOB, sign_off=read), builders.trader()),
    ),
    "payment": Form(
        payment.FIELDS,
        lambda typed: payment.read_money_in(typed, TODAY),
        {"amount": "9", "on": "today", "method": "cash"},
    ),
    "your details": Form(
        details_fields.FIELDS,
        lambda typed: details_read.trader_from_fields(typed, builders.trader(), TODAY),
        details_read.trader_typed(builders.trader()),
        details_read.trader_typed,
    ),
    "forecast": Form(
        forecast.FIELDS,
        lambda typed: read_line(forecast.LINE, typed[forecast.LINE], TODAY),
        {forecast.LINE: "ddr d9-12,14-17/3@14g25"},
    ),
}


def _odd_texts(form: Form) -> st.SearchStrategy[dict[str, str]]:
    """Give absurd texts, and choices as they can be made, for one to three fields of a form."""

    def of(each: Field) -> st.SearchStrategy[tuple[str, str]]:
        texts = st.sampled_from(("", *each.choices)) if each.choices else TEXTS
        return texts.map(lambda text: (each.id, text))

    return st.lists(st.sampled_from(form.fields).flatmap(of), min_size=1, max_size=3).map(dict)


def _read(read: Callable[[], Any]) -> Any:
    """What is read, or the refusal itself."""
    try:
        return read()
    except Refused as refused:
        return refused


@pytest.mark.parametrize("name", FORMS)
@given(data=st.data())
@examples(60)
def test_it_is_read_or_refused_by_the_id_of_a_field(name: str, data: st.DataObject) -> None:
    form = FORMS[name]
    typed = form.typed({**form.good, **data.draw(_odd_texts(form))})
    read = _read(lambda: form.read(typed))
    if isinstance(read, Refused):
        assert read.field in {each.id for each in form.fields}
        assert str(read).isprintable()
        assert len(str(read)) < 300
    elif form.fill is not None:
        assert form.read(form.typed(form.fill(read))) == read


@pytest.mark.parametrize("name", FORMS)
def test_what_is_good_is_read(name: str) -> None:
    form = FORMS[name]
    assert form.read(form.typed(form.good)) is not None


@given(form=st.sampled_from(["survey", "booking", "laid", "extra"]), data=st.data())
@examples(80)
def test_what_is_worked_out_while_typing_raises_nothing(form: str, data: st.DataObject) -> None:
    odd = FORMS[form]
    typed = odd.typed({**odd.good, **data.draw(_odd_texts(odd))})
    situation = builders.situation(JOB)
    notes: dict[str, Callable[[], object]] = {
        "survey": lambda: takeoff_as_typed.suspected(typed, TODAY),
        "booking": lambda: (
            [booking.day_note(typed, n, situation) for n in booking.DAYS]
            + [booking.hours_note(typed, n, situation) for n in booking.DAYS]
            + [booking.whole_note(typed, situation)]
        ),
        "laid": lambda: laid.weather_notes(typed, WeatherLimits()),
        "extra": lambda: extra.at_rate(typed, 14_00) or "",
    }
    assert notes[form]() is not None


@given(TEXTS)
def test_a_figure_beside_a_field_raises_nothing(text: str) -> None:
    words, *_ = enquiry.rough_words(
        text, builders.trader(), PricesAndStock(priced.PRICES, (), TODAY)
    )
    assert words.isprintable()
    assert takeoff_as_typed.length_note("length", text).isprintable()
    assert payment.afterwards(text, 369_30)[0].isprintable()


@pytest.mark.parametrize("text", [*ABSURD, "8 x 6", "8 x 1/0 ft", "9" * 40 + " x 6 ft", "0 x 0 ft"])
def test_the_take_off_of_an_absurd_survey_ends_in_a_sentence(text: str) -> None:
    good = FORMS["survey"].good
    for key in ("length", "span", "rise", "eaves_overhang", "slope_length"):
        typed = FORMS["survey"].typed({**good, key: text})
        told = takeoff_as_typed.work_out(
            typed, PricesAndStock((), (), TODAY), builders.trader()
        ).figures
        assert told
        assert all(figure.words.isprintable() for figure in told)


@given(st.integers(-(10**12), 10**12))
def test_money_is_shown_to_the_penny(pence: int) -> None:
    assert int(plain.money_typed(pence).replace(".", "")) == pence
    assert plain.money_typed(pence)[-3] == "."


@given(st.lists(st.text(st.characters(exclude_categories=["C"], exclude_characters=","))))
def test_an_address_keeps_its_lines(parts: list[str]) -> None:
    lines = [part.strip() for part in parts if part.strip()]
    address = "\n".join(lines)
    assert plain.read_address(plain.address_typed(address)) == address


@pytest.mark.parametrize("before", ["ladder\nhop-up", "a\tb", NASTY, "", " spaced "])
def test_text_that_was_not_touched_is_kept_as_it_was(before: str) -> None:
    assert kept.kept(one_line(before), before) == before
    assert kept.kept(f"{one_line(before)}! ", before) == f"{one_line(before)}!".strip()


def test_an_address_that_was_not_touched_is_kept_as_it_was() -> None:
    odd = "3 Tannery Row, rear\n\nOsmerton"
    assert kept.kept_address("address", one_line(plain.address_typed(odd)), odd) == odd
    assert (
        kept.kept_address("address", "4 Tannery Row,, Osmerton", odd) == "4 Tannery Row\nOsmerton"
    )


def test_a_day_that_may_be_empty_is_none() -> None:
    assert plain.read_optional_date("Visit on", " \t", TODAY) is None
    assert plain.read_optional_date("Visit on", "today", TODAY) == TODAY
    assert plain.date_typed(None) == ""
    assert plain.date_typed(date(2026, 11, 25)) == "Wed 25 Nov 2026"
