"""The site sheet: what stands on it and in which order, and on how many pages of A4."""

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest

from domain.checks.reminders import FIRST
from domain.checks.stages import CHECKS
from domain.job import DeckState, Job, OldCovering, OldKind, Stage, Suspicion
from domain.papers.blocks import (
    Block,
    Cuts,
    Laying,
    Measures,
    Paper,
    Picture,
    Step,
    Ticks,
    Words,
)
from domain.papers.load_list import load_list
from domain.papers.shared_parts import numbered
from domain.setting_out.forms.roof import build_roof
from domain.takeoff.roof_takeoff import TakeOff, take_off, worked_out
from domain.takeoff.surveyfile import read_survey_file
from domain.tone import Tone
from domain.trader import WeatherLimits
from tests import builders, priced
from tests.domain.papers.reading import words_of
from tests.site_sheets import load_for, site_sheet_of
from tests.tui.papers.pdf import pages_of, sizes_of
from tui.papers.as_pdf import pdf_of
from tui.papers.as_text import plain_text

_OVER = 'eaves_overhang = "50 mm"\nverge_overhang = "60 mm"\n'
_SHED = f'length = "8 ft"\nspan = "6 ft"\npitch = "26.6 deg"\n{_OVER}'
_WING = '[[roof.slope]]\nlength = "1.4 m"\nfinish = "ridge"\n'
_SLOPE = 'eaves = "2.4 m"\ntop = "3.6 m"\nlength = "1.4 m"\nfinish = "ridge"\n'
SURVEYS = {
    "pent": 'form = "pent"\nlength = "7 ft"\nspan = "5 ft"\npitch = "16 deg"\n' + _OVER,
    "apex": f'form = "apex"\n{_SHED}',
    "garage": f'form = "apex"\nlength = "6 m"\nspan = "3 m"\npitch = "25 deg"\n{_OVER}',
    "barn": 'form = "barn"\nlength = "3 m"\nlower_run = "400 mm"\nlower_rise = "700 mm"\n'
    f'upper_run = "800 mm"\nupper_rise = "400 mm"\n{_OVER}',
    "hip": 'form = "hip"\nlength = "3.6 m"\nspan = "2.4 m"\npitch = "30 deg"\n',
    "octagon": 'form = "pyramid"\nsides = 8\nside = "1.2 m"\npitch = "30 deg"\n',
    "ell": f'form = "slopes"\n[[roof.slope]]\n{_SLOPE}inset = "0 mm"\nright_edge = "valley"\n'
    f'[[roof.slope]]\n{_SLOPE}inset = "-1.2 m"\nleft_edge = "valley"\n',
}
SURVEYS["whole ell"] = SURVEYS["ell"] + "".join(
    f'{_WING}eaves = "{long} m"\ntop = "{long} m"\n' for long in (2.4, 3.6)
)


@cache
def _roof(name: str, covering: str = "square-butt") -> TakeOff:
    survey = read_survey_file(f'covering = "{covering}"\n[roof]\n{SURVEYS[name]}')
    return worked_out(take_off(build_roof(survey.measures), survey.covering, survey.packing))


@cache
def _sheet(name: str, covering: str = "square-butt") -> Paper:
    return site_sheet_of(_roof(name, covering))


def _only(paper: Paper, kind: type[Block]) -> list[Block]:
    return [block for block in paper.blocks if isinstance(block, kind)]


def _step(paper: Paper, heading: str) -> str:
    [found] = [b for b in paper.blocks if isinstance(b, Step) and b.heading.endswith(heading)]
    return " ".join(found.rows)


def _of(job: Job) -> Paper:
    return site_sheet_of(priced.worked_example(), job)


def test_equal_slopes_share_their_chalk_lines_and_they_are_whole_millimetres() -> None:
    [lines] = _only(site_sheet_of(priced.worked_example()), Measures)
    assert isinstance(lines, Measures)
    assert lines.heading == "Chalk lines, slopes 1 and 2: up from the deck edge at the eaves"
    # 340.00, 473.86, 607.71 … 1062.00 of the worked example (setting out, section 10; quoted).
    measures = ["340", "474", "608", "742", "875", "1,009", "1,062"]
    assert lines.rows == tuple((str(n), mm) for n, mm in enumerate(measures, start=1))


