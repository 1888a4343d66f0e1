"""Invoices, deposits and money in: issued, paid in part, paid over, shown as they were given."""

from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.accounts.credit_note import CreditNote
from domain.accounts.invoice import Invoice, invoice_for
from domain.errors import Refused
from domain.job import PAYMENT_METHODS, DocumentKind, Job, Payment, Stage
from domain.money import show_money
from domain.page_names import PageName
from domain.papers.blocks import Totals
from domain.snapshot import from_json
from domain.tone import Tone
from tests import builders
from tests.storage.books import DEPOSIT, booked, laid, open_book, settle
from tests.tui.books.a_job_at_a_stage import NOW, TODAY, app_on, carried_to
from tests.tui.books.an_enquiry import NASTY, read_again
from tests.tui.hands import Clock, Hands, key, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.job.money.account_words import account_standing
from tui.job.money.invoice_dialog import IssueDialog, in_short
from tui.job.money.payment_dialog import afterwards, read_money_in
from tui.papers.paper_screen import PaperScreen
from tui.shell.app import HeadlapApp, make_app

SAVE = key("dialog", "save")
GROSS = 382_11
"""What the job of these books comes to."""


def _with_a_deposit(path: Path, carry: Callable[..., Job]) -> HeadlapApp:
    with closing(open_book(path)) as book:
        settle(book)
        carry(book)
    return make_app(path, Clock(NOW + timedelta(days=1)))


