"""“Did it go ahead?”: the question that a booked day leaves open, asked from Tonight."""

from domain.days.calendar import show_date
from domain.errors import Refused
from domain.job import DayAnswer, WentAhead
from domain.page_names import PageName
from domain.week import Task
from tui.frame.commands import key_of
from tui.frame.screen import BaseScreen
from tui.job.job_screen import JobScreen
from tui.widgets.field_row import Field
from tui.widgets.form_dialog import FormDialog

_FIELD = Field("went", "The work was", choices=tuple(went.value for went in WentAhead))
_WORDS = (
    "Done: record it next. Part done: the roof is sheeted, and the laying is to be booked. "
    "Anything else: the day is taken out, the reason is kept, and another is to be booked. "
    "Left and right choose, or a first letter: d done, p part done, r rained off, "
    "c customer out, i I was ill, v van broken down, m materials did not come."
)


def ask_whether_it_went_ahead(screen: BaseScreen, task: Task, job_id: int) -> None:
    """Ask about the day of a task, record the answer, and open the job where it goes on."""
    answers: list[WentAhead] = []

    async def save(went: WentAhead) -> None:
        if went is not WentAhead.DONE:
            answer = DayAnswer(task.since, went)
            await screen.open_book.ask(lambda book: book.answer_day(book.job(job_id), answer))
        answers.append(went)

    def go_on(saved: bool | None) -> None:
        if not saved:
            return
        went = answers[-1]
        if went is WentAhead.DONE:
            screen.program.open_job(job_id, task.page)
        else:
            told = f"{went[0].upper()}{went[1:]}: book another day."
            if went is WentAhead.PART_DONE:
                told = "Part done, and sheeted: book the laying."
            undo = f"{key_of('anywhere', 'undo')} to undo."
            screen.app.push_screen(JobScreen(job_id, PageName.BOOKING, told=f"{told} {undo}"))

    dialog = FormDialog(
        f"{show_date(task.since)}: did it go ahead?",
        (_FIELD,),
        _read,
        save,
        words=f"{task.who}\n{_WORDS}",
        values={_FIELD.id: WentAhead.DONE.value},
    )
    screen.app.push_screen(dialog, go_on)


def _read(values: dict[str, str]) -> WentAhead:
    """The answer. Raises :class:`Refused` if none is chosen."""
    if not values[_FIELD.id]:
        raise Refused(_FIELD.id, "", "Choose which it was.")
    return WentAhead(values[_FIELD.id])
