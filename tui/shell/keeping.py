"""``headlap backup``, ``check``, ``restore``, ``export`` and ``ledger``: kept safe, and told."""

import argparse
import sys
from contextlib import closing, suppress
from pathlib import Path
from typing import Any

from domain.errors import HeadlapError, Refused
from tui.frame.safe_text import one_line
from tui.frame.wall_clock import wall_clock
from tui.shell.book_option import book_of, must_exist
from tui.shell.questions import answer, is_answered, says_yes


def add_keeping(parts: Any) -> tuple[argparse.ArgumentParser, ...]:
    """Add the commands, and return them. ``parts`` is what argparse gives for them."""
    backup = parts.add_parser("backup", help="back up the book now")
    backup.add_argument("--to", type=Path, metavar="FOLDER", help="into this folder instead")
    backup.set_defaults(run=_back_up)

    check = parts.add_parser("check", help="look through the book for damage and gaps")
    check.set_defaults(run=_check)

    restore = parts.add_parser("restore", help="list the backups, or put one in the book's place")
    restore.add_argument(
        "backup", nargs="?", metavar="BACKUP", help="its number in the list, or its file"
    )
    restore.add_argument("--yes", action="store_true", help="restore it without asking")
    restore.set_defaults(run=_restore)

    export = parts.add_parser("export", help="write every table as CSV, for a spreadsheet")
    export.add_argument("folder", type=Path, metavar="FOLDER")
    export.set_defaults(run=_export)

    ledger = parts.add_parser("ledger", help="print every event of money, for the accountant")
    ledger.add_argument(
        "--csv", action="store_true", required=True, help="as CSV, for a spreadsheet"
    )
    whole = "since the book began, not this tax year's alone"
    ledger.add_argument("--all", action="store_true", help=whole)
    ledger.set_defaults(run=_print_ledger)
    return backup, check, restore, export, ledger


def _back_up(options: argparse.Namespace) -> None:
    from storage.backups.copying import back_up_into
    from storage.backups.daily import back_up
    from storage.bookfile import State, look_at

    book, now = book_of(options), wall_clock()
    must_exist(book)
    if look_at(book) is State.NEW:
        raise Refused("book", book, "It is empty: there is nothing to back up.")
    if options.to is None:
        print(one_line(f"Backed up as {back_up(book, now)}"))
        _copy_to_second(book)
    elif options.to.is_dir():
        print(one_line(f"Backed up as {back_up_into(options.to, book, now)}"))
    else:
        raise Refused("to", options.to, "There is no such folder: name one that is there.")


def _copy_to_second(book: Path) -> None:
    from storage.backups.second import copy_to_second
    from storage.errors import NotCurrent
    from storage.week_and_jobs import read_trader

    with suppress(NotCurrent):  # an older book knows of no second folder
        folder = read_trader(book).backup_folder
        if folder and copy_to_second(book, folder, wall_clock()):
            print(one_line(f"Copied to {folder}"))
        elif folder:
            print(one_line(f"Not copied to {folder}: it is not there, or cannot be written."))


def _check(options: argparse.Namespace) -> int:
    from domain.quantity import plural
    from storage.checking import check_book

    book = book_of(options)
    must_exist(book)
    found = check_book(book)
    for what, count in found.counts:
        print(f"{count:>7} {what if count == 1 else plural(what)}")
    for fault in found.faults:
        print(one_line(fault))
    if not found.faults:
        print("Nothing is wrong.")
    return 1 if found.faults else 0


def _restore(options: argparse.Namespace) -> None:
    from storage.backups.names import backups_folder, backups_in
    from storage.backups.restoring import restore

    book = book_of(options)
    made = list(backups_in(backups_folder(book), book).values())
    chosen = options.backup if options.backup is not None else _chosen(made, book, options.yes)
    if not chosen:
        return
    backup = _named(chosen, made)
    if not options.yes and not _is_agreed(backup, book):
        print("Nothing was restored.")
        return
    kept = restore(book, backup, wall_clock())
    print(one_line(f"Restored {backup.name} as {book}"))
    if kept is not None:
        print(one_line(f"The book that was there is kept as {kept}"))


