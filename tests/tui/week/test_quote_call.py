"""The call about a quote that runs out: a yes, and a new price seen before it is final."""

from datetime import date, datetime, time
from pathlib import Path

from domain.job import Job, MadeAt, Means, Stage
from storage.book import Book
from tests.storage.evenings import Evening
from tests.tui.hands import Clock, Hands, key
from tests.tui.sight import sees, text
from tui.shell.app import make_app

TODAY = date(2026, 6, 24)
OPEN, SAVE = key("week", "open"), key("dialog", "save")


def _runs_out_tomorrow(path: Path) -> Job:
    evening = Evening(path, TODAY)
    job = evening.moved(evening.surveyed(evening.asked("Soon")), Stage.SURVEY)
    job = evening.moved(evening.sent(job, valid=1), Stage.QUOTED)
    evening.book.close()
    return job


async def test_a_yes_is_recorded_from_its_line(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job = _runs_out_tomorrow(path)
    app = make_app(path, Clock(datetime.combine(TODAY, time(19))))
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Quote runs out tomorrow")
        await hands.ask(OPEN)
        await sees(pilot, "y yes", "p price again", "d declined", "a no answer")
        await hands.ask(key("quote_call", "said_yes"))
        await hands.write({"Who": "Mrs Soon", "How": "text", "Where agreed": MadeAt.DISTANCE.value})
        await hands.press(SAVE)
        await hands.hears("Accepted by Mrs Soon.")
        await hands.until(lambda: "Quote runs out" not in text(app))
    book = Book.open(path, lambda: datetime.combine(TODAY, time(19)))
    quote = book.job(job.id or 0).quote
    book.close()
    assert quote is not None
    assert quote.acceptance is not None
    assert (quote.acceptance.who, quote.acceptance.means) == ("Mrs Soon", Means.TEXT)


async def test_a_new_price_is_seen_beside_the_old_before_it_is_final(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _runs_out_tomorrow(path)
    app = make_app(path, Clock(datetime.combine(TODAY, time(19))))
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Quote runs out tomorrow")
        await hands.ask(OPEN)
        await hands.press(key("quote_call", "renew"))
        await sees(pilot, "Make quote 2 final", ": £", ", was £")
