"""A customer's page: reached from a job and from the list, whole on the screen, led on from."""

from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from textual.pilot import Pilot

from domain.days.calendar import show_day
from domain.job import EnquiryRecord, Job, Received, SignOff, Site, Stage
from domain.page_names import PageName
from storage.book import Book
from tests import builders
from tests.tui.books.a_job_at_a_stage import NOW, TODAY, app_on, settled_for
from tests.tui.books.an_enquiry import NASTY
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, click_on, cut_off, lines, sees, text
from tui.customer.customer_rows import job_line
from tui.customer.customer_screen import CustomerScreen
from tui.frame.safe_text import one_line
from tui.frame.theme import EVENING
from tui.job.job_screen import JobScreen
from tui.lists.jobs_screen import JobsScreen
from tui.papers.paper_screen import PaperScreen
from tui.week.week_screen import WeekScreen

CUSTOMER = key("job", "customer")


def _book(path: Path, name: str = "Mrs Adeyemi") -> Job:
    """A customer with a laid job, invoiced and paid in part, and an enquiry elsewhere."""
    settled_for(path, Stage.SIGNED_OFF)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.save_trader(replace(builders.trader(), version=book.trader().version))
        job = book.job(1)
        told = EnquiryRecord(replace(job.customer, name=name), job.site, job.enquiry)
        job = book.change_enquiry(job, told)
        job = book.issue_invoice(job, TODAY) if not job.documents else job
        document = job.documents[0]
        job = book.record_payment(job, Received(document.id or 0, 100_00, TODAY, "cash"))
        book.take_enquiry(EnquiryRecord(job.customer, Site("Mill Row"), builders.enquiry()))
        return book.job(1)


async def _from_the_job(pilot: Pilot[None], job_id: int = 1) -> Hands:
    hands = Hands(pilot)
    hands.app.open_job(job_id)
    await hands.shows_a_job(job_id)
    await hands.press(CUSTOMER)
    await hands.until(lambda: isinstance(hands.app.screen, CustomerScreen))
    await sees(pilot, "Papers")
    return hands


