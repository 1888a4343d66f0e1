"""Backups in words: what one holds, and what restoring it would lose."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from domain.days.calendar import show_date
from domain.job.invoice_label import invoice_label, receipt_label
from storage.backups.holding import Holding
from storage.backups.lost import Lost
from tui.frame.safe_text import shortened

_MOST = 3
"""So many are named one by one."""
_LONGEST = 24
"""Cells of a name, so that all that would be lost is seen before anything is."""


def holding_words(holding: Holding) -> str:
    """Say it in one line: ``12 jobs, last invoice INV-9, last change Thu 25 Jun 2026 18:02``."""
    jobs = "1 job" if holding.jobs == 1 else f"{holding.jobs} jobs"
    number = holding.last_invoice
    invoice = f"last invoice {invoice_label(number)}" if number else "no invoice"
    at = holding.last_change
    change = f"last change {moment(at)}" if at else "nothing saved"
    return f"{jobs}, {invoice}, {change}"


def moment(at: datetime) -> str:
    """Day and time in full: ``Thu 25 Jun 2026 18:02``."""
    return f"{show_date(at.date())} {at:%H:%M}"


def numbers_lost(lost: Lost) -> str:
    """Say of which papers the numbers would be given again; empty for none."""
    invoices = [invoice_label(number) for number in lost.invoices]
    kinds = [
        _counted("invoice", invoices),
        _counted("receipt", [receipt_label(number) for number in lost.receipts]),
        _counted("note", lost.notes),
    ]
    *others, last = [kind for kind in kinds if kind] or [""]
    if not last:
        return ""
    issued = f"{', '.join(others)} and {last}" if others else last
    only_one = len(lost.invoices) + len(lost.receipts) + len(lost.notes) == 1
    again = "its number" if only_one else "their numbers"
    was = "was" if only_one else "were"
    return f"{issued[:1].upper()}{issued[1:]} {was} issued since: {again} would be used again."


def others_lost(lost: Lost) -> Iterator[str]:
    """Say what else would be lost, a sentence each."""
    for what, names in (
        ("Quotes marked as sent since", lost.quotes),
        ("Jobs added since", lost.new_jobs),
        ("Jobs changed since", lost.changed_jobs),
        ("Deleted since, but there again", lost.deleted_jobs),
        ("Also changed since", lost.lists),
    ):
        if names:
            yield f"{what}: {_listed(names, ', ')}."


def lost_lines(lost: Lost | None) -> tuple[str, ...]:
    """Say all of it, a sentence each; None for a book that cannot be compared with the backup."""
    if lost is None:
        return ("What would be lost cannot be told: the book cannot be read.",)
    if lost.is_nothing:
        return ("Nothing would be lost: nothing was saved since.",)
    return tuple(filter(None, (numbers_lost(lost), *others_lost(lost))))


def also_holds(lost: Lost | None) -> tuple[str, ...]:
    """Say what the backup has and the book has not, a sentence each."""
    if lost is None:
        return ()
    count = lost.only_in_backup
    saved = "One thing saved is" if count == 1 else f"{count} things saved are"
    there = f"{saved} in this backup alone and would come back." if count else ""
    again = f"Undone since, but there again: {_listed(lost.undone, ', ')}." if lost.undone else ""
    return tuple(filter(None, (again, there)))


def _counted(what: str, names: Sequence[str]) -> str:
    if not names:
        return ""
    return f"{what if len(names) == 1 else what + 's'} {_listed(names, ' and ')}"


def _listed(names: Sequence[str], last: str) -> str:
    """The first few by name: ``INV-7, INV-8 and INV-9``; of more, how many there are besides."""
    shown = [shortened(name, _LONGEST) for name in names[: _MOST + 1]]
    if len(names) > _MOST + 1:
        return f"{', '.join(shown[:_MOST])} and {len(names) - _MOST} more"
    *others, final = shown
    return f"{', '.join(others)}{last}{final}" if others else final
