"""The days on the roof: booking, stripping, extras, laying, what was used, signing off."""

import math

from domain.checks.rung import demand_booked, kept_words, move_days, moved_words
from domain.checks.went_ahead import answer_day, answer_words
from domain.errors import NotNow
from domain.estimate.stock import StockLine, StockMove, newly_short, replay, settled
from domain.estimate.usage import UsageRecord
from domain.job import (
    Booking,
    DayAnswer,
    DaysMoved,
    Extra,
    Job,
    Laying,
    Rung,
    SignOff,
    Snag,
    Stripping,
)
from storage.database import Database, JobTransaction
from storage.errors import Changed
from storage.mapping.codec import cells_of, value_of
from storage.queries import demand_come, read_job, read_moves
from storage.rows import (
    BookingRow,
    ExtraRow,
    LayRow,
    RungRow,
    SignoffRow,
    SnagRow,
    StockMoveRow,
    StripRow,
    UsageRow,
)
from storage.tables import Tables


class OnSiteActions(Database):
    """What happens on the roof: one method for each page that records it."""

    def book_days(self, job: Job, booking: Booking) -> Job:
        """Book the days, in place of those booked before."""
        with self._on_job(job, "booking saved") as work:
            new = (BookingRow(job_id=work.job_id, **cells_of(day, "id")) for day in booking.days)
            work.replace(BookingRow, new, job_id=work.job_id)
            work.change(work.row, materials_in_hand=int(booking.materials_in_hand))
            return read_job(work.tables, work.job_id)

    def answer_day(self, job: Job, answer: DayAnswer) -> Job:
        """Record how a booked day went: :func:`answer_day` has the rule."""
        with self._on_job(job, answer_words(answer)) as work:
            after = answer_day(job, answer)
            for booked in set(job.days) - set(after.days):
                work.remove(work.get_one(BookingRow, booked.id))
            work.change(work.row, materials_in_hand=int(after.materials_in_hand))
            if after.stripping is not None and after.stripping != job.stripping:
                work.put(StripRow(job_id=work.job_id, **cells_of(after.stripping)), work.job_id)
            return read_job(work.tables, work.job_id)

    def move_days(self, job: Job, moved: DaysMoved) -> Job:
        """Move booked days on, all by as much: :func:`move_days` has the rule."""
        with self._on_job(job, moved_words(moved)) as work:
            for booked in set(move_days(job, moved).days) - set(job.days):
                row = work.get_one(BookingRow, booked.id)
                work.change(row, day=booked.day.isoformat())
            return read_job(work.tables, work.job_id)

    def keep_days(self, job: Job, kept: tuple[Rung, ...]) -> Job:
        """Record that booked days stay: :func:`demand_booked` has the rule."""
        with self._on_job(job, kept_words(kept)) as work:
            demand_booked(job, kept)
            for rung in kept:
                work.add(RungRow(job_id=work.job_id, **cells_of(rung, "id")))
            return read_job(work.tables, work.job_id)

    def record_stripping(self, job: Job, stripping: Stripping) -> Job:
        """Record what stripping found."""
        with self._on_job(job, "stripping saved") as work:
            work.put(StripRow(job_id=work.job_id, **cells_of(stripping)), work.job_id)
            return read_job(work.tables, work.job_id)

    def save_extra(self, job: Job, extra: Extra) -> Job:
        """Record an extra, or how it was settled; one with an id is the one recorded.

        Raises :class:`NotNow` once the work is invoiced.
        """
        with self._on_job(job, f"extra “{extra.words}” saved") as work:
            _refuse_invoiced(job)
            work.keep(ExtraRow, extra, job_id=work.job_id)
            return read_job(work.tables, work.job_id)

    def delete_extra(self, job: Job, extra_id: int) -> Job:
        """Take an extra away that came to nothing. Raises :class:`NotNow` once invoiced."""
        with self._on_job(job, "extra deleted") as work:
            _refuse_invoiced(job)
            found = work.get(ExtraRow, extra_id)
            if found is None or found.job_id != work.job_id:
                raise Changed
            work.remove(found)
            return read_job(work.tables, work.job_id)

    def record_laying(self, job: Job, laying: Laying) -> Job:
        """Record the laying."""
        with self._on_job(job, "laying saved") as work:
            work.put(LayRow(job_id=work.job_id, **cells_of(laying)), work.job_id)
            return read_job(work.tables, work.job_id)

    def record_usage(self, job: Job, record: UsageRecord) -> Job:
        """Record what was used, and what of it went into stock or came out.

        Recorded again, it takes the place of what was recorded before, in stock too. Whatever it
        does to stock is allowed, since it is what happened: :meth:`would_be_short` tells. Raises
        :class:`NotNow` while an order for the job is on its way.
        """
        with self._on_job(job, "materials and hours saved") as work:
            demand_come(work.tables, work.job_id)
            new = (UsageRow(job_id=work.job_id, **cells_of(each, "id")) for each in record.usages)
            work.replace(UsageRow, new, job_id=work.job_id)
            _settle_moves(work, record.moves)
            return read_job(work.tables, work.job_id)

    def would_be_short(
        self, job_id: int | None, moves: tuple[StockMove, ...]
    ) -> tuple[StockLine, ...]:
        """Return by how much stock would be short if these were the moves of a job."""
        with self._reading() as session:
            before = read_moves(Tables(session))
            own = [move for move in before if move.job_id == job_id]
            after = settled(own, moves)
            others = [move for move in before if move.job_id != job_id]
            in_order = sorted((*others, *after), key=lambda move: move.id or math.inf)
            return newly_short(replay(before), replay(in_order))

    def sign_off(self, job: Job, sign_off: SignOff) -> Job:
        """Record the customer's word that it is done."""
        with self._on_job(job, "signing off saved") as work:
            work.put(SignoffRow(job_id=work.job_id, **cells_of(sign_off)), work.job_id)
            return read_job(work.tables, work.job_id)

    def save_snag(self, job: Job, snag: Snag) -> Job:
        """Record a snag, or that it is done; one with an id is the one recorded."""
        with self._on_job(job, f"snag “{snag.words}” saved") as work:
            work.keep(SnagRow, snag, job_id=work.job_id)
            return read_job(work.tables, work.job_id)


def _settle_moves(work: JobTransaction, wanted: tuple[StockMove, ...]) -> None:
    """Write the moves of a job, each in the place in which it was first recorded."""
    there = {row.id: row for row in work.rows(StockMoveRow, job_id=work.job_id)}
    recorded = [value_of(StockMove, row.cells()) for row in there.values()]
    for move in settled(recorded, wanted):
        row = there.pop(move.id, None)
        cells = cells_of(move, "id", "job_id")
        if row is None:
            work.add(StockMoveRow(job_id=work.job_id, **cells))
        else:
            work.change(row, **cells)
    for row in there.values():
        work.remove(row)


def _refuse_invoiced(job: Job) -> None:
    if job.invoice is not None:
        raise NotNow("The work is invoiced: its extras stay as they are.")
