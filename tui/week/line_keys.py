"""Which commands stand in the line of keys for a line of Tonight: those that settle it."""

from domain.week import Task, TaskKind, TaskSign

_OWN = {TaskKind.USED: "used", TaskKind.INVOICE: "invoice"}
_PUT_OFF = "put_off"


def of_other_lines(task: Task | None) -> frozenset[str]:
    """The commands that work on any line of a job, and do not settle the one in front."""
    shown = set()
    if task is not None and task.job_id is not None:
        shown = {_OWN.get(task.kind), _PUT_OFF if task.sign is not TaskSign.STOP else None}
    return frozenset({*_OWN.values(), _PUT_OFF} - shown)
