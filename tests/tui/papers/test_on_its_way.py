"""A paper on its way to the customer: opened, drafted as an e-mail, told in a message."""

from dataclasses import replace
from email import message_from_bytes
from email.policy import default
from pathlib import Path

import pytest

from domain.job import Stage
from domain.papers.blocks import Paper
from domain.papers.quote_paper import quote_paper
from tests import builders, priced
from tests.storage.test_faults import no_room
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.books.an_enquiry import NASTY
from tests.tui.hands import Hands, key, said
from tests.tui.programs import stand_in
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.papers.as_text import plain_text
from tui.papers.paper_screen import PaperScreen

OPEN, DRAFT, COPY = (key("paper", command) for command in ("open_pdf", "draft", "copy"))


def _for_customer(name: str = "Mrs Adeyemi") -> Paper:
    customer = builders.customer(name=name, email="ann@example.com")
    made = replace(priced.quote(), sent_on=builders.SENT)
    job = builders.ready_for(Stage.QUOTED, quotes=(made,), customer=customer)
    return quote_paper(job, made, builders.trader())


@pytest.mark.parametrize("size", SIZES)
async def test_it_is_opened_drafted_and_told_by_a_key_or_a_click_each(
    tmp_path: Path, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    path, paper = tmp_path / "book.headlap", _for_customer()
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        app.push_screen(PaperScreen(paper))
        await sees(pilot, paper.title, "esc back", "F1 help")
        await hands.press(OPEN)
        await hands.hears("open it from there")
        assert await cut_off(pilot) == []
        noted = stand_in(tmp_path, "xdg-open", monkeypatch)
        await click_on(pilot, "o open")
        await hands.hears("Opened ")
        assert noted.read_text(encoding="utf-8").strip().endswith(".pdf")
        await click_on(pilot, "m e-mail")
        await hands.until(lambda: "Opened " in said(app) and ".eml" in said(app))
        assert await cut_off(pilot) == []
        told = stand_in(tmp_path, "xclip", monkeypatch)
        await click_on(pilot, "c copy")
        await hands.hears("Copied: Hello Mrs Adeyemi, our quote")
        assert await cut_off(pilot) == []
        assert hands.pressed == 1
    assert paper.letter is not None
    assert told.read_text(encoding="utf-8").endswith(paper.letter.short)
    draft, pdf = sorted((tmp_path / "papers").iterdir())
    assert (draft.suffix, pdf.suffix) == (".eml", ".pdf")
    assert oct(draft.stat().st_mode & 0o777) == "0o600"
    message = message_from_bytes(draft.read_bytes(), policy=default)
    assert message["To"] == "ann@example.com"
    assert noted.read_text(encoding="utf-8").strip() == str(draft)


async def test_a_paper_of_ones_own_has_nobody_to_write_to(tmp_path: Path) -> None:
    path, paper = tmp_path / "book.headlap", Paper("Site sheet", ())
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        app.push_screen(PaperScreen(paper))
        await sees(pilot, "o open")
        await hands.press(DRAFT, COPY)
        await hands.hears("Your terminal may have copied it.")
        assert app.clipboard == plain_text(paper)
    (kept,) = (tmp_path / "papers").iterdir()
    assert kept.suffix == ".txt"


async def test_an_odd_name_goes_into_the_draft_as_words_alone(tmp_path: Path) -> None:
    path, paper = tmp_path / "book.headlap", _for_customer(f"{NASTY}\nBcc: x@example.com")
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        app.push_screen(PaperScreen(paper))
        await hands.press(DRAFT)
        await hands.hears("Saved as ")
        await hands.press(COPY)
        await hands.hears("Your terminal may have copied it.")
        assert not set(app.clipboard) & set("\x1b\u202e\n")
    draft = next((tmp_path / "papers").glob("*.eml")).read_bytes()
    assert message_from_bytes(draft, policy=default)["Bcc"] is None


async def test_a_draft_that_the_disk_has_no_room_for_leaves_the_pdf_alone(tmp_path: Path) -> None:
    path, paper = tmp_path / "book.headlap", _for_customer()
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        app.push_screen(PaperScreen(paper))
        await hands.press(key("paper", "print"))
        await hands.hears("Saved as ")
        (pdf,) = (tmp_path / "papers").iterdir()
        with no_room(pdf.stat().st_size + 1000):
            await hands.press(DRAFT)
            await hands.hears("The paper was not saved")
    assert list((tmp_path / "papers").iterdir()) == [pdf]
