"""No stop is passed from any page, and no caution without a note, whatever is pressed."""

from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.checks.stages import Severity, missing
from domain.errors import HeadlapError
from domain.job import (
    Booking,
    EnquiryRecord,
    Job,
    OldCovering,
    OldKind,
    Stage,
    StageBack,
    StageMove,
    Suspicion,
)
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to, settled_for
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import comes_to, form_of, front, hears, turn_to, until
from tui.frame.message_line import MessageLine
from tui.job.page_tabs import TABS

NEXT = list(Stage)[1:]
WORK_AFTER = {
    Stage.SURVEY: PageName.QUOTE,
    Stage.QUOTED: PageName.QUOTE,
    Stage.BOOKED: PageName.STRIP,
    Stage.STRIPPED: PageName.LAYING,
    Stage.LAID: PageName.SIGN_OFF,
    Stage.SIGNED_OFF: PageName.MONEY,
}
"""The page of the work that comes once a job is marked as a stage."""


def _without_a_place(book: Book, job: Job) -> Job:
    return book.change_enquiry(
        job, EnquiryRecord(job.customer, builders.site(place=""), job.enquiry)
    )


@pytest.mark.long
@pytest.mark.parametrize("to", NEXT)
async def test_a_stop_is_passed_from_no_page(tmp_path: Path, to: Stage) -> None:
    path = tmp_path / "book.headlap"
    before = list(Stage)[to.rank - 1]
    carried_to(path, before)
    if to is Stage.SURVEY:  # an enquiry is taken down with everything that a survey asks for
        by_another_hand(path, _without_a_place)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        for page in TABS:
            await comes_to(pilot, app, page)
            app.screen.query_one(MessageLine).hush()
            await pilot.press("ctrl+g")
            await hears(pilot, app, f"Not {to.done} yet")
            assert not isinstance(app.screen, ModalScreen)
            await pilot.press("ctrl+pagedown")
    assert read_again(path).stage is before


@pytest.mark.parametrize("to", NEXT)
async def test_with_nothing_missing_one_key_calls_it_the_next_stage_and_turns_to_its_work(
    tmp_path: Path, to: Stage
) -> None:
    path = tmp_path / "book.headlap"
    if to is Stage.QUOTED:  # that one is passed by sending the quote
        carried_to(path, Stage.QUOTED)
        by_another_hand(
            path, lambda book, job: book.go_back(job, StageBack(Stage.SURVEY, "again", TODAY))
        )
    else:
        settled_for(path, to)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        await pilot.press("ctrl+g")
        await hears(pilot, app, f"The job is {to.done}.")
        assert front(app) == WORK_AFTER[to].value
        assert app.screen.query(f"#{front(app)} *:focus")
    assert read_again(path).stage is to


async def test_a_caution_is_passed_with_a_note_that_stays(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job = settled_for(path, Stage.BOOKED)
    by_another_hand(
        path, lambda book, job: book.book_days(job, Booking(job.days, materials_in_hand=False))
    )
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.BOOKING)
        await pilot.press("ctrl+g")
        await until(pilot, lambda: isinstance(app.screen, ModalScreen))
        await pilot.press("ctrl+s")
        await hears(pilot, app, "Note 1")
        assert read_again(path).stage is job.stage
        form_of(app).put("materials", "[/] the merchant brings them")
        await pilot.press("ctrl+s")
        await hears(pilot, app, "The job is booked.")
    after = read_again(path)
    assert after.stage is Stage.BOOKED
    assert [(n.check_id, n.words) for n in after.notes[1:]] == [
        ("materials", "[/] the merchant brings them")
    ]


async def test_a_stop_that_came_up_in_another_window_is_not_passed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    settled_for(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.BOOKING)
        by_another_hand(
            path, lambda book, job: book.book_days(job, Booking((), materials_in_hand=True))
        )
        await pilot.press("ctrl+g")
        await hears(pilot, app, "another window")
    assert read_again(path).stage is Stage.QUOTED


async def test_suspected_asbestos_stops_the_sending_of_a_quote(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    old = OldCovering(OldKind.FELT, 1, Suspicion.BEFORE)

    def drafted(book: Book, job: Job) -> Job:
        job = book.save_survey(job, builders.survey(old=old))
        return book.save_quote(job, priced.quote(job=job))

    by_another_hand(path, drafted)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.QUOTE)
        await pilot.press("ctrl+t")
        await hears(pilot, app, "licensed or trained person")
        assert not isinstance(app.screen, ModalScreen)
    assert read_again(path).quotes[0].sent_on is None


@pytest.mark.parametrize("to", NEXT)
def test_the_book_itself_passes_no_stop(tmp_path: Path, to: Stage) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, list(Stage)[to.rank - 1])
    if to is Stage.SURVEY:
        by_another_hand(path, _without_a_place)

    def forced(book: Book, job: Job) -> Job:
        checks = missing(book.situation(1, TODAY), to)
        assert any(check.severity is Severity.STOP for check in checks)
        return book.move_stage(
            job, StageMove(to, TODAY, {check.id: "all the same" for check in checks})
        )

    with pytest.raises(HeadlapError, match=f"Cannot be marked as {to.done} yet"):
        by_another_hand(path, forced)
    assert read_again(path).stage.rank == to.rank - 1
