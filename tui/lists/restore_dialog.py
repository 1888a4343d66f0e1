"""The question before a backup is restored: what would be lost, and no as the answer at hand."""

from collections.abc import Awaitable, Callable
from typing import Any, ClassVar

from textual.binding import BindingType

from storage.backups.everywhere import Backup
from storage.backups.lost import Lost
from tui.lists.backup_words import also_holds, lost_lines, moment
from tui.widgets.form_dialog import FormDialog, dialog_bindings

_KEPT = "Your book as it is now is backed up first."


class RestoreDialog(FormDialog[None], inherit_bindings=False):
    """Enter and Escape leave the book as it is; only a key of its own restores."""

    BINDINGS: ClassVar[list[BindingType]] = dialog_bindings("restore")
    CSS = FormDialog.CSS + "RestoreDialog #words { color: $ink; }"


def restore_dialog(
    backup: Backup, lost: Lost | None, restore: Callable[[None], Awaitable[Any]]
) -> RestoreDialog:
    """Ask whether to restore a backup, by which ``lost`` would be; ``restore`` does it."""
    lines = [*lost_lines(lost), also_holds(lost)]
    if lost is not None and not lost.is_nothing:
        lines.insert(0, "You would lose:")
    words = "\n".join([*filter(None, lines), "", _KEPT])
    title = f"Restore the backup of {moment(backup.at)}?"
    return RestoreDialog(title, (), lambda _: None, restore, words=words)
