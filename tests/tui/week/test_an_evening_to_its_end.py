"""One evening with a line of nearly every kind, each settled from the list in a few keys.

source: the project's own aims. Keys are counted, cursor keys with them; words are typed apart. That
a line is settled is read in the book by plain SQL, and that the cursor stands on the next one then.
What fails prints the keys, what the screen said, and what the book had before and after.
"""

from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from pathlib import Path
from typing import TypeAlias

import pytest

from domain.days.forecast_line import read_line
from domain.job import Cover, Stage
from domain.trader import Rates
from domain.week import Task, TaskKind
from domain.week.evening import Fold, Inside, Row
from tests.storage.books import query
from tests.storage.evenings import Evening
from tests.tui.hands import Clock, Hands, key, said
from tui.shell.app import make_app
from tui.week.tonight_list import TonightList
from tui.week.week_screen import WeekScreen
from tui.widgets.line_list import LineList

pytestmark = pytest.mark.long

TODAY = date(2026, 6, 24)
OPEN, SAVE, NEXT = key("week", "open"), key("dialog", "save"), key("job", "next_stage")
MOST = 3
_Known: TypeAlias = tuple[TaskKind | None, int | None]
_WORDS = "'"
"""What stands behind it is typed and not counted."""


@dataclass(frozen=True)
class Line:
    """A line, the keys that settle it, and where the book then says so."""

    kind: TaskKind
    place: str
    keys: Sequence[str]
    settled: str
    """Is another number of the job ``:job`` than before."""
    most: int = MOST
    stays: bool = False
    """Whether another line of the same kind and job follows: marking as sent what was issued."""


def _stage(stage: Stage) -> str:
    return f"SELECT stage = '{stage.value}' FROM job WHERE id = :job"  # noqa: S608 -- ours


_DAYS = "SELECT count(*) FROM booking WHERE job_id = :job"
_CHASE = "SELECT count(*) FROM chase WHERE job_id = :job"
_PUT_OFF = "SELECT count(*) FROM put_off WHERE job_id = :job"
_STRIP = "SELECT count(*) FROM strip WHERE job_id = :job AND cover = '{}'"

