"""The turns a job takes: on to the next stage, back, ended, taken up again."""

from collections.abc import Callable, Mapping
from datetime import date, timedelta

from sqlmodel import Session

from domain.checks.check import Situation
from domain.job import Ending, Job, Stage
from domain.stages import end, go_back, move, reopen
from storage.mapping.codec import cells_of
from storage.reading import read_job, read_outlooks, read_trader
from storage.rows import CautionNoteRow
from storage.store import JobWork, Store

_LOOKING_BACK, _LOOKING_AHEAD = timedelta(days=31), timedelta(days=92)


class TurnActions(Store):
    """The rules are the domain's; what they allow is kept."""

    def move_stage(self, job: Job, to: Stage, today: date, notes: Mapping[str, str]) -> Job:
        """Call the job its next stage; ``notes`` pass cautions by check id."""
        return self._turned(job, f"marking it as {to}", today, lambda now: move(now, to, notes))

    def go_back(self, job: Job, to: Stage, why: str, today: date) -> Job:
        """Call the job an earlier stage again."""
        return self._turned(job, f"going back to {to}", today, lambda now: go_back(now, to, why))

    def end_job(self, job: Job, ending: Ending, why: str, today: date) -> Job:
        """Put on record that nothing comes of the job."""
        return self._turned(
            job, f"closing it as {ending}", today, lambda now: end(now, ending, why)
        )

    def reopen(self, job: Job, why: str, today: date) -> Job:
        """Take up a job that had ended."""
        return self._turned(job, "the reopening", today, lambda now: reopen(now, why))

    def _turned(self, job: Job, what: str, today: date, turn: Callable[[Situation], Job]) -> Job:
        with self._on_job(job, what) as work:
            situation = situation_of(work.session, work.job_id, today)
            turned = turn(situation)
            keep_turn(work, situation.job, turned)
            return turned


def situation_of(session: Session, job_id: int, today: date) -> Situation:
    """Read a job with all that its checks look at."""
    job = read_job(session, job_id)
    days = [today, *(booked.day for booked in job.days)]
    outlooks = read_outlooks(session, min(days) - _LOOKING_BACK, max(days) + _LOOKING_AHEAD)
    return Situation(
        job=job,
        trader=read_trader(session),
        today=today,
        outlooks={outlook.day: outlook for outlook in outlooks},
    )


def keep_turn(work: JobWork, before: Job, after: Job) -> None:
    """Write the stage, the ending and the notes that a turn added."""
    work.change(work.row, **cells_of(after, *_NOT_OF_A_TURN))
    for note in after.notes[len(before.notes) :]:
        work.add(CautionNoteRow(job_id=work.job_id, **cells_of(note)))


_OF_A_TURN = ("stage", "ended", "ended_why")
_NOT_OF_A_TURN = tuple(name for name in Job.__dataclass_fields__ if name not in _OF_A_TURN)
