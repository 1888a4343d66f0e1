"""What a line of Tonight opens: the dialog that settles it, or the place where it is done."""

from collections.abc import Callable, Mapping

from domain.page_names import PageName
from domain.scope import ListName
from domain.week import Task, TaskKind, WeekData
from tui.frame.screen import BaseScreen
from tui.week.job_of_line import open_job_of


def settle(screen: BaseScreen, task: Task, data: WeekData) -> None:
    """Open what settles a task. Raises :class:`NotNow` for one that is settled meanwhile."""
    if task.page is PageName.TRADER:
        from tui.your_details.details_screen import DetailsScreen

        screen.app.push_screen(DetailsScreen(field=task.field))
    elif task.job_id is not None:
        screen.undo_of = task.job_id
        _OVER_THE_LIST.get(task.kind, _open_page)(screen, task, data, task.job_id)


def _open_page(screen: BaseScreen, task: Task, _data: WeekData, job_id: int) -> None:
    open_job_of(screen, task, job_id)


def _orders(screen: BaseScreen, task: Task, _data: WeekData, _job_id: int) -> None:
    from tui.lists.orders_screen import OrdersScreen

    screen.undo_of = ListName.STOCK
    screen.app.push_screen(OrdersScreen(task))


def _went_ahead(screen: BaseScreen, task: Task, _data: WeekData, job_id: int) -> None:
    from tui.week.went_ahead_dialog import ask_whether_it_went_ahead

    screen.in_worker(ask_whether_it_went_ahead(screen, task, job_id))


def _ring(screen: BaseScreen, task: Task, data: WeekData, job_id: int) -> None:
    from tui.week.ring_dialog import ring_about

    ring_about(screen, task, data, job_id)


def _chase(screen: BaseScreen, task: Task, _data: WeekData, job_id: int) -> None:
    from tui.week.chase_dialog import chase

    screen.in_worker(chase(screen, task, job_id))


def _quote_call(screen: BaseScreen, task: Task, data: WeekData, job_id: int) -> None:
    from tui.week.quote_call import ring_about_quote

    line = next(each for each in data.lines if each.job_id == job_id)
    ring_about_quote(screen, task, line)


def _snag(screen: BaseScreen, task: Task, _data: WeekData, job_id: int) -> None:
    from tui.week.line_dialogs import put_snag_right

    screen.in_worker(put_snag_right(screen, task, job_id))


def _extra(screen: BaseScreen, _task: Task, _data: WeekData, job_id: int) -> None:
    from tui.week.line_dialogs import agree_extra

    screen.in_worker(agree_extra(screen, job_id))


def _request(screen: BaseScreen, task: Task, _data: WeekData, job_id: int) -> None:
    from tui.week.line_dialogs import record_request

    screen.in_worker(record_request(screen, task, job_id))


def _pay_back(screen: BaseScreen, _task: Task, _data: WeekData, job_id: int) -> None:
    from tui.week.line_dialogs import pay_back

    screen.in_worker(pay_back(screen, job_id))


def _tie_down(screen: BaseScreen, task: Task, _data: WeekData, job_id: int) -> None:
    from tui.week.line_dialogs import ask_whether_tied_down

    ask_whether_tied_down(screen, task, job_id)


_OVER_THE_LIST: Mapping[TaskKind, Callable[[BaseScreen, Task, WeekData, int], None]] = {
    TaskKind.ORDER: _orders,
    TaskKind.DELIVERY: _orders,
    TaskKind.CLOSED: _went_ahead,
    TaskKind.WENT_AHEAD: _went_ahead,
    TaskKind.RING: _ring,
    TaskKind.OVERDUE: _chase,
    TaskKind.RUNS_OUT: _quote_call,
    TaskKind.RAN_OUT: _quote_call,
    TaskKind.SNAG: _snag,
    TaskKind.EXTRA: _extra,
    TaskKind.REQUEST: _request,
    TaskKind.PAY_BACK: _pay_back,
    TaskKind.CREDIT: _pay_back,
    TaskKind.TARPAULIN: _tie_down,
}
"""What is loaded with the first line of its kind that is opened; all others open their page."""
