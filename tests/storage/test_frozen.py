"""What others hold a paper of is refused to plain SQL by the database itself, with a sentence."""

import shutil
import sqlite3
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from domain.books.miles import Miles
from domain.books.money_back import MoneyBack
from domain.books.purchase import Purchase
from domain.errors import NotNow
from domain.job import Received
from domain.look import Picture
from storage.migrations.versions.freeze_what_was_sent import (
    ISSUED,
    NUMBERED,
    PAID,
    QUOTE_SENT,
    WRITTEN,
)
from storage.migrations.versions.keep_what_is_in_the_books import IN_THE_BOOKS
from storage.migrations.versions.keep_what_merchants_give_back import TOO_MUCH_BACK
from storage.migrations.versions.make_papers_the_traders_own import KEPT
from tests import builders
from tests.storage.books import DOCUMENT, dump, laid, one_option, opened, query, settle

FROZEN = (
    (QUOTE_SENT, "UPDATE quote SET deposit = 0 WHERE number = 1"),
    (QUOTE_SENT, "UPDATE quote SET sent_on = NULL WHERE number = 1"),
    (QUOTE_SENT, "UPDATE OR REPLACE quote SET number = 1 WHERE number = 2"),
    (QUOTE_SENT, "DELETE FROM quote WHERE number = 1"),
    (QUOTE_SENT, "REPLACE INTO quote SELECT * FROM quote"),
    (
        QUOTE_SENT,
        "INSERT INTO option (quote_id, covering, colour, basis, gross)"
        " SELECT :sent, covering, '', '', 0 FROM option",
    ),
    (QUOTE_SENT, "UPDATE option SET gross = 1 WHERE quote_id = :sent"),
    (QUOTE_SENT, "UPDATE option SET quote_id = :draft WHERE quote_id = :sent"),
    (QUOTE_SENT, "UPDATE option SET quote_id = :sent WHERE quote_id = :draft"),
    (QUOTE_SENT, "UPDATE OR REPLACE option SET id = :sent_option WHERE quote_id = :draft"),
    (QUOTE_SENT, "DELETE FROM option WHERE quote_id = :sent"),
    (
        QUOTE_SENT,
        "REPLACE INTO option (id, quote_id, covering, colour, basis, gross)"
        " SELECT id, :draft, covering, '', '', 0 FROM option",
    ),
    (
        QUOTE_SENT,
        "INSERT INTO line SELECT NULL, :sent_option, kind, '', '1', '', 0, 0, '0' FROM line",
    ),
    (QUOTE_SENT, "UPDATE line SET price = 1 WHERE option_id = :sent_option"),
    (QUOTE_SENT, "UPDATE line SET option_id = :draft_option WHERE option_id = :sent_option"),
    (QUOTE_SENT, "DELETE FROM line WHERE option_id = :sent_option"),
    (
        QUOTE_SENT,
        "REPLACE INTO line SELECT id, :draft_option, kind, '', '1', '', 0, 0, '0' FROM line",
    ),
    (ISSUED, "UPDATE document SET gross = 1"),
    (ISSUED, "UPDATE document SET issued_on = '2026-07-01' WHERE series = 'receipt'"),
    (ISSUED, "DELETE FROM document WHERE kind = 'invoice'"),
    (ISSUED, "DELETE FROM document WHERE series = 'receipt'"),
    (
        NUMBERED,
        f"REPLACE INTO document ({DOCUMENT}) SELECT id, job_id, series, number + 1, kind,"  # noqa: S608 -- ours
        " issued_on, tax_point, due_on, 1, '{}', NULL FROM document WHERE kind = 'invoice'",
    ),
    (
        NUMBERED,
        f"INSERT INTO document ({DOCUMENT}) SELECT NULL, job_id, series, number + 2, kind,"  # noqa: S608 -- ours
        " issued_on, tax_point, due_on, 1, '{}', NULL FROM document WHERE kind = 'invoice'",
    ),
    (PAID, "UPDATE payment SET pence = 1"),
    (PAID, "DELETE FROM payment"),
    (
        PAID,
        "REPLACE INTO payment (id, job_id, received_on, pence, method)"
        " SELECT id, job_id, received_on, 1, method FROM payment",
    ),
    (PAID, "UPDATE allocation SET pence = 1"),
    (PAID, "DELETE FROM allocation"),
    (
        PAID,
        "REPLACE INTO allocation (payment_id, document_id, pence)"
        " SELECT payment_id, document_id, 1 FROM allocation",
    ),
    (IN_THE_BOOKS, "UPDATE purchase SET pence = 1"),
    (IN_THE_BOOKS, "UPDATE purchase SET id = 9"),
    (IN_THE_BOOKS, "UPDATE purchase SET vat_rate = '20'"),
    (IN_THE_BOOKS, "DELETE FROM purchase"),
    (IN_THE_BOOKS, "REPLACE INTO purchase SELECT * FROM purchase"),
    (IN_THE_BOOKS, "UPDATE money_back SET pence = 1"),
    (IN_THE_BOOKS, "DELETE FROM money_back"),
    (IN_THE_BOOKS, "REPLACE INTO money_back SELECT * FROM money_back"),
    (
        TOO_MUCH_BACK,
        'INSERT INTO money_back (purchase_id, "on", pence, reason)'
        ' SELECT purchase_id, "on", 2751, reason FROM money_back',
    ),
    (IN_THE_BOOKS, "UPDATE miles SET miles = '1'"),
    (IN_THE_BOOKS, "DELETE FROM miles"),
    (IN_THE_BOOKS, "REPLACE INTO miles SELECT * FROM miles"),
    (KEPT, "UPDATE picture SET content = ''"),
    (KEPT, "DELETE FROM picture"),
    (KEPT, "REPLACE INTO picture SELECT key, name, '' FROM picture"),
    (WRITTEN, "UPDATE journal SET after = '{}'"),
    (WRITTEN, "DELETE FROM journal"),
    (WRITTEN, "REPLACE INTO journal SELECT * FROM journal"),
    (WRITTEN, "UPDATE action SET words = 'nothing'"),
    (WRITTEN, "UPDATE action SET at = '2026-01-01', undone_at = '2026-01-01'"),
    (WRITTEN, "UPDATE action SET undone_at = NULL"),
    (WRITTEN, "UPDATE action SET undone_at = '2026-01-01', job_id = 7"),
    (WRITTEN, "UPDATE action SET undone_at = '2026-01-01', list_name = 'stock'"),
    (WRITTEN, "UPDATE action SET undone_at = '2026-01-01', made_in = 'elsewhere'"),
    (WRITTEN, "UPDATE action SET undone_at = '2026-01-01', follows = 1"),
    (WRITTEN, "DELETE FROM action"),
    (WRITTEN, "REPLACE INTO action SELECT * FROM action"),
)


