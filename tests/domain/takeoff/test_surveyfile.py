"""Survey files."""

from contextlib import suppress
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.coverings.felt import FELT
from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.square_butt import SQUARE_BUTT
from domain.errors import Refused
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.setting_out.measures import RoofMeasures, TapedSlope
from domain.takeoff.packing import Packing
from domain.takeoff.rolls import UNDERLAY
from domain.takeoff.surveyfile import SurveyFile, read_survey_file
from domain.units import parse_angle, parse_length, parse_offset

APEX = """\
covering = "square-butt"
[roof]
form = "apex"
length = "2.4 m"
span = "1.8 m"
rise = "450 mm"
eaves_overhang = "50 mm"
verge_overhang = "60 mm"
"""


def test_a_survey_with_the_usual_packing() -> None:
    assert read_survey_file(APEX) == SurveyFile(
        RoofMeasures(
            RoofForm.APEX,
            length=parse_length("length", "2400 mm"),
            span=parse_length("span", "1800 mm"),
            rise=parse_length("rise", "450 mm"),
            eaves_overhang=parse_length("eaves_overhang", "50 mm"),
            verge_overhang=parse_length("verge_overhang", "60 mm"),
        ),
        SQUARE_BUTT,
        Packing(strips_per_pack=21, underlay=replace(UNDERLAY, roll=Fraction(15_000))),
    )


def test_lengths_and_a_pitch_as_they_are_said_on_site() -> None:
    said = APEX.replace("2.4 m", "8 ft 3 1/2").replace('rise = "450 mm"', 'pitch = "3/12"')
    measures = read_survey_file(said.replace('"50 mm"', '"0"')).measures
    assert measures.length == parse_length("length", "2527.3 mm")
    assert measures.pitch == parse_angle("pitch", "1 in 4")
    assert measures.eaves_overhang == parse_length("eaves_overhang", "0 mm")


def test_a_survey_with_everything_it_may_say() -> None:
    survey = read_survey_file(
        """
        covering = "hexagonal"
        strips_per_pack = 22
        underlay_roll = "10 m"
        past_edge = "8 mm"
        [roof]
        form = "pent"
        pitch = "16 deg"
        slope_length = "7 ft 10 1/2 in"
        eaves_length = "8'"
        top_overhang = "2 in"
        """
    )
    assert survey.covering == replace(HEXAGONAL, past_edge=Fraction(8))
    assert survey.packing == Packing(
        strips_per_pack=22, underlay=replace(UNDERLAY, roll=Fraction(10_000))
    )
    assert survey.measures.form is RoofForm.PENT
    assert survey.measures.pitch == parse_angle("pitch", "16")
    assert survey.measures.slope_length == parse_length("slope_length", "2400.3 mm")
    assert survey.measures.eaves_length == parse_length("eaves_length", "2438.4 mm")
    assert survey.measures.top_overhang == parse_length("top_overhang", "50.8 mm")


_HEAD = 'covering = "square-butt"\n[roof]\n'
SLOPES = f"""\
{_HEAD}form = "slopes"
[[roof.slope]]
eaves = "2 m"
top = "2.5 m"
inset = "-500 mm"
length = "1 m"
finish = "ridge"
left_edge = "valley"
"""


def test_a_slope_by_itself_is_read_with_what_stands_along_it() -> None:
    (slope,) = read_survey_file(SLOPES).measures.slopes
    assert slope == TapedSlope(
        eaves=parse_length("eaves", "2 m"),
        length=parse_length("length", "1 m"),
        finish=Finish.RIDGE,
        top=parse_length("top", "2.5 m"),
        inset=parse_offset("inset", "-0.5 m"),
        left_edge=EdgeKind.VALLEY,
    )


@pytest.mark.parametrize(
    ("old", "new", "field", "remedy"),
    [
        ("eaves", "eves", "slope 1, eves", "the nearest is eaves"),
        ('eaves = "2 m"', "", "slope 1, eaves", "eaves ="),
        ('eaves = "2 m"', "eaves = 2", "slope 1, eaves", "Write it as text"),
        ('"1 m"', '"0"', "slope 1, length", "more than 0"),
        ('"-500 mm"', '"-500"', "slope 1, inset", "Its unit is missing: give -500 mm"),
        ('"-500 mm"', '"out"', "slope 1, inset", "-300 mm outward"),
        ('"ridge"', '"break"', "slope 1, finish", "Give ridge, top, abutment or point."),
        ('"valley"', '"eaves"', "slope 1, left_edge", "Give verge, hip, valley or abutment."),
        ("[[roof.slope]]", "[roof.slope]", "slope", "[[roof.slope]]"),
        ("[[roof.slope]]", "slope = [1]\n[other]", "other", "the nearest is"),
        ("form", "length = '2 m'\nform", "length", "The form slopes does not take it"),
        (SLOPES[len(_HEAD) :], "form = 'pyramid'\nsides = 6.0", "sides", "whole number"),
        ('"slopes"', '"pyramid"\nsides = 6', "slope", "it takes sides, side, rise"),
    ],
)
def test_what_a_slope_by_itself_cannot_say_is_refused(
    old: str, new: str, field: str, remedy: str
) -> None:
    with pytest.raises(Refused) as refusal:
        read_survey_file(SLOPES.replace(old, new, 1))
    assert refusal.value.field == field
    assert remedy in refusal.value.remedy