def test_the_order_of_the_sheet_is_the_order_of_the_work() -> None:
    heads = [h for b in _sheet("apex").blocks if re.match(r"\d", h := getattr(b, "heading", ""))]
    assert heads == [
        "1  Load the materials",
        "2  Load the tools",
        "3  Strip, and mend the deck",
        "4  Cut 14 strips",
        "5  Underlay",
        "6  Edge strips",
        "7  Strike the lines",
        "8  Mastic, before course 1",
        "9  Lay the courses, from the left",
        "10  Ridge",
        "11  Before you leave",
    ]


def test_like_ways_of_cutting_and_laying_stand_once() -> None:
    # As short as was found possible: two lines of cutting and three of laying.
    [cuts], [laying] = _only(_sheet("apex"), Cuts), _only(_sheet("apex"), Laying)
    assert isinstance(cuts, Cuts)
    assert [(row.times, row.cuts) for row in cuts.rows] == [
        (8, ("500", "750")),
        (6, ("625", "750")),
    ]
    assert isinstance(laying, Laying)
    assert laying.slopes == "Slopes 1 and 2"
    assert [row.courses for row in laying.rows] == ["1, 3 and 5", "2, 4 and 6", "7"]
    assert [part.words for part in laying.rows[0].parts] == ["B2 125", "2 whole", "A1 500 → 433"]


def test_slopes_that_are_laid_alike_are_drawn_once_and_numbered_from_above() -> None:
    [picture] = _only(_sheet("octagon"), Picture)
    assert isinstance(picture, Picture)
    assert picture.names == ("Slopes 1–8",)
    assert picture.plan is not None
    assert [slope.number for slope in picture.plan.slopes] == [1, 2, 3, 4, 5, 6, 7, 8]
    [taped] = _only(_sheet("ell"), Picture)
    assert isinstance(taped, Picture)
    assert taped.names == ("Slope 1", "Slope 2")
    assert taped.plan is None


def test_what_slope_1_looks_to_stands_below_the_roof_from_above() -> None:
    edges = replace(builders.survey().edges, slope_one="the gate <b>, & north")
    survey = replace(builders.survey(), edges=edges)
    [first] = pages_of(pdf_of(_of(builders.job_at(Stage.BOOKED, survey=survey))), 1)
    assert "From above. Slope 1 looks to the gate <b>, & north." in first


def test_it_says_where_edges_nails_laps_and_beads_go() -> None:
    paper = site_sheet_of(priced.worked_example())
    # Counts of the worked example (setting out, section 10; quoted); where they go is section 6.
    edges = _step(paper, "Edge strips")
    assert "Cut the tabs off 11 strips: 190 high stays." in edges
    assert "Eaves 2,520, 3 pieces; verge 1,062, 2 pieces, for each run." in edges
    assert "Shingle nails every 50 along every edge: 190." in edges
    assert "2 a piece, under the next one: 38" in _step(paper, "Ridge")
    assert "21.26 m, ridge with it, 10 % over: 2 cartridges." in _step(
        paper, "Mastic, before course 1"
    )
    underlay = _step(paper, "Underlay")
    assert "4 rows along the eaves, 2 on each slope" in underlay
    assert "free edges: 34." in underlay
    [laying] = _only(paper, Laying)
    assert isinstance(laying, Laying)
    assert "204 in all" in laying.notes[-1]


def test_a_last_line_that_is_nearer_is_explained() -> None:
    # The last butt of seven stands at 6 × 133.86 = 803: 259 of the strip are left below 1062.
    assert "Line 7 is nearer: it is the ridge, and course 7 is cut to 259 high there." in _step(
        site_sheet_of(priced.worked_example()), "Strike the lines"
    )


def test_a_barn_says_what_is_bent_over_its_break() -> None:
    paper = _sheet("barn")
    assert "Lines 6 and 7: 81 and 210 past the break" in _step(paper, "Strike the lines")
    assert "break 3,120, 4 pieces" in _step(paper, "Edge strips")
    first, *_ = _only(paper, Laying)
    assert isinstance(first, Laying)
    assert "the last courses bent over it" in first.notes[1]


