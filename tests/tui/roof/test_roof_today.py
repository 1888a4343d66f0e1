"""The roof of the heading: its shape is the roof's, its covering that of the stage."""

import pytest

from domain.job import Stage
from domain.setting_out.kinds import RoofForm
from tui.frame.theme import DAY, EVENING, Palette
from tui.roof.roof_today import ROWS, WIDTH, gable_cells, half_block_text

BEFORE = (Stage.ENQUIRY, Stage.SURVEY, Stage.QUOTED, Stage.BOOKED)


def _is_roof(form: RoofForm, stage: Stage = Stage.LAID) -> list[list[bool]]:
    return [[cell is not None for cell in row] for row in gable_cells(form, stage, EVENING)]


@pytest.mark.parametrize("form", RoofForm)
@pytest.mark.parametrize("stage", Stage)
def test_a_picture_has_its_size_and_widens_towards_the_eaves(form: RoofForm, stage: Stage) -> None:
    cells = gable_cells(form, stage, EVENING)
    assert (len(cells), {len(row) for row in cells}) == (ROWS, {WIDTH})
    widths = [sum(row) for row in _is_roof(form)]
    assert widths == sorted(widths)
    assert widths[0] > 0


def test_an_apex_is_the_same_from_both_sides_and_a_pent_is_not() -> None:
    assert all(row == row[::-1] for row in _is_roof(RoofForm.APEX))
    assert not any(row == row[::-1] for row in _is_roof(RoofForm.PENT)[:-1])


@pytest.mark.parametrize("palette", [EVENING, DAY])
def test_the_covering_changes_when_the_roof_does(palette: Palette) -> None:
    pictures = {stage: gable_cells(RoofForm.APEX, stage, palette) for stage in Stage}
    assert all(pictures[stage] == pictures[Stage.ENQUIRY] for stage in BEFORE)
    changed = [pictures[s] for s in (Stage.BOOKED, Stage.STRIPPED, Stage.LAID, Stage.SIGNED_OFF)]
    assert all(a != b for i, a in enumerate(changed) for b in changed[i + 1 :])


def test_the_old_covering_has_holes_and_only_the_finished_roof_its_ridge() -> None:
    old = gable_cells(RoofForm.APEX, Stage.BOOKED, EVENING)
    assert sum(cell is None for row in old for cell in row) > sum(
        not roof for row in _is_roof(RoofForm.APEX) for roof in row
    )
    ridged = [
        stage for stage in Stage if EVENING.moss in gable_cells(RoofForm.APEX, stage, EVENING)[0]
    ]
    assert ridged == [Stage.SIGNED_OFF]


@pytest.mark.parametrize("form", RoofForm)
def test_the_shape_is_kept_without_colour(form: RoofForm) -> None:
    drawn = half_block_text(gable_cells(form, Stage.STRIPPED, EVENING), EVENING.ground).plain
    lines = drawn.split("\n")
    shape = _is_roof(form)
    assert len(lines) == ROWS // 2
    for line, upper, lower in zip(lines, shape[::2], shape[1::2], strict=True):
        assert [sign != " " for sign in line] == [
            above or below for above, below in zip(upper, lower, strict=True)
        ]
