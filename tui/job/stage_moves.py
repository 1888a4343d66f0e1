"""Moving a job from stage to stage on its screen: forward if nothing stops it, back with a reason.

What may be passed is decided by the domain and again by the book; here it is asked for and said.
"""

from datetime import date

from domain.accounts.calling_off import to_pay_back
from domain.checks.check import Check, Severity, Situation
from domain.checks.questions import questions_of
from domain.checks.stages import endings, missing, next_stage
from domain.days.calendar import show_date
from domain.job import Closing, Cover, Job, Reopening, Stage, StageBack, StageMove
from domain.money import show_money
from domain.page_names import PageName
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.job.ending_dialog import EndDialog
from tui.job.page_host import PageHost
from tui.job.stage_dialogs import back_dialog, notes_dialog, reopen_dialog
from tui.job.still_needed import Missing

_OWN_PAGE = {
    Stage.ENQUIRY: PageName.ENQUIRY,
    Stage.SURVEY: PageName.SURVEY,
    Stage.QUOTED: PageName.QUOTE,
    Stage.BOOKED: PageName.STRIP,
    Stage.STRIPPED: PageName.LAYING,
    Stage.LAID: PageName.SIGN_OFF,
    Stage.SIGNED_OFF: PageName.MONEY,
}
"""Where a job is looked at when nothing is missing for its next stage."""
_WORKED_AT = {
    Stage.SURVEY: {PageName.ENQUIRY},
    Stage.QUOTED: {PageName.SURVEY, PageName.QUOTE},
    Stage.BOOKED: {PageName.QUOTE, PageName.BOOKING},
    Stage.STRIPPED: {PageName.STRIP},
    Stage.LAID: {PageName.LAYING},
    Stage.SIGNED_OFF: {PageName.SIGN_OFF},
}
"""The pages on which what is missing for a stage is settled."""
_NAMED = 2
"""So many stops are named where they are said in a sentence."""
_FACTS = {PageName.SURVEY, PageName.BOOKING, PageName.STRIP, PageName.LAYING}
"""The pages that record what is over once a job is signed off, or ended."""


def open_checks(situation: Situation) -> tuple[Check, ...]:
    """Return what is still to be settled before the job's next stage, stops first."""
    to = next_stage(situation.job)
    return () if to is None else missing(situation, to)


def where_to_begin(situation: Situation) -> PageName:
    """The page on which the first missing thing is settled, else that of the stage.

    Of work that is booked for later the booking: there is nothing to record of it yet; before the
    visit the enquiry.
    """
    job, visit = situation.job, situation.job.enquiry.visit_on
    if job.stage is Stage.ENQUIRY and (visit is None or visit > situation.today):
        return PageName.ENQUIRY
    if waits_for_its_day(situation.job, situation.today):
        return PageName.BOOKING
    on_a_page = [c.page for c in open_checks(situation) if c.page is not PageName.TRADER]
    return on_a_page[0] if on_a_page else _OWN_PAGE[situation.job.stage]


def waits_for_its_day(job: Job, today: date) -> bool:
    """Whether all that is still to be done on the roof is booked for a day after today."""
    if job.stage not in (Stage.BOOKED, Stage.STRIPPED) or job.ended or job.laying is not None:
        return False
    stripped = job.stripping
    if stripped is not None and stripped.cover is not Cover.SHEETED:
        return False
    since = stripped.on if stripped is not None else date.min
    days = [booked.day for booked in job.days if booked.day > since]
    return bool(days) and min(days) > today


def what_is_missing(situation: Situation, *, typing: bool = False) -> Missing:
    """The title of the list of what is missing, how it speaks, and the list.

    What is only typed as yet, ``typing``, is saved first.
    """
    job, checks = situation.job, open_checks(situation)
    to = next_stage(job)
    if job.ended is not None:
        return Missing(f"{job.ended}: {job.ended_why}", Tone.CAUTION)
    if to is None:
        return Missing("Signed off: nothing missing.", Tone.GOOD)
    if not checks:
        key = key_of("job", "next_stage")
        if typing:
            return Missing(f"Nothing missing once {key_of('job', 'save')} saves this.", Tone.GOOD)
        does = "begin it" if to is Stage.SURVEY else f"mark it {to.done}"
        return Missing(f"Nothing missing before “{to}”. Press {key} to {does}.", Tone.GOOD)
    return Missing(f"Still needed before “{to}”", Tone.QUIET, checks, to)


