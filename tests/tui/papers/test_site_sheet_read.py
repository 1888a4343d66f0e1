"""What is cut, laid, chalked and nailed is read back from the paper, and is the take-off's."""

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import ceil, floor

import pytest

from domain.coverings.registry import SHINGLES
from domain.coverings.shingle import Shingle
from domain.errors import Refused
from domain.exact import half_up
from domain.papers.blocks import Block, Cuts, Laying, Paper
from domain.setting_out.courses import Row
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.forms.roof import build_roof
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off_shingles, worked_out
from domain.takeoff.surveyfile import read_survey_file
from tests.examples import share
from tests.priced import worked_example
from tests.site_sheets import site_sheet_of
from tests.tui.papers.pdf import pages_of
from tests.tui.papers.site_sheet_read import ReadPiece, ReadSheet, ReadWay, read_sheet
from tui.papers.as_pdf import pdf_of


def _told(takeoff: ShingleTakeOff) -> ReadSheet:
    """What the paper has to say."""
    plan, fixings = takeoff.working, takeoff.fixings
    assert plan is not None
    rows = {(row.slope, row.course): row for row in takeoff.rows}
    courses = {}
    for way in plan.laying:
        over = half_up(way.start or Fraction(0))
        pieces = tuple(
            ReadPiece(half_up(each.part.length), half_up(each.length), over) for each in way.pieces
        )
        for place in product(way.slopes, way.courses):
            lengths = [each.length for each in way.pieces]
            found = _nails(rows[place], lengths, takeoff.covering)
            courses[place[0] + 1, place[1]] = pieces, found
    nails = {"shingle": fixings.shingle_nails, "edge": fixings.edge_nails}
    nails |= {"underlay": fixings.underlay_nails}
    return ReadSheet(
        chalk={n: tuple(map(half_up, up.chalk_lines)) for n, up in enumerate(takeoff.courses, 1)},
        cutting=frozenset(
            ReadWay(way.times, tuple(map(half_up, way.cuts))) for way in plan.cutting
        ),
        courses=courses,
        nails=nails | ({"ridge": fixings.ridge_nails} if takeoff.ridge_pieces else {}),
    )


def _nails(row: Row, lengths: Sequence[Fraction], shingle: Shingle) -> int:
    """One above each line of the lattice strictly inside a piece, one near each of its ends."""
    at, nails = row.u0, 0
    for length in lengths:
        first = floor((at - row.offset) / shingle.tab) + 1
        nails += ceil((at + length - row.offset) / shingle.tab) - first + 2
        at += length
    return nails


def _read(takeoff: ShingleTakeOff, paper: Paper) -> ReadSheet:
    return read_sheet(pages_of(pdf_of(paper)), int(takeoff.covering.width))


def _survey(chance: random.Random) -> str:
    def mm(least: int, most: int) -> str:
        return f'"{chance.randint(least, most)} mm"'

    length, over = chance.randint(1200, 4500), f"eaves_overhang = {mm(0, 80)}\n"
    steep, verge = f'pitch = "{chance.randint(16, 45)} deg"\n', f"verge_overhang = {mm(0, 80)}\n"
    long = f'length = "{length} mm"\n'
    sides = chance.choice((4, 6, 8))
    barn = 'lower_run = "400 mm"\nlower_rise = "700 mm"\nupper_rise = "400 mm"\n'
    return chance.choice(
        (
            f'form = "pent"\n{long}span = {mm(1000, 2500)}\npitch = "16 deg"\n{over}{verge}',
            f'form = "lean-to"\n{long}span = {mm(1000, 2500)}\n{steep}{over}{verge}',
            f'form = "apex"\n{long}span = {mm(1200, 3000)}\n{steep}{over}{verge}',
            f'form = "barn"\n{long}{barn}upper_run = {mm(600, 1200)}\n{over}{verge}',
            f'form = "hip"\n{long}span = {mm(900, length)}\n{steep}{over}',
            f'form = "pyramid"\nsides = {sides}\nside = {mm(900, 1600)}\n{steep}',
        )
    )


def _roofs(count: int) -> Iterator[tuple[Roof, Shingle]]:
    """So many sheds and summerhouses of every form, the same ones every time."""
    chance = random.Random(11)  # noqa: S311  the same roofs every time
    while count:
        shingle = chance.choice(list(SHINGLES.values()))
        try:
            text = f'covering = "square-butt"\n[roof]\n{_survey(chance)}'
            roof = build_roof(read_survey_file(text).measures)
            if take_off_shingles(roof, shingle).strips.cut_plan > 150:
                continue
        except Refused:
            continue
        count -= 1
        yield roof, shingle


@pytest.mark.long
def test_whoever_has_only_the_paper_finds_what_the_take_off_has() -> None:
    for roof, shingle in _roofs(share(40)):
        takeoff = worked_out(take_off_shingles(roof, shingle))
        assert isinstance(takeoff, ShingleTakeOff)
        assert _read(takeoff, site_sheet_of(takeoff)) == _told(takeoff)


def _spoilt(paper: Paper, spoil: type[Block]) -> Paper:
    """With the first cut moved by a tab, or the first two lines of laying swapped."""
    blocks: list[Block] = []
    for block in paper.blocks:
        if isinstance(block, Cuts) and spoil is Cuts:
            first, *others = block.rows
            moved = (str(int(first.cuts[0]) - 250), *first.cuts[1:])
            blocks.append(replace(block, rows=(replace(first, cuts=moved), *others)))
        elif isinstance(block, Laying) and spoil is Laying:
            one, two, *rest = block.rows
            swapped = replace(one, courses=two.courses), replace(two, courses=one.courses)
            blocks.append(replace(block, rows=(*swapped, *rest)))
        else:
            blocks.append(block)
    return replace(paper, blocks=tuple(blocks))


def test_a_cut_moved_by_a_tab_is_found() -> None:
    takeoff = worked_out(worked_example())
    assert isinstance(takeoff, ShingleTakeOff)
    with pytest.raises(AssertionError):
        _read(takeoff, _spoilt(site_sheet_of(takeoff), Cuts))


def test_two_courses_swapped_are_found() -> None:
    takeoff = worked_out(worked_example())
    assert isinstance(takeoff, ShingleTakeOff)
    assert _read(takeoff, site_sheet_of(takeoff)) == _told(takeoff)
    assert _read(takeoff, _spoilt(site_sheet_of(takeoff), Laying)) != _told(takeoff)
