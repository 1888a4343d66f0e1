"""The turns a job takes: on to the next stage, back, ended, taken up again."""

from collections.abc import Callable, Iterator, Mapping
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

from domain.accounts.calling_off import settling
from domain.accounts.part_invoice import part_invoice_for
from domain.checks.check import OtherWork, Situation
from domain.checks.stages import end, go_back, move, reopen
from domain.days.calendar import show_date
from domain.estimate.weights import van_load
from domain.job import Closing, DocumentKind, Job, Reopening, StageBack, StageMove
from domain.trader import Van
from domain.week.put_off import PutOff
from domain.week.tonight_order import TaskKind
from storage.actions.accounts_actions import keep_invoice, next_number, write_credit
from storage.books_read import read_paid
from storage.database import Database, JobTransaction
from storage.job_folders import photographs_of
from storage.mapping.codec import cells_of
from storage.queries import read_forecasts, read_job, read_trader
from storage.rows import CautionNoteRow, PutOffRow
from storage.tables import Tables

_LOOKING_BACK, _LOOKING_AHEAD = timedelta(days=31), timedelta(days=92)

_OTHERS = """
    SELECT booking.day, booking.hours, job.ref, site.place, job.id FROM listed
    CROSS JOIN job ON job.id = listed.job_id
    CROSS JOIN booking ON booking.job_id = job.id
    JOIN site ON site.id = job.site_id
    WHERE under_way AND booking.day >= ? AND job.id <> ? AND job.ended IS NULL
        AND job.stage NOT IN ('laid', 'signed off')
        AND NOT EXISTS (SELECT 1 FROM lay WHERE job_id = job.id)
    ORDER BY booking.day, job.id
"""
"""The days kept for other jobs that are still to be laid: what is over is never looked at."""


class StageActions(Database):
    """The rules are the domain's; what they allow is kept."""

    def move_stage(self, job: Job, step: StageMove) -> Job:
        """Mark the job as its next stage."""
        what = f"marked as {step.to.done}"
        return self._turned(job, what, step.on, lambda now: move(now, step.to, step.notes))

    def go_back(self, job: Job, step: StageBack) -> Job:
        """Put the job back to an earlier stage."""
        what = f"put back to {step.to}"
        return self._turned(job, what, step.on, lambda now: go_back(now, step.to, step.why))

    def end_job(self, job: Job, closing: Closing) -> Job:
        """Record that nothing comes of the job, and settle what it asked for.

        What is not kept of it is credited; of a job called off midway the part done is invoiced.
        """
        with self._on_job(job, f"closed as {closing.ending}") as work:
            situation = situation_of(work.tables, work.job_id, closing.on, self._path)
            now = situation.job
            ended = end(situation, closing)
            save_stage(work, now, ended)
            comes = settling(now, closing, situation.trader)
            for credited in comes.credits:
                write_credit(work, read_job(work.tables, work.job_id), credited, closing.on)
            if comes.invoice:
                number = next_number(work, DocumentKind.INVOICE)
                invoice = part_invoice_for(
                    now, closing, situation.trader, number, read_paid(work.tables, now.id)
                )
                keep_invoice(work, now, invoice)
            return read_job(work.tables, work.job_id)

    def reopen(self, job: Job, again: Reopening) -> Job:
        """Reopen a job that had ended."""
        return self._turned(job, "reopened", again.on, lambda now: reopen(now, again.why))

    def put_off(self, job: Job, wanted: PutOff) -> Job:
        """Show a kind of task of the job in Tonight no sooner than on a day."""
        return self._waiting(
            job, f"“{wanted.kind}” put off until {show_date(wanted.until)}", wanted
        )

    def ring_again(self, job: Job, wanted: PutOff) -> Job:
        """As :meth:`put_off`, after a call that nobody answered."""
        return self._waiting(job, f"rung, no answer: again on {show_date(wanted.until)}", wanted)

    def tied_down(self, job: Job, until: date) -> Job:
        """Record that the tarpaulin is tied down: Tonight asks again on a day, if it is windy."""
        wanted = PutOff(TaskKind.TARPAULIN, until)
        return self._waiting(job, "tarpaulin tied down", wanted)

    def _waiting(self, job: Job, what: str, wanted: PutOff) -> Job:
        with self._on_job(job, what) as work:
            for before in work.rows(PutOffRow, job_id=work.job_id):
                if before.kind == wanted.kind:
                    work.change(before, **cells_of(wanted))
                    break
            else:
                work.add(PutOffRow(job_id=work.job_id, **cells_of(wanted)))
            return read_job(work.tables, work.job_id)

    def _turned(self, job: Job, what: str, today: date, turn: Callable[[Situation], Job]) -> Job:
        with self._on_job(job, what) as work:
            situation = situation_of(work.tables, work.job_id, today, self._path)
            save_stage(work, situation.job, turn(situation))
            return read_job(work.tables, work.job_id)


def situation_of(tables: Tables, job_id: int, today: date, book: Path) -> Situation:
    """Read a job with all that its checks look at; ``book`` is the file it is in."""
    job = read_job(tables, job_id)
    days = [today, *(booked.day for booked in job.days)]
    forecasts = read_forecasts(tables, min(days) - _LOOKING_BACK, max(days) + _LOOKING_AHEAD)
    trader = read_trader(tables)
    return Situation(
        job=job,
        trader=trader,
        today=today,
        forecasts={forecast.day: forecast for forecast in forecasts},
        others=tuple(_others(tables, job, today, trader.van)),
        last_issued=_last_issued(tables),
        photographs=photographs_of(book, job),
    )


def _last_issued(tables: Tables) -> Mapping[DocumentKind, date]:
    """The day of the last paper of each series that has one."""
    last = "SELECT issued_on FROM document WHERE series = ? ORDER BY number DESC LIMIT 1"
    found = {kind: tables.first(last, kind.value) for kind in DocumentKind}
    return {kind: date.fromisoformat(on) for kind, on in found.items() if on is not None}


def _others(tables: Tables, job: Job, today: date, van: Van) -> Iterator[OtherWork]:
    """The work booked beside a job; another job is read only where they share a day."""
    own = {booked.day.isoformat() for booked in job.days}
    for day, hours, ref, place, other in tables.found(_OTHERS, today.isoformat(), job.id):
        kg = _kg(tables, other, van) if day in own else None
        yield OtherWork(date.fromisoformat(day), Decimal(hours), ref, place, kg)


def _kg(tables: Tables, job_id: int, van: Van) -> Fraction | None:
    load = van_load(read_job(tables, job_id), van)
    return None if load is None else load.kg


def save_stage(work: JobTransaction, before: Job, after: Job) -> None:
    """Write the stage, the ending and the notes that a turn added."""
    work.change(work.row, **cells_of(after, *_NOT_OF_A_TURN))
    for note in after.notes[len(before.notes) :]:
        work.add(CautionNoteRow(job_id=work.job_id, **cells_of(note)))


_OF_A_TURN = ("stage", "ended", "ended_why", "told_on", "kept", "kept_why")
_NOT_OF_A_TURN = tuple(name for name in Job.__dataclass_fields__ if name not in _OF_A_TURN)
