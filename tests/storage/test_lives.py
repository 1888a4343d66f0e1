"""Whole lives of jobs, undone and done again at two windows, against a reckoner apart."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import initialize, run_state_machine_as_test
from sqlalchemy import ColumnElement
from sqlmodel import col

from domain.accounts.receipt import allocations_for
from domain.errors import HeadlapError
from domain.estimate.stock import StockMove, settled
from domain.job import Allocation
from domain.scope import Scope
from storage.actions.accounts_actions import next_number
from storage.putting_back import Turn, turns_back
from storage.rows import ActionRow
from tests.examples import examples
from tests.storage.books import opened, settle
from tests.storage.lives.machine import Lives


@pytest.fixture(scope="module", autouse=True)
def _begun(tmp_path_factory: pytest.TempPathFactory) -> None:
    """The book that all of them begin with."""
    Lives.begun = tmp_path_factory.mktemp("lives") / "book.headlap"
    with opened(Lives.begun) as book:
        settle(book)


def test_jobs_stock_and_numbers_are_as_a_reckoner_apart_has_them() -> None:
    run_state_machine_as_test(
        Lives, settings=settings(examples(5), stateful_step_count=10, deadline=None)
    )


@pytest.mark.long
def test_long_lives_are_as_a_reckoner_apart_has_them() -> None:
    run_state_machine_as_test(
        Lives, settings=settings(examples(12), stateful_step_count=40, deadline=None)
    )


class FarOn(Lives):
    """Jobs one of which is far on from the first."""

    @initialize(n=st.integers(0, 9), data=st.data())
    def begins(self, n: int, data: st.DataObject) -> None:
        super().begins(n, data)
        self.goes_on(0, 0, n, 25)


def _loses_a_move(*given: Any) -> tuple[StockMove, ...]:
    return settled(*given)[1:]


def _gives_a_number_again(*given: Any) -> int:
    return max(1, next_number(*given) - 1)


def _pays_a_penny_less(*given: Any) -> tuple[Allocation, ...]:
    first, *rest = allocations_for(*given)
    return (replace(first, pence=first.pence - 1), *rest)


def _leaves_a_row(*given: Any) -> tuple[Turn, ...]:
    return turns_back(*given)[1:]


def _looks_at_all_jobs(_: Scope) -> ColumnElement[bool]:
    return col(ActionRow.id) > 0


@pytest.mark.parametrize(
    ("place", "fault"),
    [
        ("storage.actions.on_site_actions.settled", _loses_a_move),
        ("storage.actions.accounts_actions.next_number", _gives_a_number_again),
        ("storage.actions.accounts_actions.allocations_for", _pays_a_penny_less),
        ("storage.journal.turns_back", _leaves_a_row),
        ("storage.journal.is_of", _looks_at_all_jobs),
    ],
    ids=lambda given: given.__name__.strip("_").replace("_", " ") if callable(given) else "",
)
def test_a_book_that(place: str, fault: object, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is found out within few lives."""
    monkeypatch.setattr(place, fault)
    few = settings(
        max_examples=5,
        stateful_step_count=8,
        derandomize=True,
        database=None,
        phases=[Phase.generate],
        deadline=None,
        report_multiple_bugs=False,
    )
    with pytest.raises((AssertionError, HeadlapError)):
        run_state_machine_as_test(FarOn, settings=few)
