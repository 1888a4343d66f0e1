"""The roof on paper: well formed, in black and white, to scale, nothing cut off."""

import re
from collections import Counter
from collections.abc import Iterator
from xml.etree import ElementTree

import pytest
from hypothesis import given

from domain.coverings.felt import FELT
from domain.drawing.draw_roof import draw_roof
from domain.papers.blocks import Picture
from domain.setting_out.forms.roof import build_roof
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off, worked_out
from domain.takeoff.surveyfile import read_survey_file
from tests.domain.drawing.roofs import apex, hip, takeoffs
from tests.examples import examples
from tests.site_sheets import site_sheet_of
from tui.roof.svg import drawing_svg
from tui.roof.svg_elements import text
from tui.roof.svg_site import site_svg

SVG = "{http://www.w3.org/2000/svg}"
PAPER_WIDTH, MOST_HEIGHT = 180, 215  # mm: A4 with 15 mm at the sides, a heading above


def svg_of(takeoff: ShingleTakeOff) -> ElementTree.Element:
    return ElementTree.fromstring(drawing_svg(draw_roof(takeoff)))  # noqa: S314  it is our own


def size_of(svg: ElementTree.Element) -> tuple[int, int]:
    left, top, width, height = map(int, svg.attrib["viewBox"].split())
    assert (left, top) == (0, 0)
    return width, height


def words_of(svg: ElementTree.Element) -> list[str]:
    return [text.text or "" for text in svg.iter(f"{SVG}text")]


def points_of(svg: ElementTree.Element) -> Iterator[tuple[int, int]]:
    """Every corner of every figure, on the page."""
    for group in svg.iter(f"{SVG}g"):
        x, y = map(int, re.findall(r"-?\d+", group.attrib["transform"]))
        for polygon in group.iter(f"{SVG}polygon"):
            for point in polygon.attrib["points"].split():
                u, v = map(int, point.split(","))
                yield x + u, y + v


@examples(15)
@given(takeoffs())
def test_every_mark_is_written_on_its_piece_and_all_is_on_the_page(takeoff: ShingleTakeOff) -> None:
    drawing = draw_roof(takeoff)
    svg = svg_of(takeoff)
    width, height = size_of(svg)
    marks = Counter(str(p.mark) for p in drawing.pieces if p.mark and p.exposed)
    written = Counter(words for words in words_of(svg) if re.fullmatch(r"[A-Z]+\d+", words))
    assert written == marks
    assert height * PAPER_WIDTH <= width * MOST_HEIGHT
    assert all(0 <= x <= width and 0 <= y <= height for x, y in points_of(svg))


@pytest.mark.parametrize("takeoff", [apex(), hip()])
def test_it_is_drawn_to_the_scale_that_it_tells(takeoff: ShingleTakeOff) -> None:
    svg = svg_of(takeoff)
    [scale] = [words for words in words_of(svg) if words.startswith("1 : ")]
    assert size_of(svg)[0] == PAPER_WIDTH * int(scale.removeprefix("1 : ").removesuffix(" on A4"))


@pytest.mark.parametrize("takeoff", [apex(), hip()])
def test_it_says_all_without_colour(takeoff: ShingleTakeOff) -> None:
    svg = svg_of(takeoff)
    inks = {each.attrib.get(ink, "none") for each in svg.iter() for ink in ("fill", "stroke")}
    coloured = {
        ink
        for ink in inks - {"none", "black", "white"}
        if not re.fullmatch(r"url\(#(left|right|row)\)|#(..)\2\2", ink)
    }
    assert coloured == set()
    assert {"url(#left)", "url(#right)"} <= inks


def test_a_roof_in_felt_has_its_lengths_and_its_capping() -> None:
    # derived: two rows a slope, the upper from 925 − 50 up
    drawing = draw_roof(take_off(apex().roof, FELT))
    svg = ElementTree.fromstring(drawing_svg(drawing))  # noqa: S314  it is our own
    words = words_of(svg)
    assert [w for w in words if re.fullmatch(r"\d[a-z]", w)] == ["1a", "1b", "1c", "1d", "2a"]
    assert [w for w in words if w.startswith("Slope")] == [
        "Slope 1: 2 rows, 1,062 up",
        "Slope 2: 2 rows, 1,062 up",
    ]
    assert words.count("875") == 2
    assert "capping, laid last" in words


def test_a_shed_has_its_measures_and_slopes_beside_the_figures() -> None:
    # worked example: the chalk lines of an apex of 2520 along the eaves, 1062 up
    words = words_of(svg_of(apex()))
    assert [w for w in words if w.startswith("Slope")] == [
        "Slope 1: 7 courses, 1,062 up",
        "Slope 2: 7 courses, 1,062 up",
    ]
    assert words.count("eaves 2,520") == 2
    chalk = ["1,062", "1,009", "875", "742", "608", "474", "340"]
    assert [w for w in words if w in chalk] == chalk * 2


def test_words_in_a_drawing_are_text_whatever_they_look_like() -> None:
    drawn = text((0, 0), "<b>&\"'", 10, fill='"/><b>')
    assert drawn.count("<") == 2
    read = ElementTree.fromstring(drawn)  # noqa: S314  our own drawing
    assert (read.text, read.get("fill")) == ("<b>&\"'", '"/><b>')


def test_on_the_site_sheet_no_pile_is_written_over_the_edges_of_its_piece() -> None:
    # A barn 3,100 long: 120 and 125 wide ends, on paper narrower than their piles.
    upper = "upper_run = '800 mm'\nupper_rise = '400 mm'\n"
    barn = f"form = 'barn'\nlength = '3.1 m'\nlower_run = '400 mm'\nlower_rise = '700 mm'\n{upper}"
    survey = read_survey_file(f"covering = 'square-butt'\n[roof]\n{barn}")
    takeoff = worked_out(take_off(build_roof(survey.measures), survey.covering))
    [picture] = [b for b in site_sheet_of(takeoff).blocks if isinstance(b, Picture)]
    svg = ElementTree.fromstring(site_svg(picture))  # noqa: S314  it is our own
    beside = Counter[str]()
    for mark in (
        each for each in svg.iter(f"{SVG}text") if re.fullmatch(r"[A-Z]\d", each.text or "")
    ):
        anchor, x = mark.attrib["text-anchor"], int(mark.attrib["x"])
        assert {"end": x < 0, "start": x > 3100, "middle": 0 < x < 3100}[anchor]
        beside[anchor] += 1
    assert beside["end"]
    assert beside["start"]