def stops_ahead(situation: Situation) -> str:
    """What will stop the next stage, in one sentence; empty if nothing will.

    Said where something is issued away from the page of the job that lists it.
    """
    stops = [check for check in open_checks(situation) if check.severity is Severity.STOP]
    asked = [question.words for question in questions_of(stops)]
    if not asked:
        return ""
    more = f" And {len(asked) - _NAMED} more." if len(asked) > _NAMED else ""
    return f"Before “{next_stage(situation.job)}”: {' '.join(asked[:_NAMED])}{more}"


def has_the_list(situation: Situation, page: PageName) -> bool:
    """Whether all that is missing stands on a page: that on which the next stage is worked at."""
    to = next_stage(situation.job)
    return to is None or page in _WORKED_AT[to]


def is_over(job: Job, page: PageName) -> str:
    """What to say before a page is changed that records what is over; empty while it is not."""
    if page not in _FACTS or not (job.ended or job.stage is Stage.SIGNED_OFF):
        return ""
    return f"The job is {job.ended or job.stage}. Save again to change what was recorded."


async def move_to_next_stage(screen: PageHost, situation: Situation) -> None:
    """Mark the job as its next stage: an open stop is said, open cautions are asked about."""
    job = situation.job
    to = next_stage(job)
    if to is None:
        screen.say(f"Already {job.ended or job.stage}: no next stage.", Tone.QUIET)
        return
    checks = open_checks(situation)
    if checks and checks[0].severity is Severity.STOP:
        screen.say(f"Not {to.done} yet. {checks[0].words} {checks[0].remedy}", Tone.STOP)
        return

    async def move(notes: dict[str, str]) -> None:
        now = _now(screen, job)
        await screen.open_book.ask(
            lambda book: book.move_stage(now, StageMove(to, situation.today, notes))
        )
        await screen.reload_job()
        if to is Stage.LAID and screen.opened_at is PageName.MONEY:
            await screen.turn_to(PageName.MONEY)  # it was opened to be invoiced: now it can be
        elif screen.situation is not None:
            await screen.turn_to(where_to_begin(screen.situation))
        await screen.say_saved(f"The job is {to.done}.")

    if checks:
        screen.app.push_screen(notes_dialog(to, checks, move))
    else:
        await move({})


def go_back_a_stage(screen: PageHost, job: Job) -> None:
    """Ask for the stage to go back to and why; an ended job is taken up again."""
    today = screen.open_book.today

    async def reopen(why: str) -> None:
        now = _now(screen, job)
        await screen.open_book.ask(lambda book: book.reopen(now, Reopening(why, today)))
        await screen.reload_job()
        await screen.say_saved("Job reopened.")

    async def go_back(to_and_why: tuple[Stage, str]) -> None:
        (to, why), now = to_and_why, _now(screen, job)
        await screen.open_book.ask(lambda book: book.go_back(now, StageBack(to, why, today)))
        await screen.reload_job()
        await screen.say_saved(
            f"The job is {to.done} again. Nothing you recorded has been lost.", Tone.QUIET
        )

    if job.ended is not None:
        screen.app.push_screen(reopen_dialog(job, reopen))
    elif job.stage is Stage.ENQUIRY:
        screen.say("It is still an enquiry: there is no earlier stage.", Tone.QUIET)
    else:
        screen.app.push_screen(back_dialog(job, go_back))


def end_job(screen: PageHost, at: Situation) -> None:
    """Ask how the job ended before it was done, and why."""
    job = at.job
    if job.ended is not None:
        screen.say(
            f"It is {job.ended} already; {key_of('job', 'stage_back')} reopens it.", Tone.QUIET
        )
        return
    if not endings(job):
        screen.say(f"It is {job.stage}: it can no longer be called off.", Tone.QUIET)
        return

    async def save(closing: Closing) -> None:
        now = _now(screen, job)
        ended = await screen.open_book.ask(lambda book: book.end_job(now, closing))
        await screen.reload_job()
        back = to_pay_back(ended)
        issued = [each.label for each in ended.documents[len(now.documents) :]]
        told = f"Issued: {', '.join(issued)}. " if issued else ""
        if back is not None:
            by = f" by {show_date(back[1])}" if back[1] else ""
            told += f"{show_money(back[0])} goes back to them{by}."
        if told:
            await screen.turn_to(PageName.MONEY)
        told = told.strip() or "Nothing you recorded has been lost."
        await screen.say_saved(f"The job is {closing.ending}. {told}", Tone.QUIET)

    screen.app.push_screen(EndDialog(at, screen.open_book.today, save))


def _now(screen: PageHost, job: Job) -> Job:
    """The job as the screen shows it now: read again if it was changed while a dialog was open."""
    return screen.situation.job if screen.situation is not None else job
