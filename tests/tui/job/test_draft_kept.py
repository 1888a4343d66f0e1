"""Nothing typed is lost or saved twice: a save that fails keeps it, leaving asks first."""

from contextlib import closing
from dataclasses import replace
from datetime import datetime, time
from pathlib import Path

import pytest

from domain.job import EnquiryRecord, SignOff
from domain.page_names import PageName
from storage.book import Book
from tests import builders
from tests.storage.books import dump, laid, one_option, query, settle, surveyed
from tests.tui.hands import Clock, Hands, key
from tui.job.job_screen import JobScreen
from tui.shell.app import HeadlapApp, make_app
from tui.week.week_screen import WeekScreen
from tui.widgets.form_dialog import FormDialog

DIALOGS = (
    (PageName.STRIP, key("stripped", "add_extra"), {"What": "boards", "How much": "4.2"}),
    (PageName.SIGN_OFF, key("signed_off", "add_snag"), {"What": "drip trim loose"}),
    (PageName.QUOTE, key("quote", "accepted"), {"Who": "Mr Ek"}),
    (PageName.SIGN_OFF, key("job", "stage_back"), {"Why": "measured wrong"}),
    (PageName.SIGN_OFF, key("job", "next_stage"), {"Note 1": "asked"}),
    (PageName.MONEY, key("money", "money_in"), {"Amount": "10"}),
)
"""Dialogs about a job: the page they are asked for from, the key, and what is typed."""
TYPED_ON = {
    PageName.ENQUIRY: {"Telephone": "01632 960999"},
    PageName.SURVEY: {"Fascia": "rotten"},
    PageName.BOOKING: {"Day 1": "26 June 2026"},
    PageName.STRIP: {"Found": "rot at the back eaves"},
    PageName.LAYING: {"Temperature": "11"},
    PageName.SIGN_OFF: {"Signed off by": "Mr Ek"},
}
EVENING = Clock(datetime.combine(builders.LAY_DAY, time(19, 0)))
SAVE = key("dialog", "save")
CHANGED = "This was changed in another window"


def _by_palette(app: HeadlapApp, title: str) -> None:
    """Run a command as the palette does when it is chosen there."""
    offered = app.get_system_commands(app.screen)
    next(each for each in offered if each.title.startswith(title)).callback()


def _ready(path: Path) -> int:
    """A laid job that wants only its invoice to be signed off, with a deposit to be paid."""
    with closing(Book.open(path, EVENING)) as book:
        settle(book)
        job = book.issue_deposit_invoice(laid(book), builders.LAY_DAY)
        return book.sign_off(job, SignOff("Mrs Adeyemi", builders.LAY_DAY)).id or 0


def _by_another_hand(path: Path, job_id: int) -> None:
    """Save the job from another window."""
    with closing(Book.open(path, EVENING)) as book:
        job = book.job(job_id)
        told = replace(job.enquiry, said=f"{job.enquiry.said} again")
        book.change_enquiry(job, EnquiryRecord(job.customer, job.site, told))


async def _refuses(hands: Hands, path: Path, says: str) -> None:
    """Save, and see that neither the record nor what was typed changes."""
    typed, record = dict(hands.form.values), dump(path)
    await hands.press(SAVE)
    await hands.hears(says)
    assert hands.form.values == typed
    assert dump(path) == record


async def _leave(hands: Hands) -> None:
    """Escape asks; the second one leaves."""
    screen = hands.app.screen
    await hands.press("escape")
    await hands.hears("again to lose")
    assert hands.app.screen is screen
    await hands.press("escape")
    await hands.until(lambda: hands.app.screen is not screen)


