"""What was used: counted row by row by keys and by mouse, recorded and in stock."""

from decimal import Decimal
from pathlib import Path

import pytest

from domain.coverings.materials import Material
from domain.estimate.stock import StockLine, StockMove
from domain.estimate.usage import Outcome, estimate
from domain.job import Job, Stage, Usage
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.tui.books.a_job_at_a_stage import NOW, app_on, by_another_hand, carried_to
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, lines, place_of, sees
from tui.job.materials.materials_page import MaterialsPage
from tui.job.materials.materials_rows import (
    bar,
    confirm,
    detail,
    material_rows,
    put,
    stepped,
    stepped_by_pack,
    typed,
)
from tui.week.week_screen import WeekScreen

MORE, LESS = key("used", "step(1)"), key("used", "step(-1)")
COLUMN, ALL = key("used", "next_part"), key("used", "accept_all")


def _used(job: Job) -> dict[str, Usage]:
    return {usage.element: usage for usage in job.usages}


def _stock(path: Path) -> tuple[StockLine, ...]:
    book = Book.open(path, lambda: NOW)
    try:
        return book.stock()
    finally:
        book.close()


@pytest.mark.parametrize("size", SIZES)
async def test_rows_are_counted_by_keys_and_what_is_left_goes_to_the_stock(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        assert await cut_off(pilot) == []
        await hands.press("5", "x", "3", COLUMN, "2", "enter")  # 53 used, 2 wasted
        await hands.press(LESS, MORE, MORE, "down", "down", MORE)  # a metre; a quarter of an hour
        await sees(pilot, "0.25 over the estimate")
        assert await cut_off(pilot) == []
        await hands.press(ALL)
        await hands.hears("Saved: materials and hours used. Leftovers are in stock.")
        assert await cut_off(pilot) == []
    used = _used(read_again(path))
    estimated = {row.element: row.estimated for row in estimate(priced.quote().counting.basis)}
    assert used["strips"] == Usage(
        # source: the trade specification's worked example, 55 strips in three packs of 21; read.
        "strips",
        "strip",
        Decimal(55),
        Decimal(53),
        Decimal(2),
        Decimal(8),
        id=used["strips"].id,
    )
    over = {e: u.used - estimated[e] for e, u in used.items() if u.used != estimated[e]}
    assert over == {"strips": -2, "underlay": 1, "hours-strip": Decimal("0.25")}
    assert StockLine(Material("square-butt"), "slate grey", Decimal(8)) in _stock(path)


@pytest.mark.parametrize("size", SIZES)
async def test_rows_are_counted_by_mouse(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        await click_on(pilot, "underlay m")
        await click_on(pilot, "→ more")
        await pilot.pause()
        left = place_of(app, "left over")
        await pilot.click(offset=(left.x + 8, place_of(app, "shingles").y))
        await sees(pilot, "▾left over")
        assert hands.rows.cursor == 0
        await click_on(pilot, "← less")
        await hands.press(key("used", "next_part"))  # at 80 columns its words have no room
        await sees(pilot, "▾returned")
        assert await cut_off(pilot) == []
        await click_on(pilot, f"{ALL} accept all")
        await hands.hears("Saved: materials and hours used.")
    used = _used(read_again(path))
    assert used["underlay"].used == used["underlay"].estimated + 1
    assert [used["strips"].used, used["strips"].left] == [55, 7]


async def test_recorded_again_the_stock_moves_by_the_difference(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        for figures in ("53", "60"):
            await hands.press("home", *figures, ALL)
            await hands.until(lambda: not app.screen.query_one(MaterialsPage).dirty)
            await hands.hears("Saved: materials and hours used.")
    strips = _used(read_again(path))["strips"]
    assert [strips.used, strips.left] == [60, 3]
    assert StockLine(Material("square-butt"), "slate grey", Decimal(3)) in _stock(path)


def _taken_out(book: Book, job: Job) -> Job:
    book.move_stock(
        StockMove(
            Material("square-butt"), "slate grey", Decimal(-8), NOW.date(), "taken to The Green"
        )
    )
    return job


@pytest.mark.parametrize("size", SIZES)
async def test_a_stock_that_held_too_little_is_told_and_stands_at_nothing(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        await hands.press(*"53", ALL)  # 10 of 63 are left over
        await hands.hears("Leftovers are in stock.")
        by_another_hand(path, _taken_out)
        await hands.press("home", *"60", ALL)  # 3 are, and 2 are there
        await hands.hears("Saved. Stock was 5 strips of square butt shingles, slate grey, short.")
        assert await cut_off(pilot) == []
    assert Material("square-butt") not in {line.material for line in _stock(path)}


async def test_a_figure_is_corrected_and_an_absurd_one_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        await hands.press(*"5.5")
        await hands.hears("Give a whole number.")
        await hands.press("backspace", "4")
        await sees(pilot, "54 used")
        await hands.press("down", *"9999999")
        await hands.hears("Give a number from 0 to 100,000.")
        assert await cut_off(pilot) == []
        await hands.press("escape")
        await hands.hears("Unsaved changes in materials")
        await hands.press("escape")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
    assert read_again(path).usages == ()


async def test_no_letter_behind_a_figure_is_a_command(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        before = app.screen
        await hands.press(*"53 a pack new")
        await hands.hears("Type figures only here.")
        assert app.screen is before
        assert hands.rows.cursor == 0
        assert await cut_off(pilot) == []
    assert read_again(path).usages == ()


async def test_rows_nobody_looked_at_are_not_recorded_at_the_first_save(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        await hands.press(*"54", "enter", key("job", "save"))
        await sees(pilot, "rows are still as estimated, not accepted")
        await hands.hears("rows as estimated, underlay first? ctrl+s again to save.")
        assert await cut_off(pilot) == []
        assert read_again(path).usages == ()
        await hands.press(key("job", "save"))
        await hands.hears("Saved: materials and hours used.")
    assert _used(read_again(path))["strips"].used == Decimal(54)


async def test_without_a_quote_it_says_what_comes_first(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        await hands.press(MORE, "5", COLUMN, "enter", "shift+right", ALL)
        await hands.hears("Price the job first")
        assert any("No quote yet. Price the job" in line for line in lines(app))
        assert await cut_off(pilot) == []
    assert read_again(path).usages == ()


def _rows() -> dict[str, int]:
    return {
        row.usage.element: n for n, row in enumerate(material_rows(priced.laid_job(priced.quote())))
    }


def test_nothing_goes_under_none_however_often_it_is_stepped() -> None:
    for row in material_rows(priced.laid_job(priced.quote())):
        for part in row.parts:
            least = row
            for _ in range(200):
                least = stepped(least, part, -1)
            assert put(least, part, Decimal(-3)) == least
            quantities = (least.usage.used, least.usage.wasted, least.usage.left)
            assert min(*quantities, least.usage.returned) >= 0


def test_a_pack_is_as_many_as_it_was_priced_with() -> None:
    job = priced.laid_job(priced.quote())
    assert job.quote is not None
    strips = material_rows(job)[_rows()["strips"]]
    more = stepped_by_pack(strips, Outcome.RETURNED, 1, job.quote.counting.basis)
    assert more.usage.returned == priced.PRICES[0].per_pack == 21
    hours = material_rows(job)[_rows()["hours-lay"]]
    assert (
        stepped_by_pack(hours, Outcome.USED, 1, job.quote.counting.basis).usage.used
        == hours.usage.used + 1
    )


@pytest.mark.parametrize(("figures", "used"), [("", "0"), (".", "0"), (".5", "0.5"), ("7.", "7")])
def test_figures_are_read_as_far_as_they_are_typed(figures: str, used: str) -> None:
    underlay = material_rows(priced.laid_job(priced.quote()))[_rows()["underlay"]]
    assert typed(confirm(underlay), Outcome.USED, figures).usage.used == Decimal(used)
    assert not typed(confirm(underlay), Outcome.USED, figures).accepted


@pytest.mark.parametrize(
    ("used", "words"),
    [
        ("55", "as estimated; of 63 strips taken: 55 used, 8 left over"),
        ("66", "11 over the estimate; of 66 strips taken: 66 used"),
        ("67", "▲ over 20% above estimate: 12 over the estimate; of 67 strips taken: 67 used"),
        ("0", "55 under the estimate; of 63 strips taken: 63 left over"),
    ],
)
def test_a_row_is_told_against_its_estimate(used: str, words: str) -> None:
    strips = material_rows(priced.laid_job(priced.quote()))[_rows()["strips"]]
    assert detail(put(strips, Outcome.USED, Decimal(used)))[0] == words


@pytest.mark.parametrize("used", ["0", "1", "54", "55", "56", "100000"])
@pytest.mark.parametrize("width", [0, 1, 6, 40])
def test_the_bar_never_leaves_its_cells(used: str, width: int) -> None:
    strips = material_rows(priced.laid_job(priced.quote()))[_rows()["strips"]]
    cells = bar(put(strips, Outcome.USED, Decimal(used)), width)
    assert min(cells) >= 0
    assert sum(cells) == width
    assert bool(cells[1]) is (Decimal(used) > 55 and width > 0)


def test_what_was_recorded_stands_as_it_was() -> None:
    job = builders.job_at(Stage.LAID)
    assert tuple(row.usage for row in material_rows(job)) == job.usages
    assert all(row.accepted for row in material_rows(job))
    assert material_rows(builders.job_at(Stage.SURVEY)) == ()


async def test_figures_not_saved_are_not_taken_for_the_save_before_them(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        await hands.press("5", key("anywhere", "undo"))
        await hands.hears("These figures are not saved yet: ctrl+s saves them.")
        await hands.press(key("anywhere", "undo"))
        await hands.comes_to_rest()
        await sees(pilot, "50 under the estimate")
    assert read_again(path).stage is Stage.STRIPPED
