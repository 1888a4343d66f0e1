"""A survey as typed: what its fields ask for, and what is read from them."""

from dataclasses import replace
from datetime import date

import pytest

from domain.errors import Refused
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import MEASURES_OF
from tests import builders
from tests.tui.books.an_enquiry import NASTY
from tui.frame.safe_text import one_line
from tui.job.survey.survey_fields import FIELDS
from tui.job.survey.survey_reading import survey_from_fields, survey_typed

TODAY = date(2026, 6, 3)
EMPTY = {field.id: "" for field in FIELDS}
TYPED = EMPTY | survey_typed(builders.survey())


@pytest.mark.parametrize("form", list(RoofForm))
def test_a_form_asks_only_for_the_measures_it_takes(form: RoofForm) -> None:
    asked = {
        f.id for f in FIELDS if f.only_for and f.only_for[0] == "form" and form in f.only_for[1:]
    }
    assert asked | {"slopes"} == {*MEASURES_OF[form], "slopes"}


def test_a_survey_is_read_back_unchanged_though_it_holds_line_breaks() -> None:
    survey = builders.survey(
        access=replace(builders.survey().access, means="ladder\nhop-up"),
        edges=replace(builders.survey().edges, gutter=f"{NASTY}\nloose"),
    )
    shown = {key: one_line(text) for key, text in survey_typed(survey).items()}
    assert survey_from_fields(EMPTY | shown, survey, TODAY) == survey


@pytest.mark.parametrize(
    ("field", "typed", "label"),
    [
        ("thickness", "thin", "thickness"),
        ("layers", "1.5", "layers"),
        ("replace_m", "501", "replace_m"),
        ("pitch", "91", "pitch"),
        ("visited_on", "[/]", "visited_on"),
    ],
)
def test_a_refusal_names_the_field(field: str, typed: str, label: str) -> None:
    with pytest.raises(Refused) as refused:
        survey_from_fields(TYPED | {field: typed}, None, TODAY)
    assert refused.value.field == label
