"""Every paper of a job in one list, from the pages of the work: by key and by mouse."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from domain.job import Extra, Job, Stage
from domain.page_names import PageName
from storage.book import Book
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, sees


def _guaranteeing(book: Book, job: Job) -> Job:
    book.save_trader(replace(book.trader(), guarantee_years=5))
    return job


@pytest.mark.parametrize("size", SIZES)
async def test_papers_of_the_work_are_shown_by_key_and_by_mouse(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    boards = Extra("rotten boards", Decimal(3), "m", 42_00, Decimal(0))
    by_another_hand(path, lambda book, job: book.save_extra(job, boards))
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        await hands.press(key("stripped", "papers"))
        await sees(pilot, "Extra work, to sign")
        assert await cut_off(pilot) == []
        await hands.press("enter")
        await sees(pilot, "Extra work, 0001")
        await hands.press("escape")
        await click_on(pilot, "Waste transfer note")
        await sees(pilot, "Old roofing felt, bituminous")
        await hands.press("escape")
        await click_on(pilot, "Guarantee")
        await hands.hears("has no guarantee yet")
        await click_on(pilot, "Site sheet")
        await sees(pilot, "Site sheet 0001")


async def test_the_guarantee_begins_as_the_details_have_it(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, _guaranteeing)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        assert hands.form.values["until"] == "5 years"
        await hands.write({"Signed off by": "Mrs Adeyemi", "On": "today"})
        await hands.save("Saved: signed off by the customer.")
        await hands.press(key("signed_off", "papers"))
        await hands.press("enter")
        until = TODAY.replace(year=TODAY.year + 5).year
        await sees(pilot, "Guarantee, 0001", str(until))