LINES = (
    Line(TaskKind.SHEET, "Open", (OPEN, "s", SAVE), _STRIP.format(Cover.SHEETED)),
    Line(TaskKind.TARPAULIN, "Windy", (OPEN, key("tied_down", "save")), _PUT_OFF),
    Line(TaskKind.CLOSED, "Today", (OPEN, SAVE), _STRIP.format(Cover.LAID)),
    Line(
        TaskKind.REQUEST,
        "Early",
        (OPEN, "t", SAVE),
        "SELECT count(early_request_on) FROM acceptance JOIN quote ON quote.id = quote_id "
        "WHERE job_id = :job AND knows_right_ends",
    ),
    Line(
        TaskKind.EXPIRED,
        "",
        (OPEN, "'31 Mar 2029", SAVE),
        "SELECT count(*) FROM trader WHERE liability_expires = '2029-03-31' OR :job",
    ),
    Line(TaskKind.LAID, "Laid", (OPEN, NEXT), _stage(Stage.LAID)),
    Line(
        TaskKind.LAID,
        "To tick",
        (OPEN, key("laid", "tick_all"), SAVE),
        "SELECT count(*) FROM lay WHERE job_id = :job",
    ),
    Line(
        TaskKind.INVOICE,
        "Invoice",
        (OPEN, key("issue", "save")),
        "SELECT count(*) FROM document WHERE job_id = :job",
        stays=True,
    ),
    Line(
        TaskKind.EXTRA,
        "Extra",
        (OPEN, "s", SAVE),
        "SELECT count(*) FROM extra WHERE job_id = :job AND state = 'agreed' AND means = 'signed'",
    ),
    Line(
        TaskKind.DEPOSIT,
        "Deposit",
        (key("week", "draft"), key("issue", "save"), key("week", "send")),
        "SELECT count(sent_on) FROM to_send WHERE paper = 'invoice' AND job_id = :job",
    ),
    Line(
        TaskKind.OVERDUE,
        "Paid",
        (OPEN, key("chase", "payment"), SAVE),
        "SELECT count(*) FROM payment WHERE job_id = :job",
    ),
    Line(TaskKind.OVERDUE, "Late", (OPEN, key("chase", "copy")), _CHASE),
    Line(TaskKind.WENT_AHEAD, "Done", (OPEN, "down", "'nothing", SAVE), _STRIP.format(Cover.LAID)),
    Line(TaskKind.WENT_AHEAD, "Part", (OPEN, "p", SAVE), _STRIP.format(Cover.SHEETED)),
    *(
        Line(TaskKind.WENT_AHEAD, place, (OPEN, place[0].lower(), SAVE), _DAYS)
        for place in ("Rained", "Customer", "Ill", "Van", "Materials")
    ),
    Line(TaskKind.WENT_AHEAD, "Laying", (OPEN, SAVE), _STRIP.format(Cover.LAID)),
    Line(
        TaskKind.USED,
        "Used",
        (key("week", "used"), key("used", "accept_all")),
        "SELECT count(*) FROM usage WHERE job_id = :job",
    ),
    Line(TaskKind.BOOKED, "Agreed", (OPEN, NEXT), _stage(Stage.BOOKED)),
    Line(TaskKind.BOOK, "No day", (OPEN, "'30 Jun", SAVE), _DAYS),
    Line(TaskKind.LAYING, "Sheeted", (OPEN, "'2 Jul", SAVE), f"{_DAYS} AND task = 'lay'"),
    Line(TaskKind.SIGN_OFF, "Word", (OPEN, "'Mrs Word", SAVE, NEXT), _stage(Stage.SIGNED_OFF)),
    Line(
        TaskKind.SNAG,
        "Snag",
        (OPEN, SAVE),
        "SELECT count(done_on) FROM snag WHERE job_id = :job",
    ),
    Line(
        TaskKind.QUOTE,
        "Price",
        (OPEN, "'14", key("quote", "price"), "escape"),
        "SELECT count(*) FROM quote WHERE job_id = :job",
        stays=True,
    ),
    Line(TaskKind.RUNS_OUT, "Soon", (OPEN, key("quote_call", "no_answer")), _PUT_OFF),
    Line(TaskKind.RAN_OUT, "Nobody", (OPEN, key("quote_call", "no_answer")), _PUT_OFF),
    Line(
        TaskKind.RAN_OUT,
        "Nothing",
        (OPEN, key("quote_call", "came_to_nothing")),
        "SELECT count(ended) FROM job WHERE id = :job",
    ),
    Line(
        TaskKind.RAN_OUT,
        "Renew",
        (OPEN, key("quote_call", "renew"), SAVE),
        "SELECT count(sent_on) FROM quote WHERE job_id = :job AND number = 2",
    ),
    Line(
        TaskKind.ARRANGE,
        "Arrange",
        (OPEN, "'30 Jun", SAVE),
        "SELECT count(visit_on) FROM job WHERE id = :job",
    ),
    Line(
        TaskKind.ARRANGE,
        "Time",
        (OPEN, "'half 9", SAVE),
        "SELECT count(visit_at) FROM job WHERE id = :job",
    ),
    Line(
        TaskKind.RENEW,
        "",
        (OPEN, "'31 Mar 2031", SAVE),
        "SELECT count(*) FROM trader WHERE waste_expires = '2031-03-31' OR :job",
    ),
    Line(
        TaskKind.RATES,
        "",
        (OPEN, key("trader", "confirm")),
        "SELECT json_array_length(rates, '$.confirmed') + :job FROM trader",
    ),
)


def _lay_out(path: Path) -> None:
    """A job for each of the lines, and a windy night."""
    evening = Evening(path, TODAY)
    with closing(evening.book) as book:
        gone, ahead = -1, 5
        for place in ("Arrange", "Time"):
            evening.asked(place, None if place == "Arrange" else 3, at=False)
        evening.moved(evening.surveyed(evening.asked("Price")), Stage.SURVEY)
        for place, left in (("Soon", 1), ("Nobody", -2), ("Nothing", -3), ("Renew", -4)):
            job = evening.moved(evening.surveyed(evening.asked(place)), Stage.SURVEY)
            evening.moved(evening.sent(job, valid=left), Stage.QUOTED)
        evening.ready("No day")
        evening.booked(evening.ready("Agreed"), 6)
        evening.moved(evening.booked(evening.ready("Deposit", deposit=50_00), 7), Stage.BOOKED)
        evening.booked(evening.ready("Early", early=False, agreed=-3), ahead)
        for place in ("Done", "Part", "Rained", "Customer", "Ill", "Van", "Materials"):
            evening.moved(evening.booked(evening.ready(place), gone), Stage.BOOKED)
        evening.moved(evening.booked(evening.ready("Today"), 0), Stage.BOOKED)
        for place, cover in (("Open", Cover.OPEN), ("Windy", Cover.SHEETED)):
            job = evening.moved(evening.booked(evening.ready(place), gone, ahead), Stage.BOOKED)
            evening.moved(evening.stripped(job, gone, cover), Stage.STRIPPED)
        job = evening.moved(evening.booked(evening.ready("Sheeted"), gone), Stage.BOOKED)
        evening.moved(evening.stripped(job, gone), Stage.STRIPPED)
        job = evening.moved(evening.booked(evening.ready("Laying"), -3, gone), Stage.BOOKED)
        evening.moved(evening.stripped(job, -3), Stage.STRIPPED)
        for place, laid in (("To tick", False), ("Used", True), ("Laid", True)):
            job = evening.moved(evening.booked(evening.ready(place), gone), Stage.BOOKED)
            job = evening.moved(evening.stripped(job, gone, Cover.LAID), Stage.STRIPPED)
            if laid:
                evening.laid(job, gone, used=place == "Laid")
        job = evening.moved(evening.booked(evening.ready("Extra"), gone, ahead), Stage.BOOKED)
        evening.found_extra(evening.moved(evening.stripped(job, gone), Stage.STRIPPED))
        evening.done("Invoice")
        for place, issued in (("Paid", -18), ("Late", -30), ("Word", -2), ("Snag", -2)):
            job = evening.invoiced(evening.done(place), issued)
            if place in ("Word", "Snag"):
                job = evening.paid(job)
            if place == "Snag":
                evening.found_snag(job)
        soon, later = evening.day(2), evening.day(20)
        papers = replace(book.trader(), liability_expires=soon, waste_expires=later)
        book.save_trader(replace(papers, rates=Rates()))
        book.save_forecasts(read_line("forecast", "d@40", TODAY))


