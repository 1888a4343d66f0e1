"""Slopes taped one by one, and whether they close."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from domain.errors import Refused
from domain.exact import cosine
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.setting_out.measures import RoofMeasures, TapedSlope
from domain.takeoff.surveyfile import read_survey_file
from domain.units import Length, parse_offset

L_SHAPE = read_survey_file(Path("demo_data/l_shape.toml").read_text(encoding="utf-8")).measures


def mm(length: int) -> Length:
    return parse_offset("Length", f"{length} mm")


def changed(at: int, **changes: Length | EdgeKind | Finish) -> Roof:
    """The L-shaped roof with one slope taped otherwise."""
    slopes = list(L_SHAPE.slopes)
    slopes[at] = replace(slopes[at], **changes)  # type: ignore[arg-type]  # each name has its kind
    return build_roof(replace(L_SHAPE, slopes=tuple(slopes)))


def test_an_l_shaped_roof_closes() -> None:
    roof = build_roof(L_SHAPE)
    assert roof.cautions == ()
    assert sorted(roof.ridge_runs) == [2450, 3050]
    # derived: √(1443² + 1250²)
    assert [round(run, 1) for run in (*roof.hip_runs, *roof.valley_runs)] == [
        Fraction("1909.1")
    ] * 2


def test_the_slopes_of_an_l_shaped_roof_cover_its_plan_over_the_cosine() -> None:
    # derived: 4300 × 2500 and 2500 × 1200 mm on plan, at 30°; slopes are whole millimetres
    exact = (4300 * 2500 + 2500 * 1200) / cosine(Fraction(30))
    assert float(build_roof(L_SHAPE).area) == pytest.approx(float(exact), rel=5e-4)


@pytest.mark.parametrize(
    ("at", "changes", "said"),
    [
        (
            2,
            {"inset": mm(-1200), "top": mm(2400)},
            (
                "Slopes 3 and 4 do not meet: the ridge is 2,400 mm on slope 3 and 2,450 mm on "
                "slope 4. Check the top of both.",
                "Slopes 2 and 3 do not meet: the valley is 1,909 mm on slope 2 and 1,877 mm on "
                "slope 3. Check eaves, top and inset of both.",
            ),
        ),
        (
            0,
            {"length": mm(1500)},
            (
                "Slopes 1 and 4 do not meet: the hip is 1,953 mm on slope 1 and 1,909 mm on "
                "slope 4. Check the slope length of both.",
            ),
        ),
        (
            3,
            {"right_edge": EdgeKind.VERGE},
            (
                "Slope 1: no other slope meets its left hip. Check the edges and the finish of "
                "its neighbours.",
            ),
        ),
        (
            1,
            {"finish": Finish.ABUTMENT},
            (
                "Slope 1: no other slope meets its ridge. Check the edges and the finish of its "
                "neighbours.",
            ),
        ),
        (0, {"eaves": mm(4315), "inset": mm(1265)}, ()),
    ],
    ids=["inset", "length", "lone hip", "lone ridge", "under 20 mm"],
)
def test_slopes_that_do_not_close_are_told_of(
    at: int, changes: dict[str, Length | EdgeKind | Finish], said: tuple[str, ...]
) -> None:
    assert changed(at, **changes).cautions == said


def test_the_longer_of_two_lengths_counts_for_the_pieces() -> None:
    assert max(changed(0, top=mm(3100), eaves=mm(4350)).ridge_runs) == 3100


def test_a_slope_may_lack_what_follows_from_the_rest() -> None:
    plain = TapedSlope(mm(2000), mm(1200), Finish.TOP)
    triangle = TapedSlope(mm(2000), mm(1200), Finish.POINT, inset=mm(1000))
    roof = build_roof(RoofMeasures(RoofForm.SLOPES, slopes=(plain, triangle)))
    assert [slope.top for slope in roof.slopes] == [2000, 0]
    assert [slope.inset for slope in roof.slopes] == [0, 1000]
    assert roof.pitch is None
    assert roof.ridge_runs == roof.hip_runs == ()


def test_a_break_is_not_taped_by_itself() -> None:
    with pytest.raises(Refused, match="Give ridge, top, abutment or point"):
        changed(1, finish=Finish.BREAK)


@pytest.mark.parametrize(
    ("at", "changes", "field", "remedy"),
    [
        (1, {"eaves": mm(18)}, "slope 2, eaves", "100 mm or more"),
        (1, {"length": mm(90)}, "slope 2, length", "100 mm or more"),
        (1, {"top": mm(30)}, "slope 2, top", "100 mm or more"),
        (1, {"top": mm(0)}, "slope 2, top", "point as the finish"),
        (1, {"finish": Finish.POINT}, "slope 2, top", "give 0"),
        (1, {"right_edge": EdgeKind.VERGE}, "slope 2, top", "only beside a valley"),
        (2, {"left_edge": EdgeKind.HIP}, "slope 3, inset", "only beside a valley"),
        (2, {"inset": None}, "slope 3, inset", "lies in"),
        (2, {"left_edge": EdgeKind.EAVES}, "slope 3, left_edge", "verge, hip, valley or abutment"),
        (2, {"right_edge": EdgeKind.BREAK}, "slope 3, right_edge", "verge, hip, valley"),
    ],
)
def test_a_measure_that_makes_no_slope_is_refused_by_its_number_and_field(
    at: int, changes: dict[str, Length], field: str, remedy: str
) -> None:
    with pytest.raises(Refused) as refusal:
        changed(at, **changes)
    assert refusal.value.field == field
    assert remedy in refusal.value.remedy


@pytest.mark.parametrize("count", [0, 25])
def test_no_slopes_and_too_many_are_refused(count: int) -> None:
    with pytest.raises(Refused, match=r"^Slopes"):
        build_roof(replace(L_SHAPE, slopes=L_SHAPE.slopes[:1] * count))
