"""The question before a backup is restored: what would be lost, and no as the answer at hand."""

from collections.abc import Awaitable, Callable
from typing import Any

from storage.backups.everywhere import Backup
from storage.backups.lost import Lost
from tui.lists.backup_words import also_holds, lost_lines, moment
from tui.widgets.question import Question

_KEPT = "Your book as it is now is backed up first."


class RestoreDialog(Question):
    """Says what would be lost."""

    place = "restore"
    CSS = Question.CSS + "RestoreDialog #words { color: $ink; }"


def restore_dialog(
    backup: Backup, lost: Lost | None, restore: Callable[[], Awaitable[Any]]
) -> RestoreDialog:
    """Ask whether to restore a backup, by which ``lost`` would be; ``restore`` does it."""
    lines = [*lost_lines(lost), *also_holds(lost)]
    if lost is not None and not lost.is_nothing:
        lines.insert(0, "You would lose:")
    words = "\n".join([*lines, "", _KEPT])
    title = f"Restore the backup of {moment(backup.at)}?"
    return RestoreDialog(title, restore, words)
