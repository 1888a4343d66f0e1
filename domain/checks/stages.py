"""How a job goes from stage to stage: what is missing, moving on, going back, ending.

All stops and cautions stand in one table, :data:`CHECKS`; screens, papers and tests read it.
Nothing here changes a record: every function returns a new value and deletes nothing.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date

from domain.accounts.calling_off import demand_unsettled, settling
from domain.checks.before_booked import BEFORE_BOOKED
from domain.checks.before_laid import BEFORE_LAID, LAYING_TICKS
from domain.checks.before_quoted import BEFORE_QUOTED
from domain.checks.before_signed_off import BEFORE_SIGNED_OFF
from domain.checks.before_stripped import BEFORE_STRIPPED
from domain.checks.before_survey import BEFORE_SURVEY
from domain.checks.check import Check, Severity, Situation
from domain.checks.reminders import REMINDERS
from domain.errors import NotNow, Refused
from domain.job import CautionNote, Closing, Ending, Job, Quote, Stage

__all__ = [
    "CHECKS",
    "LAYING_TICKS",
    "REMINDERS",
    "Check",
    "Severity",
    "Situation",
    "before_sending",
    "end",
    "go_back",
    "missing",
    "move",
    "next_stage",
    "note_heading",
    "reopen",
    "send",
]

CHECKS: tuple[Check, ...] = (
    *BEFORE_SURVEY,
    *BEFORE_QUOTED,
    *BEFORE_BOOKED,
    *BEFORE_STRIPPED,
    *BEFORE_LAID,
    *BEFORE_SIGNED_OFF,
)
"""Every stop and caution, by stage and in the order they are asked."""

_UP_TO: Mapping[Stage, tuple[Check, ...]] = {
    stage: tuple(check for check in CHECKS if check.stage.rank <= stage.rank) for stage in Stage
}
_BY_ID: Mapping[str, Check] = {check.id: check for check in CHECKS}
_BACK, _REOPENED = "back to ", "reopened"
_TOO_FAR = {Ending.DECLINED: Stage.BOOKED, Ending.CALLED_OFF: Stage.LAID}
"""From which stage on a job can no longer end so."""


def missing(situation: Situation, to: Stage) -> tuple[Check, ...]:
    """Return what is still to be settled before a job can be marked as a stage, stops first.

    Those of every earlier stage count too. A caution that a note on the job has passed is settled.
    Their remedies begin with the figures they go by, where there are any.
    """
    noted = {note.check_id for note in situation.job.notes}
    unsettled = [
        check.told_of(situation)
        for check in _UP_TO[to]
        if not (check.severity is Severity.CAUTION and check.id in noted)
        and not check.holds(situation)
    ]
    return tuple(sorted(unsettled, key=lambda check: check.severity is Severity.CAUTION))


def next_stage(job: Job) -> Stage | None:
    """Return the stage a job can be marked as next; None if it has ended or is signed off."""
    if job.ended is not None or job.stage is Stage.SIGNED_OFF:
        return None
    return list(Stage)[job.stage.rank + 1]


def move(situation: Situation, to: Stage, notes: Mapping[str, str]) -> Job:
    """Mark a job as its next stage; ``notes`` are the words that pass cautions, by check id.

    The notes that were needed stay on the job. Raises :class:`NotNow` if ``to`` is not the next
    stage, a stop is open or a caution has no note, and :class:`Refused` for a note without words.
    """
    job = situation.job
    if next_stage(job) is not to:
        raise _not_next(job, to)
    passed = _passed(missing(situation, to), notes, situation.today, to.done)
    return replace(job, stage=to, notes=job.notes + passed)


def before_sending(situation: Situation, valid_until: date) -> tuple[Check, ...]:
    """Return what is to be settled before the newest quote can be sent today, stops first.

    Every version is held to all that a first quote is. Raises :class:`NotNow` if none is in draft,
    the job has ended, or its survey is not marked as done yet.
    """
    sent = _as_sent(situation, valid_until)
    alone = replace(situation, job=replace(situation.job, quotes=(sent,)))
    return missing(alone, Stage.QUOTED)


def send(situation: Situation, valid_until: date, notes: Mapping[str, str]) -> Job:
    """Record that the newest quote is sent today; the first moves the job to quoted.

    ``notes`` are the words that pass cautions, by check id. Raises as :func:`before_sending` and
    :func:`move` do.
    """
    job, sent = situation.job, _as_sent(situation, valid_until)
    passed = _passed(before_sending(situation, valid_until), notes, situation.today, "sent")
    stage = max(job.stage, Stage.QUOTED, key=lambda each: each.rank)
    return replace(job, stage=stage, quotes=(*job.quotes[:-1], sent), notes=job.notes + passed)


def go_back(situation: Situation, to: Stage, why: str) -> Job:
    """Take a job back to an earlier stage; everything recorded stays, and the reason joins it.

    Raises :class:`NotNow` if the job has ended or is not past the stage, :class:`Refused` if no
    reason is given.
    """
    job = situation.job
    if job.ended is not None:
        raise NotNow(f"The job was {job.ended}: reopen it first.")
    if to.rank >= job.stage.rank:
        raise NotNow(f"The job is only {job.stage}: you can only go back to an earlier stage.")
    return replace(_noted(situation, f"{_BACK}{to}", why), stage=to)


def endings(job: Job) -> tuple[Ending, ...]:
    """Return how a job can still end before it is done; none once it is laid, or has ended."""
    if job.ended is not None:
        return ()
    return tuple(ending for ending, stage in _TOO_FAR.items() if job.stage.rank < stage.rank)


def end(situation: Situation, closing: Closing) -> Job:
    """End a job before it is done: declined until it is booked, called off until it is laid.

    Raises :class:`NotNow` if it has ended or gone too far, :class:`Refused` if no reason is given
    and as :func:`domain.accounts.calling_off.settling` does.
    """
    job, ending = situation.job, closing.ending
    if job.ended is not None:
        raise NotNow(f"The job is already {job.ended}.")
    if ending not in endings(job):
        raise NotNow(f"The job is {job.stage}: it can no longer be {ending}.")
    settling(job, closing, situation.trader)
    return replace(
        _noted(situation, ending, closing.why),
        ended=ending,
        ended_why=closing.why.strip(),
        told_on=closing.told_on or closing.on,
        kept=closing.kept,
        kept_why=closing.kept_why.strip(),
    )


def reopen(situation: Situation, why: str) -> Job:
    """Take up a job that had ended, at the stage it had; why it ended stays in its notes.

    Raises :class:`NotNow` if it has not ended or a part of its deposit was kept, :class:`Refused`
    if no reason is given.
    """
    if situation.job.ended is None:
        raise NotNow(f"The job is still open: it is {situation.job.stage}.")
    demand_unsettled(situation.job)
    open_again = replace(situation.job, ended=None, ended_why="", told_on=None, kept=0, kept_why="")
    return replace(open_again, notes=_noted(situation, _REOPENED, why).notes)


def note_heading(note: CautionNote) -> str:
    """Say what a note is about: the caution's words, or the turn the job took."""
    check = _BY_ID.get(note.check_id)
    return check.words if check else note.check_id.capitalize()