@pytest.mark.parametrize(
    ("roof", "heading", "words"),
    [
        ("apex", "Edge strips", "verge strip over eaves strip; at the ridge bend both over, the"),
        ("apex", "Ridge", "Bend each over the courses and verge strips, 125 down each side; first"),
        ("pent", "Edge strips", "verge strip over eaves strip; the top strip, last, over both"),
        ("pent", "Top edge", "Edge strips last, in a bead, over the courses and the verge strips"),
        ("barn", "Edge strips", "At and above the break: later, over the bent courses"),
        ("barn", "Edge strips", "at the break bend it over, under the strip there; at the ridge"),
        ("hip", "Edge strips", "for the corners: each over the one before."),
        ("hip", "Ridge and hips", "then the ridge, over the top ends of the hips."),
        ("octagon", "Hips", "Bend each over the courses, 125 down each side. Hips from the eaves"),
    ],
)
def test_which_strip_lies_over_which_is_said_where_they_meet(
    roof: str, heading: str, words: str
) -> None:
    # Common practice: the higher over the lower, and at a ridge the weather side last.
    assert words in _step(_sheet(roof), heading)


def test_hips_and_valleys_are_trimmed_where_they_are_laid() -> None:
    hip, ell = words_of(_sheet("hip")), words_of(_sheet("ell"))
    assert "on the rake" in hip
    assert "Past the left edge: let it run over by so much, and trim both ends." in hip
    # Nothing is left of a hip's triangle above its last line, which is its top.
    left = "What is left above the last line the hip pieces close."
    assert left not in hip
    assert left in words_of(_sheet("octagon"))
    assert "No nail within 150 of the middle." in ell
    assert "Valley first: the lining, 1.84 m" in ell
    assert "no nails there" in _step(_sheet("hip"), "Underlay")


def test_a_pent_has_no_ridge_and_a_top_edge_of_its_own() -> None:
    paper = _sheet("pent")
    assert "Ridge" not in words_of(paper).replace("Ridge closed", "")
    assert "50 turned down" in _step(paper, "Top edge")


def test_the_weather_is_within_the_traders_own_limits_and_stands_before_the_work() -> None:
    limits = WeatherLimits(lay_mph=builders.trader().limits.lay_mph - 5, underlay_rest_min=45)
    paper = site_sheet_of(priced.worked_example(), trader=builders.trader(limits=limits))
    kinds = [getattr(block, "heading", "") for block in paper.blocks]
    assert kinds.index("Weather") < kinds.index("1  Load the materials")
    assert "under 12 mph" in words_of(paper)
    assert "At 5 °C or below lay nothing." in words_of(paper)
    assert "Unroll it 45 minutes before use." in _step(paper, "Underlay")


def test_what_was_found_here_comes_first_of_six_reminders_at_most() -> None:
    survey = builders.survey()
    deck = replace(survey.deck, state=DeckState.UNSAFE, works_off=False)
    paper = _of(builders.job_at(Stage.BOOKED, survey=replace(survey, deck=deck)))
    safety = paper.blocks[0]
    assert isinstance(safety, Words)
    found, *others, last = safety.text.splitlines()
    assert found.startswith("Found here: DECK UNSAFE TO LOAD; deck not safe to stand on")
    assert len(others) == 4
    assert last == FIRST
    assert words_of(paper).count(FIRST) == 1
    for danger in ("Fragile", "Asbestos", "Height", "Wind", "Cut away", "Lift", "No flame", "CDM"):
        assert any(danger in line for line in others)


def test_boards_to_replace_stand_before_the_underlay_and_are_loaded() -> None:
    survey = builders.survey()
    deck = replace(survey.deck, state=DeckState.REPLACE, replace_m=Decimal(3))
    paper = _of(builders.job_at(Stage.BOOKED, survey=replace(survey, deck=deck)))
    assert "Replace 3 m of boards, tongue and groove" in _step(paper, "Strip, and mend the deck")
    assert "Boards: 3 m (tongue and groove, 14 mm)" in _step(paper, "Load the materials")
    assert "saw, bar, board nails" in _step(paper, "Load the tools")


def test_what_is_renewed_by_the_metre_is_loaded_and_the_ridge_begins_out_of_the_wind() -> None:
    edges = replace(builders.survey().edges, barge_boards="renew", wind_from="north")
    survey = replace(builders.survey(), edges=edges)
    paper = _of(builders.job_at(Stage.BOOKED, survey=survey))
    # Four verges of 1,062 (setting out, section 10).
    assert "Barge boards: 4.25 m" in _step(paper, "Load the materials")
    assert "Renew: barge boards 4.25 m." in _step(paper, "Strip, and mend the deck")
    assert "Begin at the sheltered end: south" in _step(paper, "Ridge")


