"""How many keys each kind of line in Tonight takes from the week to the book, over the demo.

source: the project's own aims. Each row types its keys with the cursor on the line; words are
typed apart and not counted. That it is settled is read in the book by plain SQL. What fails prints
the keys, what the screen said, and what changed in the book.
"""

import shutil
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest

from domain.page_names import PageName
from domain.week import TaskKind
from domain.week.evening import Fold
from tests.laid_out_once import NOW
from tests.storage.books import query
from tests.tui.hands import Hands, key, said, until
from tui.shell.app import make_app
from tui.week.tonight_list import TonightList
from tui.widgets.line_list import LineList

pytestmark = pytest.mark.long

OPEN, SAVE = key("week", "open"), key("dialog", "save")
SEND, DRAFT = key("week", "send"), key("week", "draft")
YES = key("issue", "save")


@dataclass(frozen=True)
class Line:
    """A kind of line, the keys that settle it, and where the book then says so."""

    kind: TaskKind
    most: int
    keys: Sequence[str]
    settled: str
    """Counts rows of the job ``:job``; it must grow."""


LINES = (
    Line(
        TaskKind.RING,
        4,
        (OPEN, key("ring", "stays")),
        "SELECT count(*) FROM rung WHERE job_id = :job",
    ),
    Line(
        TaskKind.OVERDUE,
        2,
        (OPEN, key("chase", "copy")),
        "SELECT count(*) FROM chase WHERE job_id = :job",
    ),
    Line(
        TaskKind.INVOICE,
        3,
        (DRAFT, YES, SEND),
        "SELECT count(sent_on) FROM to_send WHERE paper = 'invoice' AND job_id = :job",
    ),
    Line(
        TaskKind.QUOTE,
        3,
        (DRAFT, SAVE, SEND),
        "SELECT count(sent_on) FROM to_send WHERE paper = 'quote' AND job_id = :job",
    ),
    Line(
        TaskKind.USED,
        8,
        (key("week", "used"), "5", "3", "enter", "plus", key("used", "accept_all")),
        "SELECT count(*) FROM usage WHERE job_id = :job",
    ),
)


@pytest.mark.parametrize("line", LINES, ids=lambda line: line.kind.name.lower())
async def test_a_line_is_settled_from_the_list_in_so_many_keys(
    demo: Path, tmp_path: Path, line: Line
) -> None:
    path = Path(shutil.copy(demo, tmp_path / "demo.headlap"))
    app = make_app(path, lambda: NOW)
    async with app.run_test(size=(80, 24)) as pilot:
        hands, told = Hands(pilot), list[str]()
        job = await _stand_on(hands, line.kind)
        before = _count(path, line, job)
        for each in line.keys:
            await hands.press(each)
            await hands.comes_to_rest()
            told.append(f"{each}: {said(app) or app.screen.title or type(app.screen).__name__}")
        after = _count(path, line, job)
        told.append(f"{line.settled}: {before} → {after}")
        assert after > before, "\n".join(told)
        assert hands.pressed <= line.most, "\n".join(told)


@pytest.mark.parametrize(
    ("kind", "field"), [(TaskKind.SURVEY, "field-form"), (TaskKind.TEST, "field-sample")]
)
async def test_a_line_that_is_filled_in_opens_at_its_field_with_one_key(
    demo: Path, tmp_path: Path, kind: TaskKind, field: str
) -> None:
    path = Path(shutil.copy(demo, tmp_path / "demo.headlap"))
    app = make_app(path, lambda: NOW)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _stand_on(hands, kind)
        await hands.press(OPEN)
        await hands.shows(PageName.SURVEY)
        await hands.until(lambda: app.focused is not None and app.focused.id == field)
        assert hands.pressed == 1


async def test_not_tonight_leaves_the_line_and_settles_nothing(demo: Path, tmp_path: Path) -> None:
    path = Path(shutil.copy(demo, tmp_path / "demo.headlap"))
    app = make_app(path, lambda: NOW)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        job = await _stand_on(hands, TaskKind.QUOTE)
        await hands.press(key("week", "put_off"))
        await hands.comes_to_rest()
        await hands.press(SAVE)
        await hands.hears("Back on")
        assert hands.pressed == 2
    assert query(path, "SELECT count(*) FROM put_off WHERE job_id = :job", job=job) == [(1,)]
    assert query(path, "SELECT count(*) FROM to_send WHERE job_id = :job", job=job) == [(0,)]


async def _stand_on(hands: Hands, kind: TaskKind) -> int:
    """Open every fold and put the cursor on the first line of a kind; return its job."""
    app = hands.app
    await until(hands.pilot, lambda: bool(app.screen.query(TonightList)))
    await hands.comes_to_rest()
    tonight = app.screen.query_one(TonightList)
    lines = tonight.query_one(LineList)
    for row in range(lines.count - 1, -1, -1):  # the last first: those above keep their places
        lines.cursor = row
        if isinstance(tonight.row_in_front, Fold):
            tonight.choose()
            await hands.comes_to_rest()
    for row in range(lines.count):
        lines.cursor = row
        task = tonight.task_in_front
        if task is not None and task.kind is kind and task.job_id is not None:
            return task.job_id
    raise AssertionError(f"the demo has no line of {kind}")


def _count(path: Path, line: Line, job: int) -> int:
    ((found,),) = query(path, line.settled, job=job)
    return int(str(found))
