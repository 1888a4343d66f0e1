"""Who asks again is known, and their details are taken over by a key, never unasked."""

from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from textual.pilot import Pilot

from domain.job import CustomerKind, EnquiryRecord, Job, Site
from domain.page_names import PageName
from storage.book import Book
from tests import builders
from tests.tui.books.an_enquiry import NASTY, NOW, app_on, book_at, read_again
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.frame.safe_text import one_line
from tui.job.enquiry.enquiry_dialog import EnquiryDialog
from tui.job.enquiry.known_caller import Caller

TAKE = key("enquiry", "take_over")
ADEYEMI = "Mrs Adeyemi, Birch Lane: 1 job, 0001 enquiry June 2026"


async def _asked(pilot: Pilot[None], **typed: str) -> Hands:
    """A new enquiry, typed so far."""
    hands = Hands(pilot)
    await hands.ask(key("anywhere", "new_enquiry"))
    labels = {"name": "Who", "phone": "Telephone", "place": "Place"}
    await hands.write({labels[field]: words for field, words in typed.items()})
    return hands


def _another(path: Path, name: str, place: str = "The Green", phone: str = "") -> Job:
    customer = replace(builders.customer(), name=name, phone=phone, address="")
    with closing(Book.open(path, lambda: NOW)) as book:
        return book.take_enquiry(EnquiryRecord(customer, Site(place), builders.enquiry()))


@pytest.mark.parametrize("size", SIZES)
async def test_a_known_name_is_told_and_its_details_are_taken_by_a_key(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    first = book_at(path)
    async with app_on(path).run_test(size=size) as pilot:
        hands = await _asked(pilot, name="mr adeyemi")
        await sees(pilot, ADEYEMI, "ctrl+f their details")
        assert await cut_off(pilot) == []
        assert hands.form.values["phone"] == ""
        await hands.press(TAKE)
        await hands.hears("For Mrs Adeyemi. ctrl+f again for what you typed.")
        await sees(pilot, f"✓ {ADEYEMI}")
        assert await cut_off(pilot) == []
        assert hands.form.values["phone"] == first.customer.phone
        assert hands.form.values["place"] == "Birch Lane"
        await hands.type_in("8x6")  # what is typed next renames nobody
        assert hands.form.values["name"] == first.customer.name
        await hands.press(key("dialog", "save"))
        await hands.shows_a_job(2)
    again = read_again(path, 2)
    assert (again.customer, again.site) == (first.customer, first.site)


async def test_the_key_is_clicked_and_gives_back_what_was_typed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _asked(pilot, name="ADEYEMI", place="birch lane")
        await sees(pilot, ADEYEMI)
        typed = hands.form.values
        await click_on(pilot, "ctrl+f their details")
        await hands.hears("For Mrs Adeyemi.")
        assert hands.form.values["name"] == "Mrs Adeyemi"
        await hands.press(TAKE)
        await hands.hears("As you typed it: the enquiry of a new customer.")
        assert hands.form.values == typed
        await hands.press(key("dialog", "save"))
        await hands.shows_a_job(2)
    assert read_again(path, 2).customer.id != read_again(path).customer.id


async def test_another_number_stays_and_becomes_the_customers_and_so_does_a_place(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    first = book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _asked(pilot, name="Adeyemi", phone="01632960000", place="Mill Row")
        await hands.press(TAKE, key("dialog", "save"))
        await hands.shows_a_job(2)
        assert read_again(path).customer.phone == "01632 960000"
        await hands.press("f8", "f8")
        await hands.until(lambda: read_again(path).customer == first.customer)
        await hands.press(key("anywhere", "redo"))
        await hands.shows_a_job(2)
    again = read_again(path, 2)
    assert again.customer.phone == "01632 960000"
    assert again.site.place == "Mill Row"
    assert again.site.id != first.site.id
    assert read_again(path).site == first.site


async def test_several_of_a_name_come_one_after_the_other(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    _another(path, "Ms Adeyemi")
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _asked(pilot, name="adeyemi")
        await sees(pilot, "Ms Adeyemi, The Green: 1 job, 0002 enquiry June 2026; 1 more")
        await hands.press(TAKE)
        await hands.hears("For Ms Adeyemi. ctrl+f again for the next who may be meant.")
        await hands.press(TAKE)
        await hands.hears("For Mrs Adeyemi. ctrl+f again for what you typed.")
        assert hands.form.values["place"] == "Birch Lane"
        await hands.press(TAKE)
        assert hands.form.values["name"] == "adeyemi"


async def test_another_name_and_number_typed_over_it_is_another_customer(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    first = book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _asked(pilot, place="birch lane")
        await sees(pilot, ADEYEMI)
        await hands.press(TAKE)
        await hands.press("up", "up", "up")
        await hands.write({"Who": "Mr Ek", "Telephone": "01632 960009"})
        await hands.until(lambda: "✓" not in text(hands.app))
        await sees(pilot, ADEYEMI)  # of the place
        await hands.press(key("dialog", "save"))
        await hands.shows_a_job(2)
    assert read_again(path).customer == first.customer
    assert read_again(path, 2).customer.name == "Mr Ek"


async def test_a_name_full_of_markup_is_told_as_typed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _another(path, NASTY, "[red]Lane[/]")
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _asked(pilot, name=one_line(NASTY))
        await sees(pilot, f"{one_line(NASTY)}, [red]Lane[/]: 1 job"[:60])
        await hands.press(TAKE)
        assert hands.form.values["name"] == one_line(NASTY)
        await hands.press(key("dialog", "save"))
        await hands.shows_a_job(2)
    assert read_again(path, 2).customer == read_again(path).customer


async def test_a_customer_changed_in_another_window_is_read_again(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    first = book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _asked(pilot, name="Adeyemi")
        await hands.press(TAKE)
        told = replace(first.customer, kind=CustomerKind.BUSINESS)
        with closing(Book.open(path, lambda: NOW)) as book:
            book.change_enquiry(first, EnquiryRecord(told, first.site, first.enquiry))
        await hands.press(key("dialog", "save"))
        await hands.hears("Meanwhile in another window: 0001 Birch Lane, enquiry saved.")
        await hands.press(key("dialog", "save"))
        await hands.shows_a_job(2)
    assert read_again(path, 2).customer.id == first.customer.id


async def test_a_change_of_a_shared_customer_says_which_jobs_have_it_too(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    first = book_at(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.take_enquiry(EnquiryRecord(first.customer, Site("Mill Row"), first.enquiry))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1)
        await hands.shows_a_job(1)
        await hands.turn_to(PageName.ENQUIRY)
        await hands.write({"Telephone": "01632 960000"})
        await hands.save("Saved: the enquiry. Changed on 0002 too.")
        await hands.write({"Place": "Birch Lane 7"})
        await hands.save("Saved: the enquiry. F8")


def test_nobody_is_known_until_something_is_typed() -> None:
    values = {"name": "", "phone": "", "place": "", "kind": "householder"}
    assert Caller().told(values, "name") == ("", "")
    assert Caller().next(values, chosen=False) == values


async def test_with_nobody_known_there_is_no_key(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _asked(pilot, name="Mr Ek")
        await hands.press(TAKE)
        await hands.comes_to_rest()
        assert isinstance(hands.app.screen, EnquiryDialog)
        assert "their details" not in text(hands.app)
        assert hands.form.values["name"] == "Mr Ek"
