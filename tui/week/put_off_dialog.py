"""Not tonight: a line of Tonight is put off until a day."""

from domain.days.calendar import show_date
from domain.days.dates import read_date
from domain.errors import NotNow
from domain.week import Task
from domain.week.put_off import PutOff, demand_can_wait, demand_later
from tui.frame.screen import BaseScreen
from tui.widgets.field_row import Field
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

_UNTIL = Field("until", "Back on", example="mon, or 3 Dec", takes=Takes.COMING)


def put_task_off(screen: BaseScreen, task: Task) -> None:
    """Ask until when: the next working day if nothing else is typed.

    Raises :class:`NotNow` for a stop.
    """
    demand_can_wait(task.kind)
    job_id, today = task.job_id, screen.open_book.today
    if job_id is None:
        raise NotNow("Only a line about a job can wait.")

    def read(values: dict[str, str]) -> PutOff:
        until = read_date(_UNTIL.id, values[_UNTIL.id], today)
        demand_later(_UNTIL.id, until, today)
        return PutOff(task.kind, until)

    async def save(wanted: PutOff) -> None:
        await screen.open_book.ask(lambda book: book.put_off(book.job(job_id), wanted))
        screen.undo_of = job_id
        await screen.say_saved(f"Back on {show_date(wanted.until)}.")

    dialog = FormDialog(
        f"Not tonight: {task.words}",
        (_UNTIL,),
        read,
        save,
        words=task.who,
        values={_UNTIL.id: show_date(screen.open_book.working_day(today, 1))},
    )
    screen.app.push_screen(dialog)
