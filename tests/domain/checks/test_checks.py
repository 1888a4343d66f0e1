"""Every stop and caution, each shown to fail and to hold."""

import pytest

from domain.checks.stages import CHECKS, REMINDERS, Severity
from domain.job import Stage
from tests.domain.checks.cases import FAILS, FULL, HOLDS_STILL, Change, names

BY_ID = {check.id: check for check in CHECKS}


@pytest.mark.parametrize(("check_id", "change"), FAILS, ids=names(FAILS))
def test_a_check_fails(check_id: str, change: Change) -> None:
    assert not BY_ID[check_id].holds(change(FULL))


@pytest.mark.parametrize(("check_id", "change"), HOLDS_STILL, ids=names(HOLDS_STILL))
def test_a_check_holds_where_it_nearly_fails(check_id: str, change: Change) -> None:
    assert BY_ID[check_id].holds(change(FULL))


@pytest.mark.parametrize("check_id", BY_ID)
def test_a_check_holds_on_a_job_that_lacks_nothing(check_id: str) -> None:
    assert BY_ID[check_id].holds(FULL)


def test_every_check_has_its_case() -> None:
    assert {check_id for check_id, _ in FAILS} == {check.id for check in CHECKS}


def test_every_check_has_its_own_name_and_says_what_settles_it() -> None:
    assert len(BY_ID) == len(CHECKS)
    for check in CHECKS:
        assert check.words.endswith("?"), check.id
        assert check.remedy.endswith("."), check.id


def test_checks_stand_in_the_order_of_the_stages() -> None:
    ranks = [check.stage.rank for check in CHECKS]
    assert ranks == sorted(ranks)


def test_a_suspected_asbestos_roof_is_left_to_a_licensed_or_trained_person() -> None:
    check = BY_ID["asbestos"]
    assert check.severity is Severity.STOP
    assert "licensed or trained person" in check.remedy


def test_reminders_say_what_comes_before_them() -> None:
    assert set(REMINDERS) == set(Stage)
    for stage, words in REMINDERS.items():
        if stage.rank > Stage.SURVEY.rank:
            assert "the maker's instructions and licensed people come first" in words[-1]
