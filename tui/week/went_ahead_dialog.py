"""“Did it go ahead?”: the question a booked day leaves open, asked and settled from Tonight."""

from domain.checks.went_ahead import cover_after
from domain.days.calendar import show_date
from domain.errors import Refused
from domain.job import Cover, DayAnswer, Job, WentAhead
from domain.week import Task
from tui.frame.screen import BaseScreen
from tui.widgets.field_row import Field
from tui.widgets.form_dialog import FormDialog

_WENT = Field("went", "The work was", choices=tuple(went.value for went in WentAhead))
_FOUND = Field("found", "Found", hint="what you found, or “nothing”")
_WORDS = (
    "Done: {done}. Part done: the roof is sheeted, and the laying is to be booked. "
    "Anything else: the day is taken out, the reason is kept, and another is to be booked. "
    "Left and right choose, or a first letter: d done, p part done, r rained off, "
    "c customer out, i I was ill, v van broken down, m materials did not come."
)
_DONE = {
    Cover.LAID: "the roof is laid, and the laying is recorded next",
    Cover.SHEETED: "it is stripped, and sheeted until the laying",
}


async def ask_whether_it_went_ahead(screen: BaseScreen, task: Task, job_id: int) -> None:
    """Ask about the day of a task, and record the answer: the list goes on from there."""
    job = await screen.open_book.ask(lambda book: book.job(job_id))

    async def save(answer: DayAnswer) -> None:
        await screen.open_book.ask(lambda book: book.answer_day(book.job(job_id), answer))
        await screen.say_saved(_told(job, answer))

    words = _WORDS.format(done=_DONE[cover_after(job, task.since)])
    dialog = FormDialog(
        f"{show_date(task.since)}: did it go ahead?",
        (_WENT,) if job.stripping is not None else (_WENT, _FOUND),
        lambda values: _read(values, task),
        save,
        words=f"{task.who}\n{words}",
        values={_WENT.id: WentAhead.DONE.value},
    )
    screen.app.push_screen(dialog)


def _told(job: Job, answer: DayAnswer) -> str:
    """What was recorded, and what comes next."""
    went = answer.went
    if went is WentAhead.DONE:
        done = _DONE[cover_after(job, answer.day)]
        return f"Done: {done}."
    if went is WentAhead.PART_DONE:
        return "Part done, and sheeted: book the laying."
    return f"{went[0].upper()}{went[1:]}: book another day."


def _read(values: dict[str, str], task: Task) -> DayAnswer:
    """The answer. Raises :class:`Refused` if none is chosen."""
    if not values[_WENT.id]:
        raise Refused(_WENT.id, "", "Choose which it was.")
    went = WentAhead(values[_WENT.id])
    return DayAnswer(task.since, went, values.get(_FOUND.id, "").strip())
