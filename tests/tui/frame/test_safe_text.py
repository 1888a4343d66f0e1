"""User text on its way to the screen: no markup, no control characters, never wider than its place.

What a character is, and whether it is printed, is asked of the Unicode tables of the standard
library; how many cells it takes, of rich.
"""

import unicodedata

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from rich.cells import cell_len

from tests.tui.books.an_enquiry import NASTY
from tui.frame import safe_text

WIDTHS = st.integers(0, 60)
TEXTS = st.text(max_size=60)
UNPRINTED = ("Cc", "Cf", "Cs", "Co", "Zl", "Zp")


def _is_clean(text: str) -> bool:
    return not any(unicodedata.category(c) in UNPRINTED for c in text)


@given(TEXTS)
@example("\x1b]0;title\x07\x9b31m\x00\ud800\u2028\u202e\u200b\ufeff\U000e0001\x85")
def test_a_line_is_one_line_and_holds_no_controls(text: str) -> None:
    line = safe_text.one_line(text)
    assert _is_clean(line)
    assert safe_text.one_line(line) == line


@given(TEXTS)
def test_line_breaks_stay_and_nothing_else(text: str) -> None:
    parts = safe_text.lines(text).split("\n")
    assert all(_is_clean(part) for part in parts)
    assert len(parts) <= max(1, len(text.splitlines()))


@given(TEXTS, WIDTHS)
@example("🏚🏚🏚", 3)
@example("e\u0301" * 9, 4)
@example("日本", 1)
def test_what_is_fitted_takes_exactly_its_cells(text: str, width: int) -> None:
    fitted = safe_text.fitted(text, width)
    assert cell_len(fitted) == width
    assert _is_clean(fitted)
    if cell_len(safe_text.one_line(text)) <= width:
        assert fitted.rstrip() == safe_text.one_line(text).rstrip()
    elif width:
        assert "…" in fitted


@given(TEXTS, WIDTHS)
def test_what_is_shortened_is_whole_or_ends_in_an_ellipsis(text: str, width: int) -> None:
    line, short = safe_text.one_line(text), safe_text.shortened(text, width)
    assert cell_len(short) <= width
    assert short == line or short.endswith("…") or not width


@pytest.mark.parametrize("text", [NASTY, "[bold]x[/]", "[/]", "[@click=app.quit]go[/]", "\\[a]"])
def test_markup_is_text(text: str) -> None:
    content = safe_text.plain(text)
    assert content.plain == safe_text.one_line(text)
    assert content.spans == []
    styled = safe_text.styled(text, "bold")
    assert styled.plain == safe_text.one_line(text)
    assert styled.spans == []


def test_breaks_and_tabs_become_spaces() -> None:
    assert safe_text.one_line("a\tb\nc\r\nd\x0be\u2029f") == "a b c  d e f"
    assert safe_text.lines("a\tb\nc") == "a b\nc"
    assert safe_text.one_line("½ in, 5 °C, m², £") == "½ in, 5 °C, m², £"