def test_spare_strips_are_counted() -> None:
    # 3 packs of 21 less 42 in courses and ridge and 11 edge strips (setting out, section 10).
    load = load_for(priced.worked_example(), builders.job_at(Stage.BOOKED), builders.trader())
    assert "63 strips: 42 for courses and ridge, 11 edge strips, 10 spare" in load.materials[0]


def test_the_load_list_is_a_paper_of_its_own() -> None:
    job, takeoff = builders.job_at(Stage.BOOKED), priced.in_felt()
    text = words_of(load_list(job, takeoff, load_for(takeoff, job, builders.trader())))
    assert "Felt, slate grey: 2 rolls" in text
    assert "Brush and spreader for the adhesive" in text
    assert "Cartridge gun" not in text
    assert "kg to load" in text


ASBESTOS = next(check for check in CHECKS if check.id == "asbestos")


@pytest.mark.parametrize(
    ("old", "begins"),
    [
        (OldCovering(OldKind.CEMENT_SHEET, 1, Suspicion.AFTER), "Asbestos is suspected."),
        (OldCovering(OldKind.FELT, 2, Suspicion.BEFORE), "Asbestos is suspected."),
        (OldCovering(OldKind.FELT, 2), "Asbestos is not ruled out yet."),
    ],
)
def test_where_asbestos_is_not_ruled_out_stop_stands_before_everything_else(
    old: OldCovering, begins: str
) -> None:
    paper = _of(builders.job_at(Stage.BOOKED, survey=builders.survey(old=old)))
    assert paper.blocks[0] == Words(f"{begins} {ASBESTOS.remedy}", "STOP", Tone.STOP)
    [first] = pages_of(pdf_of(paper), 1)
    assert first.index("STOP") < first.index(begins) < first.index("Safety")


@pytest.mark.parametrize(
    "old",
    [
        OldCovering(OldKind.NONE),
        OldCovering(OldKind.FELT, 2, Suspicion.AFTER),
        OldCovering(OldKind.CEMENT_SHEET, 1, Suspicion.CLEARED, "an accredited laboratory"),
    ],
)
def test_where_asbestos_is_ruled_out_there_is_no_stop(old: OldCovering) -> None:
    job = builders.job_at(Stage.BOOKED, survey=builders.survey(old=old))
    assert "STOP" not in words_of(_of(job))


def test_it_ends_with_what_to_tick() -> None:
    ticks = _sheet("apex").blocks[-1]
    assert isinstance(ticks, Ticks)
    assert not any(done for done, _ in ticks.rows)


@pytest.mark.long
@pytest.mark.parametrize("roof", SURVEYS)
def test_page_one_has_what_is_needed_first_and_nothing_is_too_small_to_read(roof: str) -> None:
    content = pdf_of(_sheet(roof))
    first, *rest = pages_of(content)
    assert len(rest) == (1 if roof in ("pent", "apex", "garage", "barn") else 2)
    for needed in ("01632 960117", "Access: side gate, dog", "No flame", FIRST, "From above"):
        assert needed in first or (needed == "From above" and "Sketch it from above" in first)
    assert "Chalk lines" in first
    sizes = sizes_of(content)
    assert min(sizes) >= 9
    assert {14, 16, 20} <= {round(size) for size in sizes}


@pytest.mark.long
@pytest.mark.parametrize("roof", SURVEYS)
def test_felt_stands_on_as_few_pages(roof: str) -> None:
    content = pdf_of(_sheet(roof, "felt"))
    first, *rest = pages_of(content)
    assert len(rest) <= 2
    assert "From above" in first or "Sketch it from above" in first
    assert "Capping" in " ".join(rest) or roof == "pent"
    assert min(sizes_of(content)) >= 9


@pytest.mark.parametrize("width", [60, 80, 120])
def test_as_text_every_course_of_the_roof_is_a_line(width: int) -> None:
    text = plain_text(_sheet("garage"), width)
    for course in range(1, 12):
        assert re.search(rf"\n{course:>3} +[\d,]+ │", text)
    assert max(map(len, text.splitlines())) <= width


@pytest.mark.parametrize(
    ("numbers", "words"),
    [([2], "2"), ([1, 2], "1 and 2"), (range(1, 9), "1–8"), ([1, 3, 5], "1, 3 and 5")],
)
def test_numbers_of_slopes_are_said_short(numbers: Sequence[int], words: str) -> None:
    assert numbered(numbers) == words
