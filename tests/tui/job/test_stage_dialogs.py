"""What the dialogs about a stage read, and that their keys stay in sight."""

from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.checks.check import Part
from domain.checks.stages import CHECKS, Severity
from domain.errors import Refused
from domain.job import AccessPlan, Closing, Edges, Ending, Job, Stage
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.tui.books.a_job_at_a_stage import app_on, by_another_hand, carried_to
from tests.tui.books.an_enquiry import NASTY
from tests.tui.hands import said, turn_to, until
from tui.frame.key_line import KeyLine
from tui.frame.message_line import MessageLine
from tui.job.ending_dialog import read_closing
from tui.job.stage_dialogs import note_fields, read_back, read_notes, read_why
from tui.widgets.form import Form

CAUTIONS = [check for check in CHECKS if check.severity is Severity.CAUTION]
TWO = [check for check in CAUTIONS if check.id in ("photo", "daylight")]


@pytest.mark.parametrize("why", ["rain", NASTY, "  two words ", "é😀", "x" * 2000])
def test_a_reason_is_kept_as_it_was_typed(why: str) -> None:
    assert read_why({"why": why}) == why.strip()
    assert read_back({"to": "survey", "why": why}) == (Stage.SURVEY, why.strip())
    off = Closing(Ending.CALLED_OFF, why.strip(), builders.AGREED, builders.AGREED)
    assert read_closing({"how": "called off", "why": why}, builders.AGREED) == off
    assert read_notes(TWO, {"photo": why, "daylight": why}) == dict.fromkeys(
        ("photo", "daylight"), why.strip()
    )


@pytest.mark.parametrize("why", ["", " ", "\t\n", "\u2003"])
def test_no_reason_is_refused_by_the_id_of_its_field(why: str) -> None:
    with pytest.raises(Refused, match=r"^Why is empty\. "):
        read_why({"why": why})
    with pytest.raises(Refused) as refused:
        read_notes(TWO, {"photo": "wet", "daylight": why})
    assert refused.value.field == "daylight"
    assert refused.value.sentence(note_fields(TWO)[1].label).startswith("Note 2 is empty. ")


def test_a_choice_that_was_not_made_is_refused() -> None:
    with pytest.raises(Refused, match="Choose the stage") as refused:
        read_back({"to": "", "why": "rain"})
    assert refused.value.field == "to"
    with pytest.raises(Refused, match="Choose which it is") as refused:
        read_closing({"how": "", "why": "rain"}, builders.AGREED)
    assert refused.value.field == "how"


def test_each_caution_has_a_note_of_its_own_and_what_one_key_answers_has_one() -> None:
    fields = note_fields(CAUTIONS)
    looks = [check for check in CAUTIONS if check.part is Part.AROUND]
    assert [field.id for field in fields] == [c.id for c in CAUTIONS if c not in looks[1:]]
    assert len({field.label for field in fields}) == len(fields)
    [asked] = note_fields(looks)
    assert all(check.words in asked.hint for check in looks)
    notes = read_notes(looks, {asked.id: " looked with the customer "})
    assert notes == dict.fromkeys((check.id for check in looks), "looked with the customer")


def _with_every_caution(book: Book, job: Job) -> Job:
    survey = builders.survey(edges=Edges(), access=AccessPlan(means="ladder"))
    job = book.save_survey(job, survey)
    return book.save_quote(job, priced.quote(job=job))


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_keys_and_the_sentence_stay_in_sight_under_a_long_form(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    by_another_hand(path, _with_every_caution)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await turn_to(pilot, app, PageName.QUOTE)
        await pilot.press("ctrl+t")
        await until(pilot, lambda: isinstance(app.screen, ModalScreen))
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Note 1" in said(app))
        await until(
            pilot, lambda: app.screen.region.contains_region(app.screen.query_one(KeyLine).region)
        )
        form, voice, keys = (
            app.screen.query_one(kind).region for kind in (Form, MessageLine, KeyLine)
        )
        assert form.bottom <= voice.y < voice.bottom <= keys.y
        assert form.height >= 10
