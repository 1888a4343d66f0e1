"""Random work on two jobs and the lists, undone and done again, against a reckoner apart."""

import shutil
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import ClassVar

import pytest
from hypothesis import assume, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from domain.coverings.materials import Material
from domain.errors import NotNow
from domain.estimate.stock import StockMove
from domain.estimate.usage import UsageRecord
from domain.history import ListName, Scope
from domain.job import Booking, Snag
from tests import builders, priced
from tests.examples import examples
from tests.storage.books import NOW, enquired, open_book, opened, redo, undo
from tests.storage.reckoner import JOBS, Reckoner

TODAY = NOW.date()
SCOPES: tuple[Scope, ...] = (*JOBS, *ListName)

of_job = st.sampled_from(JOBS)
some = st.integers(1, 9)


def _move(n: int) -> StockMove:
    return StockMove(Material.MASTIC, "", Decimal(n), TODAY, "counted")


class Evening(RuleBasedStateMachine):
    """An evening at the book."""

    begun: ClassVar[Path]

    def __init__(self) -> None:
        super().__init__()
        self.folder = TemporaryDirectory()
        path = Path(self.folder.name) / "book.headlap"
        shutil.copy(self.begun, path)
        self.book = open_book(path, "this one")
        self.reckoner = Reckoner()
        for job in JOBS:
            self.reckoner.save(job, "enquiry", 0)

    def teardown(self) -> None:
        self.book.close()
        self.folder.cleanup()

    @rule(job=of_job, n=some)
    def snag(self, job: int, n: int) -> None:
        assume(self.reckoner.has(job))
        self.book.save_snag(self.book.job(job), Snag(f"snag {n}"))
        self.reckoner.save(job, "snag", n)

    @rule(job=of_job, n=some)
    def booked(self, job: int, n: int) -> None:
        assume(self.reckoner.has(job))
        days = (builders.booked_day(hours=Decimal(n)),)
        self.book.book_days(self.book.job(job), Booking(days, materials_in_hand=False))
        self.reckoner.save(job, "hours", n)

    @rule(job=of_job, n=st.integers(-9, 9))
    def used(self, job: int, n: int) -> None:
        assume(self.reckoner.has(job))
        moves = (_move(n),) if n else ()
        self.book.record_usage(self.book.job(job), UsageRecord(builders.usages()[:1], moves))
        self.reckoner.save(job, "used", n)

    @rule(n=st.integers(-9, 9))
    def stocked(self, n: int) -> None:
        held, _ = self.reckoner.stock()
        if held + n < 0:
            with pytest.raises(NotNow, match="Correct the count first"):
                self.book.move_stock(_move(n))
        else:
            self.book.move_stock(_move(n))
            self.reckoner.save(ListName.STOCK, "stock", n)

    @rule(n=some)
    def priced(self, n: int) -> None:
        self.book.set_price(priced.price(Material.NAILS, n, "9"))
        self.reckoner.save(ListName.PRICES, "price", n)

    @rule(n=some)
    def detailed(self, n: int) -> None:
        self.book.save_trader(replace(self.book.trader(), phone=f"0{n}"))
        self.reckoner.save(ListName.DETAILS, "phone", n)

    @rule(n=some)
    def forecast(self, n: int) -> None:
        last = next(iter(self.book.forecasts(TODAY, TODAY)), builders.forecast(TODAY))
        self.book.save_forecasts([replace(last, low_c=Decimal(n))])
        self.reckoner.save(ListName.FORECASTS, "low", n)

    @rule(of=st.sampled_from(SCOPES))
    def undone(self, of: Scope) -> None:
        _, short = self.reckoner.stock()
        if self.reckoner.undo(of):
            told = self.book.undoable(of)
            self.book.undo(told)
            lacking = max(0, self.reckoner.stock()[1] - short)
            assert sum(line.quantity for line in told.short) == lacking
        else:
            with pytest.raises(NotNow, match="Nothing to undo"):
                undo(self.book, of)

    @rule(of=st.sampled_from(SCOPES))
    def redone(self, of: Scope) -> None:
        if self.reckoner.redo(of):
            redo(self.book, of)
        else:
            with pytest.raises(NotNow, match="Nothing to redo"):
                redo(self.book, of)

    @invariant()
    def agrees(self) -> None:
        for job_id in filter(self.reckoner.has, JOBS):
            job = self.book.job(job_id)
            snags = self.reckoner.all(job_id, "snag")
            assert [snag.words for snag in job.snags] == [f"snag {n}" for n in snags]
            assert next((day.hours for day in job.days), None) == self.reckoner.last(
                job_id, "hours"
            )
            assert bool(job.usages) == (self.reckoner.last(job_id, "used") is not None)
        held, _ = self.reckoner.stock()
        assert sum(line.quantity for line in self.book.stock()) == held
        nails = [each.net for each in self.book.prices() if each.material == Material.NAILS]
        assert sorted(nails) == sorted(self.reckoner.all(ListName.PRICES, "price"))
        low = next((each.low_c for each in self.book.forecasts(TODAY, TODAY)), None)
        assert low == self.reckoner.last(ListName.FORECASTS, "low")
        phone = self.reckoner.last(ListName.DETAILS, "phone")
        assert self.book.trader().phone == ("" if phone is None else f"0{phone}")


def test_two_jobs_and_the_lists_are_as_a_reckoner_apart_has_them(tmp_path: Path) -> None:
    Evening.begun = tmp_path / "begun.headlap"
    with opened(Evening.begun) as book:
        for place in ("Birch Lane", "Mill Row"):
            enquired(book, place)
    run_state_machine_as_test(
        Evening, settings=settings(examples(8), stateful_step_count=16, deadline=None)
    )
