"""Signing off: the customer's word, a guarantee, and snags."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.errors import Refused
from domain.job import SignOff, Snag, Stage
from domain.page_names import PageName
from tests import builders
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, carried_to
from tests.tui.books.an_enquiry import NASTY, read_again
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.frame.safe_text import one_line
from tui.job.signing_off.signing_off_page import read_sign_off, sign_off_typed

SAVE = key("dialog", "save")
LONG = f"{NASTY} {'drip trim loose at the verge ' * 6}"


async def test_the_word_and_the_guarantee_are_kept(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        assert hands.form.values["who"] == ""
        await hands.write({"Signed off by": "Mrs Adeyemi"})
        await hands.write({"Guarantee until": "24 June 2031", "It covers": LONG})
        assert await cut_off(pilot) == []
        await click_on(pilot, "ctrl+s save")
        await hands.hears("Saved: signed off by the customer.")
        hands.form.put("who", "Mr Adeyemi")
        await hands.save("Saved: signed off by the customer.")
        assert await cut_off(pilot) == []
    done = read_again(path).sign_off
    assert done is not None
    assert (done.who, done.on, done.guarantee_until) == ("Mr Adeyemi", TODAY, date(2031, 6, 24))
    assert done.guarantee_words == one_line(LONG).strip()


@pytest.mark.parametrize("size", SIZES)
async def test_snags_are_recorded_and_done(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        await hands.ask(key("signed_off", "add_snag"))
        await hands.press(SAVE)
        await hands.hears("What is empty. Say what it is.")
        await hands.write({"What": "drip trim loose"})
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Saved: the snag.")
        await click_on(pilot, "ctrl+n add snag")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.write({"What": LONG})
        await click_on(pilot, "ctrl+s save")
        await hands.until(lambda: text(app).count("▲ open") == 2)
        assert await cut_off(pilot) == []
        await click_on(pilot, "Smith")
        await sees(pilot, "Fixed on", f"{TODAY:%a} {TODAY.day}")
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await sees(pilot, f"✓ fixed {TODAY:%a} {TODAY.day}")
        await hands.press("up")
        await hands.ask("enter")
        await hands.write({"Hours": "1.5", "Materials": "half a pack", "They cost you": "21.30"})
        await hands.press(SAVE)
        await sees(pilot, "1½ h, £21.30")
        assert "▲ open" not in text(app)
        assert await cut_off(pilot) == []
        await hands.ask("enter")
        await hands.write({"Fixed on": ""})
        await hands.press(SAVE)
        await hands.hears("Fixed on is empty. Say when, or clear what it took.")
        await hands.write({"Hours": "", "Materials": "", "They cost you": ""})
        await hands.press(SAVE)
        await sees(pilot, "▲ open")
        await hands.press("f8", "f8")
        await sees(pilot, "1½ h, £21.30")
    first, last = read_again(path).snags
    assert first == Snag("drip trim loose", TODAY, Decimal("1.5"), "half a pack", 21_30, first.id)
    assert (last.words, last.done_on, last.hours) == (
        one_line(LONG).strip(),
        TODAY,
        Decimal(0),
    )


async def test_a_word_of_nobody_is_refused_and_stays_typed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        await hands.write({"Signed off by": " ", "It covers": "the laying"})
        await hands.press(key("job", "save"))
        await hands.hears("Signed off by is empty")
        assert app.focused is app.screen.query_one("#field-who")
        assert hands.form.values["words"] == "the laying"
    assert read_again(path).sign_off is None


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ({"on": "someday"}, "on"),
        ({"on": ""}, "on"),
        ({"until": "for ever"}, "until"),
        ({"until": "1 Jan 9999"}, "until"),
        ({"until": NASTY}, "until"),
    ],
)
def test_a_refusal_names_the_field(typed: dict[str, str], label: str) -> None:
    plain = {"who": "Mrs Adeyemi", "on": "today", "until": "", "words": ""}
    with pytest.raises(Refused) as refused:
        read_sign_off(plain | typed, TODAY)
    assert refused.value.field == label


def test_the_customers_word_is_read_back_unchanged() -> None:
    done = SignOff("Mr Ek", date(2026, 6, 24), date(2031, 6, 25), "workmanship, not storm damage")
    typed = sign_off_typed(builders.job_at(Stage.LAID, sign_off=done), builders.trader())
    assert read_sign_off(typed, TODAY) == done
