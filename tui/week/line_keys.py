"""Which commands stand in the line of keys for a line of Tonight: those that settle it."""

from domain.week import Task, TaskKind, TaskSign
from tui.frame.commands import key_of

_OWN = ("used", "send", "put_off")
_HANDED_ON = (("draft", "e-mail"), ("copy", "message"), ("open_pdf", "opens it"))


def of_other_lines(task: Task | None) -> frozenset[str]:
    """The commands that work on any line of a job, and do not settle the one in front."""
    shown: set[str] = set()
    if task is not None and task.job_id is not None:
        shown |= {"used"} if task.kind is TaskKind.USED else set()
        shown |= {"send"} if task.to_send is not None else set()
        shown |= {"put_off"} if task.sign is not TaskSign.STOP else set()
    return frozenset(_OWN) - shown


def how_it_goes_out(task: Task) -> str:
    """The keys that hand the paper of a task on; empty for a task that sends none."""
    if task.to_send is None:
        return ""
    return ", ".join(f"{key_of('week', command)} {words}" for command, words in _HANDED_ON)