@pytest.mark.parametrize(
    ("form", "measures"),
    [
        ("offset-apex", ("length", "front_run", "front_rise", "back_run", "back_rise")),
        ("barn", ("length", "lower_run", "lower_rise", "upper_run", "upper_rise")),
        ("hip", ("length", "span", "rise", "eaves_overhang")),
        ("pyramid", ("side", "slope_length")),
    ],
)
def test_each_form_takes_its_measures(form: str, measures: tuple[str, ...]) -> None:
    lines = [f'{name} = "2 m"' for name in measures]
    read = read_survey_file(
        "\n".join(['covering = "square-butt"', "[roof]", f'form = "{form}"', *lines])
    )
    assert read.measures.form is RoofForm(form)
    for name in measures:
        assert getattr(read.measures, name) == parse_length(name, "2 m")


def test_a_mark_that_an_editor_puts_in_front_does_no_harm() -> None:
    assert read_survey_file("\N{ZERO WIDTH NO-BREAK SPACE}" + APEX) == read_survey_file(APEX)


@pytest.mark.parametrize(
    ("old", "new", "field", "remedy"),
    [
        ("length", "lenght", "lenght", "the nearest is length"),
        ("covering", "coverng", "coverng", "the nearest is covering"),
        ("[roof]", "[roof]\nstrips_per_pack = 21", "strips_per_pack", "belongs above [roof]"),
        ("covering", "span = '2 m'\ncovering", "span", "belongs under [roof]"),
        ("[roof]", "[rof]", "rof", "the nearest is roof"),
        ("[roof]", '["\\u202e\\n"]', "��", "the nearest is"),
        ("[roof]", f"[{'x' * 5000}]", "x" * 40, "the nearest is"),
        ('"square-butt"', '"slate"', "covering", "Give square-butt, hexagonal or felt."),
        ('"square-butt"', "1", "covering", "Give square-butt, hexagonal or felt."),
        ('covering = "square-butt"', "", "covering", "Give square-butt, hexagonal or felt."),
        ('"apex"', '"dome"', "form", "Give pent, lean-to, apex, offset-apex"),
        ('form = "apex"', "", "form", "Give pent, lean-to, apex, offset-apex"),
        ('"apex"', '["apex"]', "form", "Give pent, lean-to, apex, offset-apex"),
        ('"2.4 m"', "2.4", "length", 'Write it as text with its unit: length = "2.4 m".'),
        ('"2.4 m"', "2024-01-01", "length", "Write it as text"),
        ('"2.4 m"', "[2.4]", "length", "Write it as text"),
        ('"2.4 m"', '"2.4 kg"', "length", "Give a length"),
        ('"2.4 m"', '"-2.4 m"', "length", "Give 0 or more"),
        ('"2.4 m"', '"2.4 km"', "length", "Give 100 m or less"),
        ('rise = "450 mm"', "pitch = 26.6", "pitch", 'pitch = "26.6 deg"'),
        ('rise = "450 mm"', 'pitch = "1/6"', "pitch", "Give a pitch such as"),
        ('rise = "450 mm"', 'pitch = "16"', "pitch", "Its unit is missing: give 16 deg."),
        ('"50 mm"', '"0.05"', "eaves_overhang", "Its unit is missing: give 0.05 mm, 0.05 m or"),
        ('"50 mm"', "0.05", "eaves_overhang", "Write it as text with its unit"),
        ('"450 mm"', '"0"', "rise", "more than 0"),
        (
            "verge_overhang",
            "top_overhang",
            "top_overhang",
            "The form apex does not take it: ",
        ),
        ("covering", "strips_per_pack = 0\ncovering", "strips_per_pack", "from 1 to 1000"),
        ("covering", "strips_per_pack = true\ncovering", "strips_per_pack", "from 1 to 1000"),
        ("covering", "strips_per_pack = 21.0\ncovering", "strips_per_pack", "from 1 to 1000"),
        ("covering", "strips_per_pack = '21'\ncovering", "strips_per_pack", "from 1 to 1000"),
        ("covering", "strips_per_pack = 1001\ncovering", "strips_per_pack", "from 1 to 1000"),
        ("covering", "underlay_roll = 15\ncovering", "underlay_roll", "Write it as text"),
        ("covering", "underlay_roll = '0'\ncovering", "underlay_roll", "more than 0"),
        ("covering", "underlay_roll = '15'\ncovering", "underlay_roll", "Its unit is missing"),
        ("covering", "underlay_roll = '15 mm'\ncovering", "underlay_roll", "Give 1 m or more."),
        ("covering", f"strips_per_pack = 0x{'f' * 9000}\ncovering", "strips_per_pack", "1000"),
    ],
)
def test_what_a_survey_cannot_say_is_refused_by_its_key(
    old: str, new: str, field: str, remedy: str
) -> None:
    with pytest.raises(Refused) as refusal:
        read_survey_file(APEX.replace(old, new, 1))
    assert refusal.value.field == field
    assert remedy in refusal.value.remedy
    assert "\n" not in str(refusal.value)
    assert len(str(refusal.value)) < 200


