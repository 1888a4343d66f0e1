"""What restoring a backup would lose, and all the backups there are."""

import shutil
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited
from domain.job import DocumentKind, Sending, Snag
from domain.scope import ListName
from storage.backups.daily import back_up
from storage.backups.everywhere import Backup, all_backups, holding_of
from storage.backups.lost import Lost, lost_by_restoring
from storage.backups.names import backups_folder
from storage.backups.restoring import restore, restore_either
from storage.errors import Damaged, DamagedBackup, NewerBook, NotCurrent
from tests import builders
from tests.storage.books import (
    NOW,
    bill,
    dump,
    enquired,
    one_option,
    opened,
    query,
    redo,
    surveyed,
    undo,
)
from tests.storage.test_backups import FIRST, spoil

LATER = NOW + timedelta(hours=1)


def test_nothing_is_lost_where_nothing_was_saved_since(three_laid: Path) -> None:
    lost = lost_by_restoring(three_laid, back_up(three_laid, NOW))
    assert lost == Lost()
    assert lost.is_nothing


def test_what_was_made_and_changed_since_is_named(three_laid: Path) -> None:
    with opened(three_laid) as book:
        waiting = surveyed(book, "Mill Row")
        waiting = book.save_quote(waiting, one_option(waiting))
    backup = back_up(three_laid, NOW)
    bill(three_laid, 1)
    with opened(three_laid) as book:
        book.send_quote(book.job(4), Sending(builders.SENT, builders.VALID_UNTIL, {}))
        enquired(book, "Canal Yard")
        enquired(book, "Undone again")
        undo(book, 6)
        book.save_trader(replace(book.trader(), name="N. Other"))
        book.set_price(book.prices()[0])
    assert lost_by_restoring(three_laid, backup) == Lost(
        invoices=(1, 2),
        receipts=(1, 2),
        quotes=("0004 Mill Row",),
        new_jobs=("0005 Canal Yard",),
        changed_jobs=("0001 Birch Lane", "0004 Mill Row"),
        lists=(ListName.DETAILS.value, ListName.PRICES.value),
    )


def test_what_puts_money_right_is_named_by_its_number(three_laid: Path) -> None:
    bill(three_laid, 1)
    backup = back_up(three_laid, NOW)
    with opened(three_laid) as book:
        job = book.job(1)
        paid, last = job.payments[1], job.invoice
        assert last is not None
        gone = GivenBack(DocumentKind.MISTAKE, paid.id or 0, paid.pence, builders.DUE, "returned")
        job = book.give_back(job, gone, builders.DUE)
        book.credit(job, Credited(last.id or 0, 10_00, "agreed"), builders.DUE)
    lost = lost_by_restoring(three_laid, backup)
    assert lost == Lost(notes=("CRN-1", "MIS-1"), changed_jobs=("0001 Birch Lane",))


def test_what_was_undone_since_is_not_lost_but_there_again(three_laid: Path) -> None:
    with opened(three_laid) as book:
        book.save_trader(replace(book.trader(), name="N. Other"))
        enquired(book, "Mill Row")
        backup = back_up(three_laid, NOW)
        undo(book, ListName.DETAILS)
        undo(book, 4)
    lost = lost_by_restoring(three_laid, backup)
    assert lost == Lost(undone=(ListName.DETAILS.value, "0004 Mill Row"))
    assert lost.is_nothing


def test_what_was_saved_since_and_undone_is_not_lost(three_laid: Path) -> None:
    backup = back_up(three_laid, NOW)
    with opened(three_laid) as book:
        book.save_snag(book.job(1), Snag("trim loose"))
        undo(book, 1)
    assert lost_by_restoring(three_laid, backup) == Lost()


def test_what_was_done_again_since_is_lost(three_laid: Path) -> None:
    with opened(three_laid) as book:
        book.save_snag(book.job(1), Snag("trim loose"))
        undo(book, 1)
        backup = back_up(three_laid, NOW)
        redo(book, 1)
    assert lost_by_restoring(three_laid, backup) == Lost(changed_jobs=("0001 Birch Lane",))


def test_after_an_older_backup_was_restored_the_newer_one_holds_more(three_laid: Path) -> None:
    first = back_up(three_laid, NOW)
    with opened(three_laid) as book:
        enquired(book, "Mill Row")
    kept = restore(three_laid, first, LATER)
    assert kept is not None
    assert lost_by_restoring(three_laid, kept) == Lost(only_in_backup=1)
    with opened(three_laid) as book:
        enquired(book, "Canal Yard")
    assert lost_by_restoring(three_laid, kept) == Lost(
        new_jobs=("0004 Canal Yard",), only_in_backup=1
    )


def test_what_cannot_be_compared_is_said(three_laid: Path, tmp_path: Path) -> None:
    backup = back_up(three_laid, NOW)
    with pytest.raises(NotCurrent):
        lost_by_restoring(tmp_path / "none", backup)
    backup.write_text("half a file", encoding="utf-8")
    with pytest.raises(Damaged):
        lost_by_restoring(three_laid, backup)


def test_backups_of_both_folders_are_listed_once_each(three_laid: Path, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    assert all_backups(three_laid, str(stick)) == ()
    stick.mkdir()
    older, newer = back_up(three_laid, NOW - timedelta(days=1)), back_up(three_laid, NOW)
    for path in (older, newer):
        shutil.copy(path, stick)
    older.unlink()
    both = Backup(NOW, newer, stick / newer.name)
    there = Backup(NOW - timedelta(days=1), None, stick / older.name)
    assert all_backups(three_laid, str(stick)) == (both, there)
    assert all_backups(three_laid, "") == (Backup(NOW, newer, None),)
    with newer.open("ab") as file:
        file.write(b"more")
    assert [each.files for each in all_backups(three_laid, str(stick))] == [
        (newer,),
        (stick / newer.name,),
        (stick / older.name,),
    ]


def test_of_two_files_the_sound_one_is_read_and_restored(three_laid: Path, tmp_path: Path) -> None:
    made = back_up(three_laid, NOW)
    copy = Path(shutil.copy(made, tmp_path / made.name))
    held = dump(made)
    made.write_bytes(b"?" * made.stat().st_size)
    with opened(three_laid) as book:
        enquired(book)
    assert holding_of(Backup(NOW, made, copy)).jobs == 3
    assert restore_either(three_laid, (made, copy), LATER) is not None
    assert dump(three_laid) == held
    spoil(copy, "price")
    with pytest.raises(DamagedBackup, match="is damaged"):
        restore_either(three_laid, (copy, made), LATER)
    assert dump(three_laid) == held


def test_a_backup_of_a_newer_version_is_told_as_such(three_laid: Path) -> None:
    made = back_up(three_laid, NOW)
    query(made, "PRAGMA user_version = 99")
    with pytest.raises(NewerBook):
        holding_of(Backup(NOW, made, None))
    with pytest.raises(NewerBook):
        restore_either(three_laid, (made,), LATER)
    assert (backups_folder(three_laid) / FIRST).exists()