def _chosen(made: list[Path], book: Path, yes: bool) -> str:
    """List the backups, and ask for one where somebody can answer; nothing for none."""
    if yes:
        raise Refused("backup", "", "Name the backup to restore, by its number or its file.")
    if not made:
        print(one_line(f"There are no backups of {book} yet."))
    for number, backup in enumerate(made, start=1):
        print(one_line(f"{number:>3}  {_backup_words(backup)}"))
    if not made or not is_answered():
        return ""
    return answer("Which one is to be restored? Its number, or Enter for none: ")


def _named(given: str, made: list[Path]) -> Path:
    """The backup of a number in the list, or a file."""
    if not (given.isascii() and given.isdigit()):
        return Path(given).expanduser()
    number = int(given[:6])
    if not 1 <= number <= len(made):
        remedy = f"Give a number from 1 to {len(made)}." if made else "There are no backups yet."
        raise Refused("backup", given, remedy)
    return made[number - 1]


def _is_agreed(backup: Path, book: Path) -> bool:
    """Ask for a yes. Raises :class:`Refused` where nobody can be asked."""
    if not is_answered():
        remedy = "Nobody is there to be asked: add --yes to restore it all the same."
        raise Refused("backup", backup, remedy)
    print(one_line(f"To be restored: {_backup_words(backup)}"))
    if book.exists():
        print(one_line(f"In its place now: {_book_words(book)}"))
        for words in _lost_words(book, backup):
            print(one_line(words))
    return says_yes("restore it; the book as it is now is backed up first")


def _backup_words(backup: Path) -> str:
    from storage.backups.holding import holding_of_backup
    from tui.lists.backup_words import holding_words

    try:
        return f"{backup.name}  {holding_words(holding_of_backup(backup))}"
    except HeadlapError:
        return f"{backup.name}  cannot be read"


def _book_words(book: Path) -> str:
    from storage.backups.holding import holding_of_book
    from tui.lists.backup_words import holding_words

    try:
        return holding_words(holding_of_book(book))
    except HeadlapError:
        return "a book that cannot be read"


def _lost_words(book: Path, backup: Path) -> tuple[str, ...]:
    from storage.backups.lost import lost_by_restoring
    from tui.lists.backup_words import also_holds, lost_lines

    try:
        lost = lost_by_restoring(book, backup)
    except HeadlapError:
        return lost_lines(None)
    return (*lost_lines(lost), *also_holds(lost))


def _export(options: argparse.Namespace) -> None:
    from storage.export import export_tables
    from storage.folders import make_own_folder
    from storage.saved_papers import write_new

    book, folder = book_of(options), options.folder
    must_exist(book)
    files = {folder / f"{name}.csv": content for name, content in export_tables(book)}
    try:
        make_own_folder(folder)
    except OSError as error:
        raise Refused("folder", folder, f"It cannot be made: {error.strerror}.") from error
    there = next((each for each in files if each.exists()), None)
    if there is not None:
        raise Refused("folder", folder, f"{there.name} is in it already: name another folder.")
    for path, content in files.items():
        write_new("CSV", path, content)
    print(one_line(f"{len(files)} tables saved in {folder}"))


def _print_ledger(options: argparse.Namespace) -> None:
    from domain.accounts.ledger import COLUMNS, ledger_rows
    from domain.tax.years import tax_year_of
    from storage.book import Book
    from storage.export import rows_as_plain_csv

    path, today = book_of(options), wall_clock().date()
    must_exist(path)
    with closing(Book.open(path, wall_clock)) as book:
        events = book.money_events()
    rows = ledger_rows(events, today, year=None if options.all else tax_year_of(today))
    sys.stdout.buffer.write(rows_as_plain_csv(COLUMNS, rows))
