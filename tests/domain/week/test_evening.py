"""Tonight in a few lines: nothing twice, nothing lost, stops always in sight."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from domain.week import Task, TaskKind, TaskSign
from domain.week.evening import MOST, Fold, Inside, Row, evening_rows
from domain.week.tonight_order import TONIGHT, kind_of

DAY = date(2026, 6, 24)


def _task(kind: TaskKind, amount: int | None = None, job_id: int = 1) -> Task:
    return Task(kind, kind.value, "Mrs Ek", DAY, amount, job_id)


def _all(rows: list[Row]) -> list[Task]:
    return [
        task
        for row in rows
        for task in (
            row.tasks if isinstance(row, Fold) else () if isinstance(row, Inside) else (row,)
        )
    ]


def _in_order(kinds: list[TaskKind]) -> list[Task]:
    tasks = [_task(kind, job_id=number) for number, kind in enumerate(kinds)]
    return sorted(tasks, key=lambda task: task.rank)


@given(st.lists(st.sampled_from(TaskKind), max_size=60))
def test_every_task_stands_in_one_row_and_only_stops_go_beyond_eight(
    kinds: list[TaskKind],
) -> None:
    tasks = _in_order(kinds)
    rows = evening_rows(tasks)
    assert sorted(_all(rows), key=lambda t: t.job_id or 0) == sorted(
        tasks, key=lambda t: t.job_id or 0
    )
    stops = [task for task in tasks if task.sign is TaskSign.STOP]
    assert [row for row in rows if row in stops] == stops
    assert len(rows) <= max(MOST, len(stops) + 1)


@given(st.lists(st.sampled_from(TaskKind), max_size=60))
def test_an_opened_fold_shows_what_is_in_it_below_its_line(kinds: list[TaskKind]) -> None:
    rows = evening_rows(_in_order(kinds))
    for fold in (row for row in rows if isinstance(row, Fold)):
        opened = evening_rows(_in_order(kinds), {fold.kind})
        at = opened.index(fold)
        assert opened[at + 1 : at + 1 + len(fold.tasks)] == [Inside(task) for task in fold.tasks]
        assert [row for row in opened if not isinstance(row, Inside)] == rows


def test_two_of_a_kind_stand_by_themselves_and_three_behind_one_line() -> None:
    two = [_task(TaskKind.OVERDUE, 606_38), _task(TaskKind.OVERDUE, 100_00)]
    assert evening_rows(two) == two
    (fold,) = evening_rows([*two, _task(TaskKind.OVERDUE, 50_00)])
    assert isinstance(fold, Fold)
    assert (fold.words, fold.amount) == ("Chase 3 invoices", 756_38)


def test_what_can_wait_stands_behind_the_last_line() -> None:
    later = [_task(TaskKind.SNAG), _task(TaskKind.VISIT)]
    first, last = evening_rows([_task(TaskKind.INVOICE, 606_38), *later])
    assert first == _task(TaskKind.INVOICE, 606_38)
    assert isinstance(last, Fold)
    assert (last.words, last.amount, last.tasks) == ("When there is time: 2", None, tuple(later))
    assert evening_rows(later[:1]) == later[:1]


def test_where_there_are_too_many_lines_the_last_says_how_many_more() -> None:
    kinds = [row.kind for row in TONIGHT if row.tonight and row.sign is not TaskSign.STOP]
    rows = evening_rows([_task(kind) for kind in kinds])
    assert isinstance(rows[-1], Fold)
    assert (len(rows), rows[-1].words) == (MOST, f"And {len(kinds) - MOST + 1} more")


def test_every_kind_that_can_fold_has_words_for_several() -> None:
    for row in TONIGHT:
        folds = row.tonight and row.sign is not TaskSign.STOP
        assert ("{}" in row.many) is folds
    assert kind_of(TaskKind.SHEET).many == ""
    assert kind_of(TaskKind.RING)._replace(many="").tonight


def test_whether_a_day_went_ahead_is_asked_in_sight() -> None:
    kinds = [row.kind for row in TONIGHT if row.tonight and row.sign is not TaskSign.STOP]
    rows = evening_rows([_task(kind) for kind in kinds])
    assert TaskKind.WENT_AHEAD in [row.kind for row in rows if isinstance(row, Task)]
    assert rows[:-1] == sorted((row for row in rows if isinstance(row, Task)), key=lambda t: t.rank)


@given(st.lists(st.sampled_from(TaskKind), max_size=40), st.integers(0, 40))
def test_no_line_stands_empty_while_something_is_folded_away(
    kinds: list[TaskKind], lines: int
) -> None:
    tasks = _in_order(kinds)
    plain, rows = evening_rows(tasks), evening_rows(tasks, lines=lines)
    assert _all(rows) == _all(plain)
    assert len(rows) <= max(lines, len(plain))
    rest = plain[-1] if plain and isinstance(plain[-1], Fold) and plain[-1].kind is None else None
    if rest is not None:
        assert len(rows) == max(len(plain), min(lines, len(plain) + len(rest.tasks)))


def test_part_of_what_can_wait_says_how_much_of_it_stands_here() -> None:
    later = [_task(TaskKind.SNAG), _task(TaskKind.SURVEY), _task(TaskKind.VISIT)]
    fold, *inside = evening_rows(later, lines=3)
    assert isinstance(fold, Fold)
    assert (fold.words, inside) == (
        "When there is time: 3, 2 of them here",
        [*map(Inside, later[:2])],
    )
    assert isinstance(whole := evening_rows(later, lines=9)[0], Fold)
    assert whole.words == "When there is time: 3"


def test_days_that_are_asked_about_are_said_to_be_booked_ones() -> None:
    tasks = [_task(TaskKind.WENT_AHEAD, job_id=number) for number in range(7)]
    (fold,) = evening_rows(tasks)
    assert isinstance(fold, Fold)
    assert fold.words == "Did 7 booked days go ahead?"