async def test_every_line_is_settled_from_the_list_and_the_next_is_in_front(
    tmp_path: Path,
) -> None:
    path, told = tmp_path / "book.headlap", list[str]()
    _lay_out(path)
    app = make_app(path, Clock(datetime.combine(TODAY, time(19))))
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.until(lambda: bool(app.screen.query(TonightList)))
        for line in LINES:
            await _open_folds(hands)
            following = _stand_on(hands, line)
            job = _in_front(hands).job_id or 0
            before, pressed = query(path, line.settled, job=job), 0
            for each in line.keys:
                if each.startswith(_WORDS):
                    await hands.type_in(each.removeprefix(_WORDS))
                else:
                    pressed += 1
                    await hands.press(each)
                await hands.comes_to_rest()
                told.append(f"{line.place}  {each}: {said(app) or type(app.screen).__name__}")
            after = query(path, line.settled, job=job)
            told.append(f"    {line.settled}: {before} → {after}")
            assert after != before, "\n".join(told)
            assert isinstance(app.screen, WeekScreen), "\n".join(told)
            assert pressed <= line.most, "\n".join(told)
            front = _known_by(app.screen.query_one(TonightList).row_in_front)
            told.append(f"    then in front: {front}")
            left = set(map(_known_by, app.screen.query_one(TonightList)._rows))
            still = [each for each in following if each in left]
            wanted = (line.kind, job) if line.stays else still[0] if still else front
            assert front == wanted, "\n".join((*told, f"not {wanted}"))
    print("\n".join(told))


async def _open_folds(hands: Hands) -> None:
    """Open every line that stands for several."""
    await hands.comes_to_rest()
    tonight = hands.app.screen.query_one(TonightList)
    lines = tonight.query_one(LineList)
    for row in range(lines.count - 1, -1, -1):  # the last first: those above keep their places
        fold = tonight._rows[row]
        if isinstance(fold, Fold) and fold.kind not in tonight._opened:
            lines.cursor = row
            tonight.choose()
            await hands.comes_to_rest()


def _stand_on(hands: Hands, line: Line) -> list[_Known]:
    """Put the cursor on a line, and return what stands on those that follow."""
    tonight = hands.app.screen.query_one(TonightList)
    words = []
    for row, shown in enumerate(tonight._rows):
        task = _task_of(shown)
        if task is None:
            continue
        if task.kind is line.kind and task.who.endswith(f", {line.place}" if line.place else ""):
            tonight.query_one(LineList).cursor = row
            return [_known_by(each) for each in tonight._rows[row + 1 :]]
        words.append(f"{task.words}, {task.who}")
    raise AssertionError(f"no line of {line.kind} of {line.place} in {words}")


def _task_of(row: Row | None) -> Task | None:
    return row.task if isinstance(row, Inside) else row if isinstance(row, Task) else None


def _known_by(row: Row | None) -> _Known:
    """The kind of a line and its job; no job for one that stands for several."""
    task = _task_of(row)
    if task is None:
        return (row.kind if isinstance(row, Fold) else None, None)
    return (task.kind, task.job_id or 0)


def _in_front(hands: Hands) -> Task:
    task = hands.app.screen.query_one(TonightList).task_in_front
    assert task is not None
    return task