@pytest.mark.parametrize("text", ["", "roof = 3", "[[roof]]\nform = 'apex'", "covering = 'felt'"])
def test_a_survey_without_a_roof_is_refused(text: str) -> None:
    with pytest.raises(Refused) as refusal:
        read_survey_file(text)
    assert refusal.value.field == "roof"


@pytest.mark.parametrize(
    "text",
    [
        "covering",
        "covering = ",
        'covering = "square-butt',
        "\x00",
        "a = " + "[" * 5000,
        "a = " + "{a=" * 5000,
        "a = " + "9" * 5000,
        "[roof]\n[roof]",
        "# " + "x" * 200_000,
        "{}",
    ],
)
def test_what_is_not_toml_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(Refused) as refusal:
        read_survey_file(text)
    assert refusal.value.field.startswith("survey file")
    assert "\n" not in str(refusal.value)
    assert len(str(refusal.value)) < 200


@given(
    text=st.text(max_size=40),
    key=st.sampled_from(["covering", "form", "length", "pitch", "top_overhang"]),
    value=st.text(alphabet=st.sampled_from("019.-'\"[]{}=# \nmtdeg,"), max_size=12),
)
def test_any_text_is_read_or_refused(text: str, key: str, value: str) -> None:
    for survey in (text, APEX + text, f"{APEX}{key} = {value}", f"{key} = {value}\n{APEX}"):
        with suppress(Refused):
            assert isinstance(read_survey_file(survey), SurveyFile)


def test_a_roof_in_felt_says_how_long_its_rolls_are() -> None:
    survey = read_survey_file(
        'covering = "felt"\nfelt_roll = "8 m"\n[roof]\nform = "apex"\nlength = "2.4 m"\n'
        'span = "1.8 m"\nrise = "450 mm"\n'
    )
    assert (survey.covering, survey.packing) == (FELT, Packing(felt_roll=Fraction(8000)))


@pytest.mark.parametrize(
    ("covering", "key", "whose"),
    [
        ("felt", "strips_per_pack = 21", "shingles"),
        ("felt", 'underlay_roll = "15 m"', "shingles"),
        ("hexagonal", 'felt_roll = "8 m"', "felt"),
    ],
)
def test_what_belongs_to_another_covering_is_refused(covering: str, key: str, whose: str) -> None:
    text = f'covering = "{covering}"\n{key}\n[roof]\nform = "apex"\n'
    with pytest.raises(Refused, match=f"It belongs to {whose}: leave it out"):
        read_survey_file(text)


@pytest.mark.parametrize(
    ("was", "becomes"),
    [('"square-butt"', '"Square butt"'), ('"apex"', '"Apex"'), ('"square-butt"', '"SQUARE_BUTT"')],
)
def test_words_are_taken_as_the_screen_writes_them(was: str, becomes: str) -> None:
    assert read_survey_file(APEX.replace(was, becomes)) == read_survey_file(APEX)


@pytest.mark.parametrize(
    ("wrong", "right"),
    [
        ("width", "span"),
        ("height", "rise"),
        ("angle", "pitch"),
        ("overhang", "eaves_overhang"),
        ("pack size", "strips_per_pack"),
        ("spann", "span"),
    ],
)
def test_the_nearest_key_is_found_by_meaning_as_by_spelling(wrong: str, right: str) -> None:
    with pytest.raises(Refused) as refused:
        read_survey_file(f'{APEX}"{wrong}" = "1 m"\n')
    assert refused.value.remedy == f"There is no such key: the nearest is {right}."


def test_what_cannot_be_read_is_told_by_its_line_and_in_our_words() -> None:
    with pytest.raises(Refused) as refused:
        read_survey_file(APEX.replace('"1.8 m"', "1.8 m"))
    assert str(refused.value) == (
        'Survey file, line 5: “span = 1.8 m” is not valid. Write it as span = "2.4 m" is '
        "written, with the quotation marks; a heading stands in brackets, as [roof] does."
    )
    with pytest.raises(Refused, match=r"line 9.*given twice"):
        read_survey_file(f'{APEX}span = "2 m"\n')