def _as_sent(situation: Situation, valid_until: date) -> Quote:
    """The newest quote, sent today."""
    job = situation.job
    if not job.quotes or job.quotes[-1].sent_on is not None:
        raise NotNow("No draft quote yet: price the job first.")
    if job.ended is not None or job.stage.rank < Stage.SURVEY.rank:
        state = job.ended or job.stage
        raise NotNow(f"It is {state}: mark the survey as done first, then send the quote.")
    return replace(job.quotes[-1], sent_on=situation.today, valid_until=valid_until)


def _passed(
    unsettled: Sequence[Check], notes: Mapping[str, str], today: date, what: str
) -> tuple[CautionNote, ...]:
    """The notes that pass what is unsettled; ``what`` the job or its quote is about to be.

    Raises :class:`NotNow` for a stop and for a caution without a note.
    """
    stops = [check for check in unsettled if check.severity is Severity.STOP]
    if stops:
        raise NotNow(f"Cannot be marked as {what} yet. {_named(stops)}")
    silent = [check for check in unsettled if check.id not in notes]
    if silent:
        raise NotNow(
            f"You can mark it as {what} if you add a note to each caution. {_named(silent)}"
        )
    return tuple(
        CautionNote(check.id, _words(check.id, notes[check.id]), today) for check in unsettled
    )


def _not_next(job: Job, to: Stage) -> NotNow:
    if job.ended is not None:
        return NotNow(f"The job was {job.ended}: reopen it first.")
    if to.rank <= job.stage.rank:
        return NotNow(f"The job is already {job.stage}.")
    return NotNow(f"One stage at a time: “{next_stage(job)}” comes next.")


def _named(checks: list[Check], most: int = 3) -> str:
    """The first few checks by their words, and how many more there are."""
    more = f" And {len(checks) - most} more." if len(checks) > most else ""
    return " ".join(check.words for check in checks[:most]) + more


def _noted(situation: Situation, turn: str, why: str) -> Job:
    """The job with a note on the turn it takes, today."""
    note = CautionNote(turn, _words("why", why), situation.today)
    return replace(situation.job, notes=(*situation.job.notes, note))


def _words(field: str, text: str) -> str:
    """The text without space around it, refused if there is none."""
    if not text.strip():
        raise Refused(field, text, "Say why in a few words.")
    return text.strip()
