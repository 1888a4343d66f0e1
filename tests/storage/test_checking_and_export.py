"""All of the book looked through, and all of it written out as CSV."""

import csv
from io import StringIO
from pathlib import Path

import pytest
from sqlmodel import SQLModel

from domain.job import Snag
from storage.checking import check_book
from storage.errors import NotCurrent
from storage.export import export_tables, rows_as_csv, rows_as_plain_csv
from storage.texts import without_control
from tests.storage.books import bill, dump, enquired, opened, query
from tests.storage.test_backups import spoil
from tests.storage.test_older_books import book_of_version


def tables(book: Path) -> dict[str, list[dict[str, str]]]:
    """What a spreadsheet reads."""
    return {
        name: list(csv.DictReader(StringIO(content.decode("utf-8-sig"), newline="")))
        for name, content in export_tables(book)
    }


def test_a_sound_book_has_no_faults_and_is_counted(three_laid: Path) -> None:
    bill(three_laid, 1)
    before = three_laid.read_bytes()
    found = check_book(three_laid)
    assert found.faults == ()
    assert dict(found.counts)["job"] == 3
    assert [dict(found.counts)[each] for each in ("invoice", "receipt", "payment")] == [2, 2, 2]
    assert three_laid.read_bytes() == before


def test_every_book_of_an_older_version_is_checked_too(path: Path) -> None:
    assert check_book(book_of_version(path, 1)).faults == ()


@pytest.mark.parametrize("table", ["price", "site_by_customer_id"])
def test_damage_is_found(three_laid: Path, table: str) -> None:
    spoil(three_laid, table)
    assert (
        check_book(three_laid).faults[0]
        == "The file is damaged: restore a backup with headlap restore."
    )


def test_missing_owners_and_numbers_are_found(three_laid: Path) -> None:
    for job_id in (1, 2, 3):
        bill(three_laid, job_id)
    for trigger in ("document_delete", "document_update", "job_update"):
        query(three_laid, f"DROP TRIGGER {trigger}")
    query(three_laid, "DELETE FROM document WHERE series = 'invoice' AND number IN (2, 4, 5)")
    query(three_laid, "PRAGMA foreign_keys = OFF")
    query(
        three_laid, "INSERT INTO snag (id, job_id, words) VALUES (90, 77, 'trim'), (91, 77, 'drip')"
    )
    query(three_laid, "INSERT INTO caution_note VALUES (1, 77, 'a', 'b', '2026-06-25')")
    found = check_book(three_laid).faults
    assert "Invoice 2 is missing." in found
    assert "Invoices 4 to 5 are missing." in found
    assert "2 snags belong to a job that is not there." in found
    assert "One caution note belongs to a job that is not there." in found


def test_what_is_no_book_is_a_finding(path: Path) -> None:
    assert "There is no book" in check_book(path).faults[0]
    path.write_text("a letter", encoding="utf-8")
    assert "is not a Headlap book" in check_book(path).faults[0]


def test_every_table_and_every_column_is_exported(all_sorts: Path) -> None:
    found = tables(all_sorts)
    assert set(found) == set(SQLModel.metadata.tables)
    held = dump(all_sorts)
    for name, table in SQLModel.metadata.tables.items():
        assert len(found[name]) == len(held[name])
        for row in found[name][:1]:
            assert len(row) == len(table.columns)


def test_money_is_in_pounds_in_a_column_that_says_so(three_laid: Path) -> None:
    bill(three_laid, 1)
    found = tables(three_laid)
    ((gross,), *_) = query(three_laid, "SELECT gross FROM document ORDER BY id")
    assert found["document"][0]["gross_pounds"] == f"{gross // 100}.{gross % 100:02}"
    assert "gross" not in found["document"][0]
    assert found["payment"][0]["pounds"] == "100.00"
    money = {(name, key) for name, rows in found.items() for row in rows for key in row}
    assert {f"{name}.{key}" for name, key in money if key.endswith("pounds")} >= {
        "quote.deposit_pounds",
        "line.price_pounds",
        "price.net_pounds",
        "option.gross_pounds",
    }


def test_an_amount_below_nothing_and_an_exact_number_are_numbers(three_laid: Path) -> None:
    query(
        three_laid,
        "INSERT INTO extra VALUES (1, 1, 'less', '-2.5', 'm', -1405, '0', 'to agree', '', NULL,"
        " NULL, 0, 0)",
    )
    (extra,) = tables(three_laid)["extra"]
    assert (extra["price_pounds"], extra["quantity"]) == ("-14.05", "-2.5")


@pytest.mark.parametrize("text", ["=1+1", "+44 1632", "-trim", "@home", "\tx", "\rx", "\x1b=1"])
def test_a_text_that_a_spreadsheet_would_run_begins_with_an_apostrophe(
    three_laid: Path, text: str
) -> None:
    query(three_laid, "INSERT INTO snag (id, job_id, words) VALUES (90, 1, :text)", text=text)
    plain = f"'{without_control(text)}"
    assert tables(three_laid)["snag"][-1]["words"] == plain
    for made in (rows_as_csv(["a"], [[text]]), rows_as_plain_csv(["a"], [{"a": text}])):
        _, (cell,) = csv.reader(StringIO(made.decode("utf-8-sig"), newline=""))
        assert cell == plain


def test_control_characters_in_a_book_do_not_leave_it(three_laid: Path) -> None:
    text = "shed \x1b[31m\u202eround \x9b2J\u200f"
    query(three_laid, "INSERT INTO snag (id, job_id, words) VALUES (90, 1, :text)", text=text)
    assert tables(three_laid)["snag"][-1]["words"] == "shed [31mround 2J"
    assert rows_as_plain_csv(["a"], [{"a": text}]) == b"a\nshed [31mround 2J\n"


def test_other_text_stands_as_it_was_typed(three_laid: Path) -> None:
    nasty = "Zoë’s “shed”, a=b;\n£5, 'quoted'"
    with opened(three_laid) as book:
        book.save_snag(book.job(1), Snag("plain"))
    query(three_laid, "UPDATE snag SET words = :nasty", nasty=nasty)
    (snag,) = tables(three_laid)["snag"]
    assert (snag["words"], snag["done_on"]) == (nasty, "")


def test_a_spreadsheet_is_told_that_it_is_unicode(three_laid: Path) -> None:
    assert all(content.startswith(b"\xef\xbb\xbf") for _, content in export_tables(three_laid))


def test_an_older_book_is_to_be_opened_first(path: Path) -> None:
    with pytest.raises(NotCurrent, match="start headlap once"):
        list(export_tables(book_of_version(path, 1)))


def test_an_empty_book_is_exported_with_its_columns(path: Path) -> None:
    with opened(path) as book:
        enquired(book)
    content = dict(export_tables(path))["payment"].decode("utf-8-sig")
    assert content == "id,job_id,received_on,pounds,method,cis_pounds\r\n"
