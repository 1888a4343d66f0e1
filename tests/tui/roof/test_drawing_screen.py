"""The roof to scale: reached from the pages, its cut list and its pieces show each other."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from domain.job import CoveringChoice
from domain.page_names import PageName
from tests import builders
from tests.builders.parts import mm
from tests.tui.books.an_enquiry import app_on, book_at
from tests.tui.hands import Hands, key, turn_to, until
from tests.tui.sight import SIZES, click_on, cut_off, lines, sees
from tui.job.page_tabs import TABS
from tui.job.survey.takeoff_beside import TakeoffBeside
from tui.roof.cut_list_view import CutRows
from tui.roof.drawing_view import ZOOMS, RoofDrawing

DRAWING = key("job", "drawing")
BACK = key("drawing", "back")


async def _opened(pilot: Pilot[None]) -> Hands:
    """The drawing of the recorded roof, from its survey."""
    hands = Hands(pilot)
    await turn_to(pilot, hands.app, PageName.SURVEY)
    await hands.press(DRAWING)
    await sees(pilot, "slope 1, 7 courses")
    await until(pilot, lambda: bool(_roof(hands).chosen.marks) and _roof(hands).has_focus)
    return hands


def _roof(hands: Hands) -> RoofDrawing:
    return hands.app.screen.query_one(RoofDrawing)


def _list(hands: Hands) -> CutRows:
    return hands.app.screen.query_one(CutRows)


def _row(hands: Hands) -> str:
    return f"{_list(hands).rows[_list(hands).cursor].name} {_told(hands)}"


def _told(hands: Hands) -> str:
    return _list(hands).rows[_list(hands).cursor].rest.strip()


def _marked(hands: Hands) -> set[str]:
    return {str(mark) for mark in _roof(hands).chosen.marks}


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    return path


@pytest.mark.parametrize("size", SIZES)
async def test_it_opens_from_the_survey_and_shows_roof_ways_of_cutting_and_courses(
    path: Path, size: tuple[int, int]
) -> None:
    async with app_on(path).run_test(size=size) as pilot:
        hands = await _opened(pilot)
        await sees(pilot, "1,062", "ridge", "eaves 2,520", "╲")
        await sees(pilot, "42 strips, the fewest (proven): 3 packs.", "A  8 × │", "500, 750")
        await sees(pilot, "28 × │", "courses 1, 3 and 5  B2 │ 2 whole │ A1 −105")
        await sees(pilot, "A, 8 of it: A1 right end, odd courses 1–7. A2 19 ridge pieces")
        assert await cut_off(pilot) == []
        assert _marked(hands) == {"A1", "A2"}
        await hands.press(key("drawing", "turn"), "down", "down")
        await until(pilot, lambda: _roof(hands).chosen.marks == {None})
        await hands.press("down")
        await until(
            pilot,
            lambda: _roof(hands).chosen.courses == {(at, n) for at in (0, 1) for n in (1, 3, 5)},
        )
        await sees(pilot, "Courses 1, 3 and 5, from the left: B2; 2 whole strips; A1, trim 105 off")
        await hands.press(BACK)
        await sees(pilot, "ctrl+g next stage")


async def test_one_key_shows_the_fewest_strips_instead(tmp_path: Path) -> None:
    # 10 × 8 ft: 66 strips at the fewest, 67 by the plan to work by, four packs either way
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey(measures=builders.measures(length=mm(3048), span=mm(2438))))
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        await hands.press(DRAWING)
        await sees(pilot, "over the fewest (proven): 4 packs either way.")
        await hands.press(key("drawing", "fewest"))
        await sees(pilot, "The fewest strips (proven): ")
        assert await cut_off(pilot) == []
        await click_on(pilot, "s fewest")
        await sees(pilot, "over the fewest (proven): 4 packs either way.")


@pytest.mark.parametrize("size", SIZES)
async def test_a_roof_in_felt_has_its_lengths_and_rolls(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    # derived: rows of 2,520 with 50 turned down at each end, the upper at 925 − 50 up
    book_at(tmp_path / "felt.headlap", builders.survey(covering=CoveringChoice("felt")))
    async with app_on(tmp_path / "felt.headlap").run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        await hands.press(DRAWING)
        await sees(pilot, "slope 1, 2 rows", "875", "2,620  1, 2")
        await sees(pilot, "Slope 1, row 1: length of 2,620 mm with its laps, part a of roll 1")
        assert await cut_off(pilot) == []
        await hands.press(key("drawing", "turn"), "end")
        await sees(pilot, "Roll 2: 9,370 mm of 10,000 are left")


@pytest.mark.parametrize("size", SIZES)
async def test_a_piece_clicked_on_the_roof_tells_of_its_course_from_the_left(
    path: Path, size: tuple[int, int]
) -> None:
    async with app_on(path).run_test(size=size) as pilot:
        hands = await _opened(pilot)
        await click_on(pilot, "╲A1")
        await sees(pilot, "course 7, top edge to 1,062 mm: A2, trim 125 off the left; 2")
        await until(pilot, lambda: _told(hands).startswith("course 7 "))


async def test_arrows_go_over_the_roof_from_piece_to_piece(path: Path) -> None:
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _opened(pilot)
        await click_on(pilot, "╲A1")
        await hands.press("down")
        await sees(pilot, "Slope 1, course 6, top edge to 1,009 mm: 2 whole strips; B1")
        await hands.press(*["down"] * 12)
        await sees(pilot, "slope 2, 7 courses", "Slope 2, course 1")
        assert _roof(hands).scroll_offset.y > 0


async def test_page_keys_scroll_without_choosing(path: Path) -> None:
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _opened(pilot)
        chosen = _roof(hands).chosen
        await hands.press("pagedown")
        await until(pilot, lambda: _roof(hands).scroll_offset.y > 0)
        assert _roof(hands).chosen == chosen


@pytest.mark.long
async def test_it_is_drawn_larger_and_smaller_and_whole(path: Path) -> None:
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = await _opened(pilot)
        await pilot.pause()  # it suits itself to the window once it has been drawn
        first = _roof(hands).zoom
        await hands.press("plus")
        await until(pilot, lambda: _roof(hands).zoom == first + 1)
        await hands.press("minus", "minus")
        await until(pilot, lambda: _roof(hands).zoom == first - 1)
        await hands.press("plus", "plus", "f")
        await until(pilot, lambda: not _roof(hands).show_vertical_scrollbar)
        await sees(pilot, "slope 1", "slope 2")
        await hands.press(*["plus"] * 20)
        await until(pilot, lambda: _roof(hands).zoom == len(ZOOMS) - 1)
        await hands.press(*["minus"] * 20)
        await until(pilot, lambda: _roof(hands).zoom == 0)


async def test_the_lengths_of_felt_stand_beside_the_roof_from_100_columns_up(
    tmp_path: Path,
) -> None:
    book_at(tmp_path / "felt.headlap", builders.survey(covering=CoveringChoice("felt")))
    async with app_on(tmp_path / "felt.headlap").run_test(size=(99, 40)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        await hands.press(DRAWING)
        await sees(pilot, "slope 1, 2 rows")
        assert _list(hands).region.y > _roof(hands).region.y
        await pilot.resize_terminal(100, 40)
        await until(pilot, lambda: _list(hands).region.x > _roof(hands).region.x)


async def test_the_take_off_leads_to_it_by_mouse(path: Path) -> None:
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        await click_on(pilot, "F10 take-off")
        await sees(pilot, "ctrl+d drawing", "Take-off")
        await click_on(pilot, "ctrl+d drawing")
        await sees(pilot, "slope 1, 7 courses")


@pytest.mark.parametrize("page", [name for name in TABS if name is not PageName.ENQUIRY])
async def test_every_page_of_a_surveyed_job_leads_to_it(path: Path, page: PageName) -> None:
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, page)
        await hands.press(DRAWING)
        await sees(pilot, "the roof to scale  0001")


async def test_the_survey_draws_the_roof_as_it_is_typed(path: Path) -> None:
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        hands.form.put("length", "3 m")
        await sees(pilot, "3,120 mm")
        await until(pilot, lambda: not hands.app.screen.query_one(TakeoffBeside).behind)
        await hands.press(DRAWING)
        await sees(pilot, "0001, as typed", "eaves 3,120")


async def test_what_is_typed_elsewhere_is_not_drawn(path: Path) -> None:
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        hands.form.put("length", "9 m")
        await hands.press("pagedown", DRAWING)
        await hands.hears("Save what you typed")


async def test_it_opens_with_the_first_way_of_cutting_in_view(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    tall = builders.measures(span=mm(4000), rise=mm(1000))
    book_at(path, builders.survey(measures=tall))
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        await hands.press(DRAWING)
        await sees(pilot, "A1╲")
        assert _roof(hands).scroll_offset.y > 0


async def test_without_a_survey_it_says_what_is_missing(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        await hands.press(DRAWING)
        await hands.hears("fill in the survey and choose the covering")


async def test_the_survey_shows_the_roof_small_as_it_is_typed(path: Path) -> None:
    async with app_on(path).run_test(size=(120, 40)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        await until(pilot, lambda: _small(hands) == 8)  # 7 courses and a ridge, two to a line
        hands.form.put("span", "3 m")
        await until(pilot, lambda: _small(hands) == 12)
        hands.form.put("span", "")
        await until(pilot, lambda: _small(hands) == 0)


async def test_the_narrow_survey_has_no_room_for_it(path: Path) -> None:
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, hands.app, PageName.SURVEY)
        await sees(pilot, "3 packs of 21")
        assert _small(hands) == 0


def _small(hands: Hands) -> int:
    """How many lines of the window show the small roof: below the heading, right of the form."""
    return sum("▀" in line[86:] for line in lines(hands.app)[8:])
