"""The colour of papers is read by name or figures, and is dark enough to be read on white."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.errors import Refused
from domain.look import COLOURS, LEAST_CONTRAST, colour_words, contrast_on_white, read_colour


@pytest.mark.parametrize(
    ("typed", "colour"),
    [
        ("navy", "#14285a"),
        ("  Dark  Green ", "#1b4d2b"),
        ("#1F4E79", "#1f4e79"),
        ("1f4e79", "#1f4e79"),
        ("", ""),
        ("  ", ""),
    ],
)
def test_a_colour_is_a_name_or_figures(typed: str, colour: str) -> None:
    assert read_colour("colour", typed) == colour


@pytest.mark.parametrize("typed", ["mauvish", "#12345", "#12345g", "#fff", "navy blue!", "١٢٣٤٥٦"])
def test_what_is_no_colour_is_refused_with_what_would_be(typed: str) -> None:
    with pytest.raises(Refused, match="Give a name such as navy or dark green, or #1f4e79"):
        read_colour("colour", typed)


@given(st.sampled_from(sorted(COLOURS.values())) | st.from_regex("#[0-9a-f]{6}", fullmatch=True))
def test_one_too_pale_is_refused_with_a_darker_one_that_is_taken(typed: str) -> None:
    try:
        taken = read_colour("colour", typed)
    except Refused as refused:
        assert contrast_on_white(typed) < LEAST_CONTRAST
        darker = refused.remedy.split()[-1].rstrip(".")
        assert read_colour("colour", darker) == darker
    else:
        assert contrast_on_white(taken) >= LEAST_CONTRAST


def test_contrast_is_that_of_the_standard() -> None:
    # WCAG 2.2: black on white is 21 to 1, #767676 the palest grey that passes (from memory).
    assert contrast_on_white("#000000") == pytest.approx(21)
    assert contrast_on_white("#ffffff") == pytest.approx(1)
    assert contrast_on_white("#767676") >= LEAST_CONTRAST > contrast_on_white("#777777")


def test_a_colour_is_shown_by_its_name_where_it_has_one() -> None:
    assert colour_words("#14285a") == "navy"
    assert colour_words("#1f4e79") == "#1f4e79"
    assert colour_words("") == ""