@pytest.mark.parametrize("size", SIZES)
async def test_an_invoice_is_issued_and_paid_in_parts_by_keys_and_by_mouse(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        await hands.turn_to(PageName.MONEY)
        await sees(pilot, "Nothing is invoiced yet.")
        await click_on(pilot, "s send")
        await hands.until(lambda: isinstance(app.screen, IssueDialog))
        assert await cut_off(pilot) == []
        await sees(pilot, "Materials: square butt", "£200.23", "Work: strip", "£181.88")
        await sees(pilot, "Due by Wed 8 Jul 2026", "£382.11")
        await click_on(pilot, "y yes, issue it")
        await hands.hears("Issued: the invoice. Enter shows it.")
        await sees(pilot, "Owed £382.11, due Wed 8 Jul 2026.")
        await hands.ask(key("money", "money_in"))
        await hands.write({"Amount": "100"})
        await sees(pilot, "leaves £282.11 owed")
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Saved: £100.00 received. If it is wrong: p on its receipt.")
        await click_on(pilot, "m payment")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.write({"Amount": "300"})
        await sees(pilot, "£17.89 overpaid (credit)")
        await click_on(pilot, "cheque")
        await click_on(pilot, "ctrl+s save")
        await hands.hears("is that right? ctrl+s again to save.")
        await click_on(pilot, "ctrl+s save")
        await hands.hears("£300.00 received.")
        await sees(pilot, "✓ Paid. £17.89 overpaid (credit).")
        await sees(pilot, "✓ paid")
        assert await cut_off(pilot) == []
    job = read_again(path)
    assert [(d.label, d.gross, d.owed) for d in job.documents] == [
        ("INV-1", GROSS, 0),
        ("REC-1", 100_00, 0),
        ("REC-2", 300_00, 0),
    ]
    assert [(p.received_on, p.pence, p.method, p.unallocated) for p in job.payments] == [
        (TODAY, 100_00, "bank transfer", 0),
        (TODAY, 300_00, "cheque", 17_89),
    ]


async def test_a_document_is_shown_as_it_was_given(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        await hands.ask(key("money", "money_in"))
        await hands.press(SAVE)
        await hands.hears("£382.11 received.")
        await click_on(pilot, "REC-1")
        await hands.until(lambda: isinstance(app.screen, PaperScreen))
        await sees(pilot, "Received £382.11 by bank transfer")
        await sees(pilot, "Receipt REC-1")
        assert await cut_off(pilot) == []
        await hands.press(key("paper", "back"))
        await hands.shows(PageName.MONEY)
        await hands.press("up", key("money", "open"))
        await sees(pilot, "Thorne Shed Roofs")
        await sees(pilot, "Invoice INV-1")
        assert await cut_off(pilot) == []


def test_of_many_lines_the_first_are_shown_and_what_the_others_come_to(tmp_path: Path) -> None:
    job = carried_to(tmp_path / "book.headlap", Stage.LAID)
    issued = invoice_for(job, builders.trader(), 42, TODAY)
    many = replace(issued, lines=tuple(replace(issued.lines[0], net=n * 100) for n in range(1, 8)))
    (sums,) = in_short(many).blocks
    assert isinstance(sums, Totals)
    assert [row[1] for row in sums.rows[:3]] == ["£1.00", "£2.00", "£3.00"]
    assert sums.rows[3] == ("and 4 more lines", "£22.00")


async def test_money_that_no_invoice_asks_for_is_kept_as_credit(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        await hands.turn_to(PageName.MONEY)
        await hands.press(key("money", "money_in"))
        await sees(
            pilot, "Nothing is invoiced yet: it is credit, and comes off their next invoice."
        )
        assert await cut_off(pilot) == []
        await hands.press(*"50", key("job", "save"))
        await hands.until(lambda: not isinstance(app.screen, ModalScreen))
        await sees(pilot, "Nothing is invoiced yet. £50.00 paid ahead (credit).")
        for command in ("send", "deposit"):
            await hands.press(key("money", command))
            await hands.hears("■ ")
            assert not isinstance(app.screen, ModalScreen)
            assert await cut_off(pilot) == []
        await hands.press("enter")
        await sees(pilot, "Paid ahead: comes off your invoice")
    assert [each.label for each in read_again(path).documents] == ["REC-1"]


async def test_the_deposit_is_asked_for_and_taken_off(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    app = _with_a_deposit(path, laid)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        await hands.turn_to(PageName.MONEY)
        await click_on(pilot, "d deposit")
        await hands.until(lambda: isinstance(app.screen, IssueDialog))
        await sees(pilot, "Issue the deposit invoice")
        await hands.press(key("issue", "leave"))
        await hands.until(lambda: not isinstance(app.screen, ModalScreen))
        await hands.ask(key("money", "deposit"))
        await hands.press(key("issue", "save"))
        await hands.hears("Issued: the deposit invoice.")
        await hands.press(key("money", "send"))
        await hands.hears("Marked as sent: INV-1. F8 to undo.")
        await hands.ask(key("money", "send"))
        await sees(pilot, "Less deposit invoice INV-1")
        assert await cut_off(pilot) == []
        await hands.press(key("issue", "save"))
        await hands.hears("Issued: the invoice.")
        assert await cut_off(pilot) == []
    deposit, invoice = read_again(path).documents
    assert (deposit.kind, deposit.gross) == (DocumentKind.DEPOSIT, DEPOSIT)
    assert (invoice.kind, invoice.number) == (DocumentKind.INVOICE, 2)


async def test_money_goes_to_the_document_under_the_cursor(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    with closing(open_book(path)) as book:
        settle(book)
        job = book.issue_deposit_invoice(laid(book), builders.SIGNED)
        book.issue_invoice(job, builders.SIGNED)
    app = make_app(path, Clock(NOW + timedelta(days=1)))
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        await hands.press("down")
        await hands.ask(key("money", "money_in"))
        await sees(pilot, "Payment for invoice INV-2")
        await hands.write({"Amount": "1"})
        await hands.press(SAVE)
        await hands.hears("£1.00 received.")
    deposit, invoice, _ = read_again(path).documents
    assert (deposit.paid, invoice.paid) == (0, 1_00)


async def test_opened_for_the_invoice_too_early_it_turns_to_what_comes_first(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    app = _with_a_deposit(path, booked)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1, PageName.MONEY)
        await hands.shows(PageName.STRIP)
        await hands.hears("You can invoice once the roof is marked laid. This comes first.")
        assert await cut_off(pilot) == []


@pytest.mark.parametrize(
    ("amount", "words", "tone"),
    [
        ("382.11", "pays it off", Tone.GOOD),
        ("£100", "leaves £282.11 owed", Tone.PLAIN),
        ("1,000", "£617.89 overpaid (credit)", Tone.CAUTION),
        ("0", "leaves £382.11 owed", Tone.PLAIN),
        ("-5", "", Tone.PLAIN),
        ("9" * 30, "", Tone.PLAIN),
        (NASTY, "", Tone.PLAIN),
    ],
)
def test_what_a_payment_leaves_is_told_as_it_is_typed(amount: str, words: str, tone: Tone) -> None:
    assert afterwards(amount, GROSS) == (words, tone)


@pytest.mark.parametrize(
    ("amount", "words"),
    [
        ("392.11", "pays it off, £10.00 to the other invoices"),
        ("482.11", "pays it off, £100.00 to the other invoices"),
        ("483.11", "£1.00 overpaid (credit)"),
    ],
)
def test_what_exceeds_the_invoice_is_said_to_go_to_the_others(amount: str, words: str) -> None:
    assert afterwards(amount, GROSS, 100_00)[0] == words


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ({"amount": "0"}, "amount"),
        ({"amount": "-1"}, "amount"),
        ({"amount": "1.005"}, "amount"),
        ({"amount": "1e9"}, "amount"),
        ({"amount": "٣٦٩"}, "amount"),
        ({"amount": NASTY}, "amount"),
        ({"on": "31 Jun"}, "on"),
        ({"method": ""}, "method"),
    ],
)
def test_a_payment_refuses_by_name(typed: dict[str, str], label: str) -> None:
    plain = {"amount": "382.11", "on": "today", "method": PAYMENT_METHODS[0]}
    with pytest.raises(Refused) as refused:
        read_money_in(plain | typed, TODAY)
    assert refused.value.field == label


@pytest.mark.parametrize(
    ("on", "words", "tone"),
    [
        (builders.DUE, "Owed £486.00, due Thu 9 Jul 2026.", Tone.STRONG),
        (builders.DUE + timedelta(days=1), "▲ Owed £486.00, overdue a day.", Tone.CAUTION),
        (builders.DUE + timedelta(days=30), "▲ Owed £486.00, overdue 30 days.", Tone.CAUTION),
    ],
)
def test_how_the_account_stands(on: object, words: str, tone: Tone) -> None:
    job = builders.job_at(Stage.SIGNED_OFF)
    assert isinstance(on, type(TODAY))
    assert account_standing(job, on) == (words, tone)


def test_a_paid_account_and_an_empty_one_are_told_apart() -> None:
    job = builders.job_at(Stage.SIGNED_OFF)
    paid = tuple(replace(document, paid=document.gross) for document in job.documents)
    over = Payment(TODAY, 500_00, "cash")
    assert account_standing(replace(job, documents=paid), TODAY) == ("✓ Paid.", Tone.GOOD)
    assert account_standing(replace(job, documents=()), TODAY)[1] is Tone.QUIET
    words, _ = account_standing(replace(job, documents=paid, payments=(over,)), TODAY)
    assert words == "✓ Paid. £500.00 overpaid (credit)."


async def test_a_slip_in_a_payment_and_a_wrong_invoice_are_put_right_in_a_few_keys(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        await hands.ask(key("money", "money_in"))
        await hands.write({"Amount": "3821.10"})
        await hands.press(SAVE)
        await hands.hears("again to save")
        await hands.press(SAVE)
        await hands.hears("£3,821.10 received.")
        await hands.press(key("anywhere", "undo"))
        await hands.hears(f"It is put right on the money page: {key('money', 'put_right')} there.")
        # Put right, that it was typed by mistake, saved.
        begun = hands.pressed
        await hands.ask(key("money", "put_right"))
        await sees(pilot, "Payment of £3,821.10, receipt REC-1", "owed again.")
        assert await cut_off(pilot) == []
        await hands.press("right", SAVE)
        await hands.hears("Saved: £3,821.10 cancelled. Enter shows the note.")
        assert hands.pressed - begun <= 5, "published with the project's aims: 5"
        await sees(pilot, "Owed £382.11", "cancelled", "MIS-1")
        assert await cut_off(pilot) == []
        await hands.press(key("money", "open"))
        await sees(pilot, "Receipt REC-1 no longer counts.", "Owed again")
        await hands.press(key("paper", "back"))
        await hands.shows(PageName.MONEY)
        await click_on(pilot, "INV-1")
        await hands.until(lambda: isinstance(app.screen, PaperScreen))
        await hands.press(key("paper", "back"))
        await hands.shows(PageName.MONEY)
        await click_on(pilot, "p put right")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await sees(pilot, "Credit note for invoice INV-1", "all of it")
        await hands.press(SAVE)
        await hands.hears("Because is empty. Say what was wrong.")
        await hands.type_in("50")
        await hands.press(SAVE)
        await hands.hears("Say in words what was wrong; the sum stands above.")
        await hands.write({"Because": "wrong address"})
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("takes off all of it, for good: is that right? ctrl+s again to save.")
        await hands.press(SAVE)
        await hands.hears("Issued: a credit note for £382.11. Enter shows it.")
        await sees(pilot, "CRN-1", "off INV-1", "credited")
        await hands.press(key("money", "open"))
        await sees(pilot, "Credit note CRN-1", "Invoice INV-1 now comes to")
    job = read_again(path)
    assert (job.owed, job.credit, job.invoice) == (0, 0, None)


async def test_an_invoice_is_credited_whole_in_four_keys_and_the_typing(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        # Put right, to the reason, saved, and that all of it is meant.
        begun = hands.pressed - hands.typed
        await hands.ask(key("money", "put_right"))
        await sees(pilot, "Credit note for invoice INV-1")
        await hands.press("down")
        await hands.type_in("wrong address")
        await hands.press(SAVE)
        await hands.hears("ctrl+s again to save.")
        await hands.press(SAVE)
        await hands.hears("Issued: a credit note for £382.11. Enter shows it.")
        keys = hands.pressed - hands.typed - begun
        assert keys <= 4, "published with the project's aims: 4 and the typing"


@pytest.mark.parametrize("size", SIZES)
async def test_a_line_of_an_invoice_is_credited(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    job = carried_to(path, Stage.SIGNED_OFF)
    lines = from_json(Invoice, job.documents[0].snapshot).lines
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MONEY)
        await hands.ask(key("money", "put_right"))
        await sees(pilot, "a sum")
        await hands.press("up", "right")
        await hands.until(lambda: hands.form.values["amount"] == f"{lines[0].net / 100:.2f}")
        assert await cut_off(pilot) == []
        await hands.write({"Because": "not all of it"})
        await hands.press(SAVE)
        await hands.hears(f"Issued: a credit note for {show_money(lines[0].net)}.")
    note = from_json(CreditNote, read_again(path).documents[-1].snapshot)
    assert (note.line, note.of_line) == (0, lines[0].words)