async def test_a_key_held_down_takes_one_enquiry_down(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.ask(key("anywhere", "new_enquiry"))
        await hands.write({"Who": "Mrs Adeyemi", "Place": "Birch Lane"})
        hands.hold(SAVE, times=20)
        await hands.until(lambda: isinstance(hands.app.screen, JobScreen))
        await hands.comes_to_rest()
    assert query(path, "SELECT ref FROM job") == [("0001",)]


@pytest.mark.parametrize("title", ["The week", "Quit"])
async def test_a_dialog_is_not_left_from_the_palette_unasked(tmp_path: Path, title: str) -> None:
    path = tmp_path / "book.headlap"
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app = hands.app
        await hands.ask(key("anywhere", "new_enquiry"))
        await hands.write({"Who": "Mrs Adeyemi"})
        _by_palette(app, title)
        await hands.hears("Not saved.")
        assert isinstance(app.screen, FormDialog)
        assert hands.form.values["name"] == "Mrs Adeyemi"
        _by_palette(app, title)
        await hands.until(lambda: not app.is_running or isinstance(app.screen, WeekScreen))


@pytest.mark.long
async def test_a_dialog_keeps_its_typing_when_another_hand_was_quicker(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job_id = _ready(path)
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        for page, command_key, typed in DIALOGS:
            # Opened at the money, a job without an invoice asks for that at once.
            opened = PageName.SIGN_OFF if page is PageName.MONEY else page
            hands.app.open_job(job_id, opened)
            await hands.shows(opened)
            await hands.turn_to(page)
            await hands.ask(command_key)
            await hands.write(typed)
            _by_another_hand(path, job_id)
            await _refuses(hands, path, "in another window: 0001 Birch Lane, enquiry saved")
            await _leave(hands)
            await hands.press("escape")
            await hands.until(lambda: isinstance(hands.app.screen, WeekScreen))


@pytest.mark.long
async def test_a_page_keeps_its_typing_when_another_hand_was_quicker(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job_id = _ready(path)
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        for page, typed in TYPED_ON.items():
            hands.app.open_job(job_id, page)
            await hands.shows(page)
            await hands.write(typed)
            _by_another_hand(path, job_id)
            await _refuses(hands, path, CHANGED)
            await _leave(hands)


async def test_a_draft_quote_keeps_its_typing_when_another_hand_was_quicker(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    with closing(Book.open(path, EVENING)) as book:
        settle(book)
        job = surveyed(book)
        job_id = book.save_quote(job, one_option(job)).id or 0
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        hands.app.open_job(job_id, PageName.QUOTE)
        await hands.shows(PageName.QUOTE)
        await hands.press("shift+tab")  # from what is read into what can be typed
        await hands.write({"Round trip": "30"})
        _by_another_hand(path, job_id)
        await _refuses(hands, path, CHANGED)
        await _leave(hands)


async def test_own_details_keep_their_typing_when_another_hand_was_quicker(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _ready(path)
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(key("anywhere", "go('trader')"))
        await hands.until(lambda: hands.form.values["name"] != "")
        await hands.write({"Telephone": "01632 960999"})
        with closing(Book.open(path, EVENING)) as book:
            book.save_trader(replace(book.trader(), name="N. Other"))
        await _refuses(hands, path, CHANGED)
        await _leave(hands)


async def test_a_forecast_keeps_its_typing_when_another_hand_was_quicker(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _ready(path)
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.ask(key("week", "forecast"))
        await hands.write({"Forecast": "r11"})
        with closing(Book.open(path, EVENING)) as book:
            book.save_forecasts([builders.forecast(builders.LAY_DAY)])
        await _refuses(hands, path, "in another window: forecast for Wed 24 Jun 2026 saved")
        await _leave(hands)


async def test_what_is_unsaved_is_shown_to_be_saved_and_asked_about_each_time_anew(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    job_id = _ready(path)
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        hands.app.open_job(job_id, PageName.STRIP)
        await hands.shows(PageName.STRIP)
        await hands.write({"Found": "rot at the back eaves"})
        await hands.turn_to(PageName.LAYING)
        await hands.press("escape")
        await hands.hears("Unsaved changes in stripped.")
        await hands.shows(PageName.STRIP)
        await hands.write({"Found": "rot at both eaves"})
        await hands.press(key("anywhere", "go('week')"))
        await hands.hears("Unsaved changes in stripped.")  # it was typed on since

        hands.app.action_go("jobs")
        await hands.comes_to_rest()
        hands.app.open_job(job_id)
        await hands.shows(PageName.STRIP)
        assert hands.form.values["found"] == "rot at both eaves"
        await hands.save("Saved")
    assert query(path, "SELECT found FROM strip") == [("rot at both eaves",)]
