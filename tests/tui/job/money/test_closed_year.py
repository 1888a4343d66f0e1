"""A payment of a tax year that was told is asked about, when it comes and when it is cancelled."""

from datetime import datetime
from pathlib import Path

from domain.job import Stage
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import carried_to
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import cut_off
from tui.shell.app import make_app

SAVE = key("dialog", "save")
ASKED = "1 March 2027 is in 2026-27, whose last quarter was due already"


async def test_money_of_a_year_that_was_told_is_asked_about_once(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = make_app(path, lambda: datetime(2027, 6, 1, 19, 0))
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        await hands.ask(key("money", "money_in"))
        await hands.write({"Amount": "100", "Received on": "1 Mar 2027"})
        await hands.press(SAVE)
        await hands.hears(ASKED)
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Saved: £100.00 received.")
        await hands.ask(key("money", "put_right"))
        await hands.write({"What happened": "typed by mistake"})
        await hands.press(SAVE)
        await hands.hears(ASKED)
        await hands.press(SAVE)
        await hands.hears("£100.00 cancelled")
    (payment,) = read_again(path).payments
    assert payment.standing == ()