@pytest.mark.parametrize("size", SIZES)
async def test_it_shows_who_what_and_the_money(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    job = _book(path)
    async with app_on(path).run_test(size=size) as pilot:
        hands = await _from_the_job(pilot)
        await sees(pilot, "Mrs Adeyemi", job.customer.phone, "Mill Row", "Birch Lane", "enquiry")
        await sees(pilot, "INV-1", "REC-1", "Asked", "Received", "£100.00", "Owed")
        assert await cut_off(pilot) == []
        shown = lines(hands.app)
        owed = next(line for line in shown if line.startswith("  0001"))
        titles = next(line for line in shown if line.startswith("  job "))
        assert len(owed) == len(titles), "the sums end where their titles end"
        assert ("What happened" in text(hands.app)) == (size[1] >= 32)


@pytest.mark.parametrize("size", SIZES)
async def test_keys_open_a_job_a_paper_and_go_back(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    _book(path)
    async with app_on(path).run_test(size=size) as pilot:
        hands = await _from_the_job(pilot)
        await hands.press("enter")
        await hands.shows_a_job(2)
        await hands.press(CUSTOMER)
        await hands.until(lambda: isinstance(hands.app.screen, CustomerScreen))
        assert len(hands.app.screen_stack) == 3, "gone back to, not opened over it"
        await hands.press("down", "enter")
        await hands.shows_a_job(1)
        assert len(hands.app.screen_stack) == 2
        await hands.press(CUSTOMER)
        await hands.until(lambda: isinstance(hands.app.screen, CustomerScreen))
        await sees(pilot, "REC-1")
        await hands.press("down", "down", "enter")
        await hands.until(lambda: isinstance(hands.app.screen, PaperScreen))
        await sees(pilot, "Receipt REC-1")
        await hands.press("escape")
        await hands.press(key("customer", "held"))
        await hands.until(lambda: isinstance(hands.app.screen, PaperScreen))
        await sees(pilot, "What we hold on Mrs Adeyemi", "Everything our job book holds on you")
        await hands.press("escape", "escape", "escape")
        assert isinstance(hands.app.screen, WeekScreen)


@pytest.mark.parametrize("below", [True, False])
async def test_a_key_leads_to_where_the_name_is_typed(tmp_path: Path, below: bool) -> None:
    path = tmp_path / "book.headlap"
    _book(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        if below:
            hands = await _from_the_job(pilot)
        else:
            hands.app.push_screen(CustomerScreen(1))
            await sees(pilot, "Papers", "e edit")
        depth = len(hands.app.screen_stack) + (-1 if below else 1)
        await hands.press(key("customer", "edit"))
        await hands.until(lambda: getattr(hands.app.focused, "id", "") == "field-name")
        assert len(hands.app.screen_stack) == depth
        await hands.write({"Who": "Mrs Adeyemi-Bell"})
        await hands.save("Saved: the enquiry.")
        await hands.press(*["escape"] if not below else [CUSTOMER])
        await sees(pilot, "Mrs Adeyemi-Bell", "Papers")


async def test_the_mouse_reaches_it_by_the_customers_name(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _book(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1)
        await hands.shows_a_job(1)
        await click_on(pilot, "Mrs Adeyemi · ")
        await hands.until(lambda: isinstance(app.screen, CustomerScreen))
        await sees(pilot, "Mill Row")
        await click_on(pilot, "Mill Row")
        await hands.shows_a_job(2)


async def test_it_is_reached_from_the_list_of_jobs(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _book(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(key("anywhere", "go('jobs')"))
        await hands.until(lambda: isinstance(hands.app.screen, JobsScreen))
        await sees(pilot, "c customer", "Mill Row")
        await hands.press("c")
        await sees(pilot, "Received", "INV-1")
        assert await cut_off(pilot) == []


@pytest.mark.parametrize("size", SIZES)
async def test_a_name_full_of_markup_stands_as_typed(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    _book(path, NASTY)
    async with app_on(path).run_test(size=size) as pilot:
        hands = await _from_the_job(pilot)
        await sees(pilot, f"customer  {one_line(NASTY)}")
        assert await cut_off(pilot) == []
        await hands.press(key("customer", "held"))
        await hands.until(lambda: isinstance(hands.app.screen, PaperScreen))
        await sees(pilot, "Smith [/] & Sons [a]")


async def test_what_was_changed_on_a_job_stands_on_it_at_once(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _book(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _from_the_job(pilot)
        await hands.press("enter")
        await hands.shows_a_job(2)
        assert isinstance(hands.app.screen, JobScreen)
        await hands.turn_to(PageName.ENQUIRY)
        await hands.write({"Telephone": "01632960555"})
        await hands.save("Saved: the enquiry. Changed on 0001 too.")
        await hands.press("escape")
        await sees(pilot, "01632 960555", "INV-1")


async def test_a_new_enquiry_asked_for_here_is_theirs_and_another_name_is_said(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    job = _book(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _from_the_job(pilot)
        await hands.ask(key("anywhere", "new_enquiry"))
        await hands.hears("For Mrs Adeyemi.")
        assert hands.form.values["phone"] == job.customer.phone
        await hands.write({"Who": "Mrs Adeyemi-Hart"})
        await sees(pilot, "Mrs Adeyemi gets this name in all their jobs.")
        await hands.write({"Who": "Mrs Adeyemi", "Place": "Hill Cottage"})
        await hands.press(key("dialog", "save"))
        await hands.shows_a_job(3)
    with closing(Book.open(path, lambda: NOW)) as book:
        assert book.job(3).customer == job.customer


def test_the_last_day_is_one_of_work_never_the_one_on_which_something_was_recorded() -> None:
    late = SignOff("Mrs Adeyemi", builders.LAY_DAY + timedelta(days=9))
    job = builders.job_at(Stage.SIGNED_OFF)
    assert job.laying is not None
    worked = replace(job, sign_off=late, snags=(), stripping=None)
    day = f"{show_day(job.laying.on)} {job.laying.on.year}"
    assert day in job_line(worked, 100, EVENING).plain
    booked = replace(worked, laying=None, days=(builders.booked_day(),))
    assert show_day(builders.booked_day().day) in job_line(booked, 100, EVENING).plain
    asked = replace(worked, laying=None, days=())
    assert "2026" not in job_line(asked, 100, EVENING).plain
