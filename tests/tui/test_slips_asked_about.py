"""A slip of ten is said under its field; the first save stops there, the second saves."""

from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited
from domain.days.calendar import show_date
from domain.job import DocumentKind, Received, Stage
from domain.page_names import PageName
from storage.book import Book
from tests.storage.books import laid
from tests.tui.books.a_job_at_a_stage import NOW, TODAY, app_on, carried_to
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import cut_off, sees, text
from tui.job.money.invoice_dialog import IssueDialog

SAVE = key("dialog", "save")
AGAIN = "is that right? ctrl+s again to save."


async def test_a_payment_over_what_is_owed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        await hands.ask(key("money", "money_in"))
        await hands.write({"Amount": "3821.10"})
        await hands.press(SAVE)
        await hands.hears(AGAIN)
        await sees(pilot, "▲ £3,821.10 is more than the £382.11 owed")
        assert await cut_off(pilot) == []
        assert read_again(path).payments == ()
        await hands.write({"Amount": "400"})
        await hands.press(SAVE)  # another figure is asked about anew
        await hands.hears(AGAIN)
        await hands.press(SAVE)
        await hands.hears("£400.00 received.")
    assert [payment.pence for payment in read_again(path).payments] == [400_00]


async def test_a_day_over_a_year_away(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    app = app_on(path)
    far = show_date(TODAY + timedelta(days=400))
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.ENQUIRY)
        await hands.write({"Visit on": far})
        await hands.press(key("job", "save"))
        await hands.hears(AGAIN)
        await sees(pilot, f"▲ {far} is over a year away")
        await hands.press(key("job", "save"))
        await hands.hears("Saved: the enquiry.")