@pytest.fixture(scope="module")
def _paid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book of one job with a sent quote and a draft, an invoice, and money that came in."""
    path = tmp_path_factory.mktemp("paid") / "book.headlap"
    with opened(path) as book:
        settle(book)
        book.save_trader(book.trader(), Picture("logo.png", b"a logo"))
        job = book.issue_invoice(laid(book), builders.SIGNED)
        job = book.record_payment(
            job, Received(job.documents[0].id or 0, 50_00, builders.SIGNED, "cash")
        )
        book.save_quote(job, replace(one_option(job), number=2))
        on = builders.SIGNED
        slip = Purchase(on, "Northfield Merchants", "mastic, 6", 33_00)
        bought = book.save_purchase(slip, "", on)
        book.save_money_back(MoneyBack(on, 5_50, "1 too many", bought.id or 0), on)
        book.save_miles([Miles(on, Decimal("24.5"), "Mill Row, lay")], on)
    return path


@pytest.fixture
def paid(_paid: Path, path: Path) -> Path:
    """The same, a copy for each test."""
    shutil.copy(_paid, path)
    return path


def keys(path: Path) -> dict[str, int]:
    """The quotes and options that the statements speak of."""
    each = "SELECT quote_id, min(id) FROM option GROUP BY quote_id ORDER BY quote_id"
    (sent, sent_option), (draft, draft_option) = query(path, each)
    return {
        "sent": sent,
        "sent_option": sent_option,
        "draft": draft,
        "draft_option": draft_option,
    }


@pytest.mark.parametrize(("sentence", "statement"), FROZEN, ids=[sql for _, sql in FROZEN])
def test_the_database_refuses_to_change_what_others_hold(
    paid: Path, sentence: str, statement: str
) -> None:
    before = dump(paid)
    with pytest.raises(sqlite3.IntegrityError) as refused:
        query(paid, statement, **keys(paid))
    assert str(refused.value) == sentence
    assert dump(paid) == before


def test_a_draft_can_still_be_changed_beside_what_was_sent(paid: Path) -> None:
    known = keys(paid)
    for statement in (
        "UPDATE quote SET deposit = 1 WHERE id = :draft",
        "UPDATE option SET colour = 'red' WHERE quote_id = :draft",
        "UPDATE line SET words = 'tiles' WHERE option_id = :draft_option",
        "DELETE FROM line WHERE option_id = :draft_option",
        "DELETE FROM option WHERE quote_id = :draft",
        "DELETE FROM quote WHERE id = :draft",
    ):
        query(paid, statement, **known)
    assert query(paid, "SELECT number FROM quote") == [(1,)]


def test_an_action_is_marked_as_undone_and_the_mark_is_cleared_again(paid: Path) -> None:
    before = dump(paid)
    query(paid, "UPDATE action SET undone_at = '2026-01-01' WHERE id = 3")
    assert dump(paid) != before
    query(paid, "UPDATE action SET undone_at = NULL WHERE id = 3")
    assert dump(paid) == before


def test_the_book_passes_the_sentence_on(three_laid: Path) -> None:
    with opened(three_laid) as book:
        job = book.job(1)
        before = dump(three_laid)
        with pytest.raises(NotNow, match=QUOTE_SENT):
            book.save_quote(job, job.quotes[0])
    assert dump(three_laid) == before
