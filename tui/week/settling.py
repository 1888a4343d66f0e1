"""What a line of Tonight opens: the dialog that settles it, or the place where it is done."""

from domain.accounts.chasing import is_chased
from domain.page_names import PageName
from domain.scope import ListName
from domain.week import Task, TaskKind, WeekData
from tui.frame.screen import BaseScreen

_FIELDS = {TaskKind.TEST: "suspicion"}
"""The field that settles a kind, where it is not the first of its page."""


def settle(screen: BaseScreen, task: Task, data: WeekData) -> None:
    """Open what settles a task. Raises :class:`NotNow` for one that is settled meanwhile."""
    if task.job_id is None or task.page is PageName.TRADER:
        screen.app.call_later(screen.program.run_action, f"go('{task.page.value}')")
        return
    screen.undo_of = task.job_id
    if task.kind in (TaskKind.ORDER, TaskKind.DELIVERY):
        from tui.lists.orders_screen import OrdersScreen

        screen.undo_of = ListName.STOCK
        screen.app.push_screen(OrdersScreen(task))
    elif task.asks:
        from tui.week.went_ahead_dialog import ask_whether_it_went_ahead

        ask_whether_it_went_ahead(screen, task, task.job_id)
    elif task.kind is TaskKind.RING:
        from tui.week.ring_dialog import ring_about

        ring_about(screen, task, data, task.job_id)
    elif task.kind is TaskKind.OVERDUE and is_chased(task.since, screen.open_book.today):
        from tui.week.chase_dialog import chase

        screen.in_worker(chase(screen, task, task.job_id))
    else:
        screen.program.open_job(task.job_id, task.page, _FIELDS.get(task.kind, ""))