async def test_far_more_used_than_estimated(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        await hands.press(*"420", key("used", "accept_all"))
        await hands.hears(AGAIN)
        await sees(pilot, "▲ shingles: 420 strips in all, but")
        assert read_again(path).usages[0].used == 54
        await hands.press(key("used", "accept_all"), *["enter"] * 3)  # neither is a yes
        await hands.hears(AGAIN)
        assert read_again(path).usages[0].used == 54
        await hands.press(key("job", "save"))
        await hands.hears("Saved")
    assert read_again(path).usages[0].used == 420


async def test_who_signed_off_is_typed_and_the_day_is_then_today(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        assert (hands.form.values["who"], hands.form.values["on"]) == ("", "")
        await hands.write({"Signed off by": "M"})
        assert hands.form.values["on"] == show_date(TODAY)
        await hands.press("backspace")
        assert hands.form.values["on"] == ""


async def test_papers_dated_before_the_last_of_their_series(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    with closing(Book.open(path, lambda: NOW)) as book:
        other = laid(book, "The Green")
        other = book.issue_invoice(other, TODAY + timedelta(days=2))
        key_of_it = other.documents[0].id or 0
        book.record_payment(other, Received(key_of_it, 1_00, TODAY + timedelta(days=2), "cash"))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1, PageName.MONEY)
        await hands.until(lambda: isinstance(app.screen, IssueDialog))
        await hands.press(key("issue", "save"))
        await hands.hears("is that right? y again to issue it.")
        await sees(pilot, "is before the last invoice, of")
        assert await cut_off(pilot) == []
        assert read_again(path).documents == ()
        await hands.press(key("issue", "save"))
        await hands.hears("Issued: the invoice.")
        await hands.ask(key("money", "money_in"))
        await hands.press(SAVE)
        await hands.hears(AGAIN)
        await sees(pilot, "is before the last receipt, of")
        assert await cut_off(pilot) == []
        await hands.write({"Received on": "1 Jun"})
        await hands.press(SAVE)  # graver than the other, which is then not said
        await sees(pilot, "is before the invoice of")
        assert "last receipt" not in text(app)
        assert await cut_off(pilot) == []
        assert read_again(path).payments == ()
        await hands.press(SAVE)
        await hands.hears("received.")
    assert len(read_again(path).payments) == 1


def _issued_two_days_on(path: Path) -> None:
    """An invoice, a receipt, a credit note, a mistake and a refund of another job."""
    later = TODAY + timedelta(days=2)
    with closing(Book.open(path, lambda: NOW)) as book:
        job = book.issue_invoice(laid(book, "The Green"), later)
        owed = job.documents[0].id or 0
        job = book.record_payment(job, Received(owed, 1_00, later, "cash"))
        mistake = GivenBack(DocumentKind.MISTAKE, job.payments[0].id or 0, 1_00, later, "typed")
        job = book.give_back(job, mistake, later)
        job = book.record_payment(job, Received(owed, 5000_00, later, "cash"))
        refund = GivenBack(DocumentKind.REFUND, job.payments[1].id or 0, 1_00, later, "too much")
        job = book.give_back(job, refund, later)
        book.credit(job, Credited(owed, 1_00, "too much"), later)


async def test_papers_that_put_right_dated_before_the_last_of_their_series(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    _issued_two_days_on(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        await hands.ask(key("money", "put_right"))
        await hands.write({"Take off": "10", "Because": "two boards fewer"})
        await _asked_once(hands, "credit note", "a credit note for £10.00")
        for what, words, told in (
            ("typed by mistake", "note of a mistake", "cancelled"),
            ("paid back to them", "refund", "paid back"),
        ):
            await hands.ask(key("money", "money_in"))
            await hands.write({"Amount": "400"})
            await hands.press(SAVE)
            await hands.hears(AGAIN)
            await hands.press(SAVE)
            await hands.hears("£400.00 received.")
            await hands.ask(key("money", "put_right"))
            await hands.write({"What happened": what})
            await _asked_once(hands, words, told)


async def _asked_once(hands: Hands, paper: str, told: str) -> None:
    before = len(read_again(hands.app.open_book.path).documents)
    await hands.press(SAVE)
    await hands.hears(AGAIN)
    await sees(hands.pilot, f"is before the last {paper}, of")
    assert await cut_off(hands.pilot) == []
    assert len(read_again(hands.app.open_book.path).documents) == before
    await hands.press(SAVE)
    await hands.hears(told)


async def test_what_the_end_of_a_job_issues_before_the_last_of_its_series(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    _issued_two_days_on(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.QUOTE)
        await hands.ask(key("job", "end"))
        await hands.write({"How it ended": "called off", "Why": "moving", "Keep": "250"})
        await hands.write({"It pays for": "stripped"})
        await _asked_once(hands, "invoice", "The job is called off.")


async def test_what_is_refused_is_refused_before_anything_is_asked_about(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        await hands.ask(key("money", "money_in"))
        await hands.write({"Amount": "10"})
        await hands.press(SAVE)
        await hands.hears("£10.00 received.")
        await hands.ask(key("money", "put_right"))
        await hands.write({"What happened": "typed by mistake", "On": "1 Jan 2025"})
        await hands.press(SAVE)
        await hands.hears(
            "“Wed 1 Jan 2025” is not valid. Give a day on or after the one it came in"
        )


async def test_a_last_day_over_fifteen_years_away(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        await hands.write({"Signed off by": "Mrs Vane", "Guarantee until": "31 Mar 2096"})
        await hands.press(key("job", "save"))
        await hands.hears(AGAIN)
        await sees(pilot, "Sat 31 Mar 2096 is over 15 years away")
        await hands.write({"Guarantee until": "10 years"})
        await hands.press(key("job", "save"))
        await hands.hears("Saved: ")
        await hands.press(key("anywhere", "go('trader')"))
        await sees(pilot, "your details")
        await hands.write({"Insured until": "31 Mar 2096"})
        await hands.press(key("trader", "save"))
        await hands.hears(AGAIN)
        with closing(Book.open(path, lambda: NOW)) as book:
            assert book.trader().liability_expires != date(2096, 3, 31)
        await hands.press(key("trader", "save"))
        await hands.hears("Saved")
    with closing(Book.open(path, lambda: NOW)) as book:
        assert book.trader().liability_expires == date(2096, 3, 31)
