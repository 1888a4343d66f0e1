"""The site sheet: what stands on it, where it comes from, and that it agrees with the take-off."""

from collections.abc import Sequence
from fractions import Fraction
from functools import cache

import pytest

from domain.checks.reminders import FIRST, REMINDERS
from domain.checks.stages import CHECKS
from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.plan import PieceKind
from domain.drawing.marks import marks
from domain.exact import half_up
from domain.job import Job, OldCovering, OldKind, Stage, Suspicion
from domain.papers.blocks import Block, Cuts, Details, Measures, Paper, Picture, Table, Ticks, Words
from domain.papers.shared_parts import numbered
from domain.papers.site_sheet import site_sheet
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import RoofMeasures
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off_shingles
from domain.tone import Tone
from domain.trader import WeatherLimits
from domain.units import parse_angle, parse_length
from tests import builders, priced
from tests.domain.papers.reading import words_of
from tests.tui.papers.pdf import pages_of
from tui.papers.as_pdf import pdf_of
from tui.papers.as_text import plain_text


def _measures(form: RoofForm, length: str, span: str, pitch: str) -> RoofMeasures:
    over = parse_length("over", "50 mm")
    return RoofMeasures(
        form,
        length=parse_length("length", length),
        span=parse_length("span", span),
        pitch=parse_angle("pitch", pitch),
        eaves_overhang=over,
        verge_overhang=over,
    )


PENT = take_off_shingles(build_roof(_measures(RoofForm.PENT, "8 ft", "6 ft", "16 deg")), HEXAGONAL)
GARAGE = take_off_shingles(
    build_roof(_measures(RoofForm.APEX, "6.2 m", "4.3 m", "28 deg")), SQUARE_BUTT
)
HIP = take_off_shingles(
    build_roof(
        RoofMeasures(
            RoofForm.HIP,
            length=parse_length("length", "3.6 m"),
            span=parse_length("span", "2.4 m"),
            pitch=parse_angle("pitch", "30 deg"),
            eaves_overhang=parse_length("over", "100 mm"),
        )
    ),
    HEXAGONAL,
)
ROOFS = {"apex": priced.worked_example(), "pent": PENT, "garage": GARAGE}


def _job() -> Job:
    return builders.job_at(Stage.BOOKED)


def _sheet(takeoff: ShingleTakeOff) -> Paper:
    return site_sheet(_job(), takeoff, builders.trader())


@cache
def _pages(roof: str) -> list[str]:
    """The pages of the sheet of one of the roofs, which are dear to set and to read back."""
    return pages_of(pdf_of(_sheet(ROOFS[roof])))


def _only(paper: Paper, kind: type[Block]) -> list[Block]:
    return [block for block in paper.blocks if isinstance(block, kind)]


def _details(paper: Paper, heading: str) -> dict[str, str]:
    [found] = [b for b in paper.blocks if isinstance(b, Details) and b.heading == heading]
    return dict(found.rows)


def test_equal_slopes_share_their_chalk_lines_and_they_are_whole_millimetres() -> None:
    [lines] = _only(_sheet(priced.worked_example()), Measures)
    assert isinstance(lines, Measures)
    assert lines.heading == "Chalk lines up from the eaves, slopes 1 and 2"
    # 340.00, 473.86, 607.71 … 1062.00 of the worked example (setting out, section 10; quoted).
    measures = ["340", "474", "608", "742", "875", "1,009", "1,062"]
    assert lines.rows == tuple((str(n), mm) for n, mm in enumerate(measures, start=1))


def _numbers(name: str) -> range:
    """The strips that a row is of: "7", "59–79"."""
    first, _, last = name.partition("–")
    return range(int(first), int(last or first) + 1)


@pytest.mark.parametrize("roof", ROOFS)
def test_every_strip_of_the_cut_list_is_told_as_it_is_marked_in_the_drawing(roof: str) -> None:
    takeoff = ROOFS[roof]
    [cuts] = _only(_sheet(takeoff), Cuts)
    assert isinstance(cuts, Cuts)
    numbers = [n for cut in cuts.rows for n in _numbers(cut.name)]
    assert numbers == list(range(1, len(takeoff.plan.cut_list) + 1))
    told = {f"{cut.name}{part.name}": part for cut in cuts.rows for part in cut.parts if part.name}
    marked = marks(takeoff.plan.cut_list)
    assert set(told) == {str(mark) for mark in marked.values()}
    for piece, mark in marked.items():
        part = told[str(mark)]
        assert abs(part.mm - piece.length) <= Fraction(1, 2)
        assert f"slope {piece.slope + 1}, course {piece.course}" in part.words
        side = piece.kind in (PieceKind.LEFT, PieceKind.RIGHT)
        assert part.words.endswith(f", {piece.kind}") is side


def test_the_picture_is_of_the_same_roof() -> None:
    [picture] = _only(_sheet(PENT), Picture)
    assert isinstance(picture, Picture)
    assert picture.drawing.takeoff is PENT


def test_it_says_where_nails_laps_and_beads_go() -> None:
    paper = _sheet(priced.worked_example())
    # Counts of the worked example (setting out, section 10; quoted); where they go is section 6.
    assert _details(paper, "Courses") == {
        "Strips": "19 whole, 23 cut as listed",
        "Joints": "125 from those of the course below",
        "Nails": "25 above each cut-out, and 25 in from each end",
        "Total": "201",
    }
    assert _details(paper, "Edge strips")["Nails"] == "every 50: 190"
    assert _details(paper, "Ridge and hips")["Nails"] == "2 a piece: 38"
    assert _details(paper, "Mastic")["Total"] == "21.26 m, 2 cartridges"
    underlay = _details(paper, "Underlay")
    assert underlay["Nails"] == "every 300 along the edges: 34"
    assert underlay["Laps"] == "100, at roll ends 100"
    assert underlay["Over"] == "50 over every edge, 100 over ridge and hips"


