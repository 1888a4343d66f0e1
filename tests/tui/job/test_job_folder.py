"""The folder of a job: opened by a key, and pictures in it count as photographs."""

from dataclasses import replace
from pathlib import Path

import pytest

from domain.job import Stage
from domain.page_names import PageName
from storage.job_folders import job_folder, made_job_folder, photographs_of
from tests import builders
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.books.an_enquiry import NASTY, read_again
from tests.tui.hands import Hands, key, turn_to
from tests.tui.programs import stand_in

FOLDER = key("job", "folder")


async def test_it_is_made_and_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    noted = stand_in(tmp_path, "xdg-open", monkeypatch)
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    folder = job_folder(path, read_again(path))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.LAYING)
        await hands.press(FOLDER)
        await hands.hears("photographs put there are counted.")
        assert noted.read_text(encoding="utf-8").splitlines()[0] == str(folder)
        (folder / "IMG_1.JPG").write_bytes(b"")
        monkeypatch.delenv("DISPLAY")
        await hands.press(FOLDER)
        await hands.hears("1 photograph in it.")


@pytest.mark.parametrize("there", [False, True])
def test_who_else_uses_the_machine_cannot_list_where_customers_live(
    tmp_path: Path, there: bool
) -> None:
    path, job = tmp_path / "own" / "book.headlap", builders.ready_for(Stage.LAID)
    jobs = path.parent / "jobs"
    if there:
        jobs.mkdir(parents=True)
        jobs.chmod(0o755)
    folder = made_job_folder(path, job)
    assert {oct(each.stat().st_mode & 0o777) for each in (folder, jobs)} == {"0o700"}
    assert there or oct(path.parent.stat().st_mode & 0o777) == "0o700"


async def test_one_that_cannot_be_made_is_said(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    (tmp_path / "jobs").write_bytes(b"in the way")
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.LAYING)
        await hands.press(FOLDER)
        await hands.hears("was not made, as it cannot be written")


def test_it_is_found_again_when_the_place_changes(tmp_path: Path) -> None:
    job = builders.job_at(Stage.SURVEY)
    book = tmp_path / "book.headlap"
    folder = job_folder(book, job)
    folder.mkdir(parents=True)
    (folder.parent / f"{job.ref}0 another").mkdir()
    moved = replace(job, site=replace(job.site, place=NASTY))
    assert job_folder(book, moved) == folder
    for name in ("a.jpg", "b.HEIC", "notes.txt"):
        (folder / name).write_bytes(b"")
    assert photographs_of(book, moved) == 2


@pytest.mark.parametrize(
    "place", [NASTY, "", "..", "a/../../b", 'C:\\<x>|"?*', "x" * 300, "end. ."]
)
def test_no_place_leads_out_of_the_folder_of_jobs(tmp_path: Path, place: str) -> None:
    plain = builders.job_at(Stage.SURVEY)
    job = replace(plain, site=replace(plain.site, place=place))
    folder = job_folder(tmp_path / "book.headlap", job)
    assert folder.resolve().parent == (tmp_path / "jobs").resolve()
    assert folder.name.startswith(job.ref)
    assert len(folder.name) <= 40