def test_a_pent_has_no_ridge_and_a_top_edge_of_its_own() -> None:
    paper = _sheet(PENT)
    assert "Ridge and hips" not in words_of(paper)
    assert _details(paper, "Underlay")["Over"] == "50 over every edge"
    assert "top edge" in _details(paper, "Edge strips")["Lay last"]
    assert "Ridge" not in _details(paper, "Mastic")


def test_the_weather_is_within_the_traders_own_limits() -> None:
    limits = WeatherLimits(lay_mph=builders.trader().limits.lay_mph - 5, underlay_rest_min=45)
    paper = site_sheet(_job(), priced.worked_example(), builders.trader(limits=limits))
    assert "under 12 mph" in words_of(paper)
    assert _details(paper, "Underlay")["Unroll"] == "45 minutes before use"


def test_what_could_kill_comes_first_of_stripping_as_of_laying_and_no_line_twice() -> None:
    paper = _sheet(priced.worked_example())
    mind = paper.blocks[0]
    assert isinstance(mind, Words)
    lines = mind.text.splitlines()
    assert set(lines) == {*REMINDERS[Stage.STRIPPED], *REMINDERS[Stage.LAID]}
    assert len(lines) == len(set(lines))
    assert lines[-1] == FIRST
    assert words_of(paper).count(FIRST) == 1


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
    job = builders.job_at(Stage.BOOKED, survey=builders.survey(old=old))
    paper = site_sheet(job, priced.worked_example(), builders.trader())
    assert paper.blocks[0] == Words(f"{begins} {ASBESTOS.remedy}", "STOP", Tone.STOP)
    [first] = pages_of(pdf_of(paper), 1)
    assert first.index("STOP") < first.index(begins) < first.index("Safety")
    for danger in ("Fragile roof: treat every", "No flame:", FIRST):
        assert danger in first


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
    assert "STOP" not in words_of(site_sheet(job, priced.worked_example(), builders.trader()))


@pytest.mark.parametrize("roof", ROOFS)
def test_fragile_roof_and_asbestos_stand_on_page_one_before_the_drawing(roof: str) -> None:
    paper = _sheet(ROOFS[roof])
    first, *rest = _pages(roof)
    for danger in ("Fragile roof: treat every", "Asbestos: may be in", "No flame:", FIRST):
        assert danger in first
        assert not any(danger in page for page in rest)
    kinds = [type(block) for block in paper.blocks]
    assert kinds.index(Words) < kinds.index(Picture)


def test_it_ends_with_what_to_tick() -> None:
    ticks = _sheet(priced.worked_example()).blocks[-1]
    assert isinstance(ticks, Ticks)
    assert not any(done for done, _ in ticks.rows)


@pytest.mark.parametrize(("roof", "pages"), [("apex", 4), ("pent", 4), ("garage", 6)])
def test_it_is_set_on_few_pages_and_every_mark_is_found(roof: str, pages: int) -> None:
    takeoff = ROOFS[roof]
    set_ = _pages(roof)
    assert len(set_) == pages
    text = " ".join(set_)
    for mark in marks(takeoff.plan.cut_list).values():
        assert str(mark) in text


@pytest.mark.parametrize("width", [60, 80, 120])
def test_as_text_every_course_of_the_roof_is_a_line(width: int) -> None:
    text = plain_text(_sheet(GARAGE), width)
    for slope in GARAGE.courses:
        for course, line in enumerate(slope.chalk_lines, start=1):
            assert f"\n{course:>3}{half_up(line):>6,} │" in text
    assert max(map(len, text.splitlines())) <= width


@pytest.mark.parametrize("roof", ROOFS)
def test_all_chalk_lines_of_a_slope_stand_on_one_page(roof: str) -> None:
    [page] = [page for page in _pages(roof) if "Chalk lines up" in page]
    lines = ROOFS[roof].courses[0].chalk_lines
    told = page.split("Chalk lines up")[1].split()
    assert {f"{half_up(line):,}" for line in lines} <= set(told)


def test_slopes_with_the_same_edges_are_told_once_and_on_one_page() -> None:
    paper = _sheet(HIP)
    [edges] = _only(paper, Table)
    assert isinstance(edges, Table)
    # Down the hips 1300 out, 1300 along and 750.6 up: 1985.7 (derived).
    assert edges.rows == (
        ("1 and 2", "eaves 3,800", "hip 1,986", "hip 1,986", "ridge 1,200"),
        ("3 and 4", "eaves 2,600", "hip 1,986", "hip 1,986", "point"),
    )
    [page] = [page for page in pages_of(pdf_of(paper)) if "hip 1,986" in page]
    assert page.count("hip 1,986") == 4


@pytest.mark.parametrize(
    ("numbers", "words"),
    [([2], "2"), ([1, 2], "1 and 2"), (range(1, 9), "1–8"), ([1, 3, 5], "1, 3 and 5")],
)
def test_numbers_of_slopes_are_said_short(numbers: Sequence[int], words: str) -> None:
    assert numbered(numbers) == words
