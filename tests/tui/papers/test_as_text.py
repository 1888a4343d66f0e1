"""Papers as they are drawn: whole, inside their width, and without what a terminal obeys."""

import io
import re
import sys
import unicodedata

import pytest
from rich.cells import cell_len

from domain.papers.blocks import Column, Paper, Table, Ticks, Words
from domain.tone import Tone
from tests.domain.papers.reading import words_of
from tests.tui.papers.odd import MADE_UP, PAPERS
from tui.frame.safe_text import one_line
from tui.frame.text_layout import wrapped
from tui.frame.theme import DAY
from tui.papers.as_text import draw_paper, plain_text, print_paper

WIDTHS = (20, 34, 48, 60, 80, 92, 120)
MONEY = re.compile(r"−?£[0-9,]+\.[0-9]{2}")


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("title", PAPERS)
def test_no_line_is_wider_than_the_paper_and_none_holds_controls(title: str, width: int) -> None:
    text = plain_text(PAPERS[title], width)
    drawn = text.removesuffix("\n").split("\n")
    assert max(map(cell_len, drawn)) <= width
    assert text.endswith("\n")
    assert all(line == line.rstrip() for line in drawn)
    assert not [c for c in text if c != "\n" and unicodedata.category(c)[0] == "C"]


@pytest.mark.parametrize("width", WIDTHS[1:])
@pytest.mark.parametrize("title", PAPERS)
def test_nothing_is_cut_and_no_sum_is_broken(title: str, width: int) -> None:
    paper = PAPERS[title]
    drawn = plain_text(paper, width)
    whole = words_of(paper)
    assert set(MONEY.findall(whole)) <= set(MONEY.findall(drawn))
    assert "…" not in drawn
    short = {word for word in one_line(whole).split() if cell_len(word) <= 8}
    assert short - set(Tone) <= set(drawn.split())


@pytest.mark.parametrize("title", PAPERS)
def test_what_is_saved_is_what_was_seen(title: str) -> None:
    seen = draw_paper(PAPERS[title], 80, DAY).plain.split("\n")
    assert [line.rstrip() for line in seen] == plain_text(PAPERS[title]).splitlines()


def test_tones_have_a_sign_as_well_as_a_colour() -> None:
    signs = {
        tone: plain_text(Paper("", (Words("mind", tone=tone),))).split("mind")[0].strip("─\n ")
        for tone in Tone
    }
    assert {tone: sign for tone, sign in signs.items() if sign} == {
        Tone.STOP: "■",
        Tone.CAUTION: "▲",
        Tone.GOOD: "✓",
    }
    ticks = plain_text(Paper("", (Ticks(((True, "done"), (False, "not yet"))),)))
    assert "[✓] done" in ticks
    assert "[ ] not yet" in ticks


def test_numbers_end_at_one_edge() -> None:
    table = Table(
        (Column("what"), Column("sum", number=True)),
        (("a", "£1.00"), ("b", "£1,234.56"), ("c " * 90, "−£0.01")),
    )
    lines = [line for line in plain_text(Paper("", (table,))).splitlines() if "£" in line]
    assert {len(line) for line in lines} == {80}


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize("columns", [1, 3, 19, 40, 80, 300])
def test_it_is_printed_on_a_terminal_of_any_width(
    monkeypatch: pytest.MonkeyPatch, columns: int
) -> None:
    terminal = _Terminal()
    monkeypatch.setattr(sys, "stdout", terminal)
    monkeypatch.setenv("COLUMNS", str(columns))
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    print_paper(MADE_UP)
    printed = terminal.getvalue()
    sequences = re.findall(r"\x1b\[[0-9;]*m", printed)
    assert sequences
    plain = re.sub(r"\x1b\[[0-9;]*m", "", printed)
    assert "\x1b" not in plain
    assert "\u202e" not in plain
    assert max(map(cell_len, plain.splitlines())) <= min(80, max(columns, 20))


@pytest.mark.parametrize("encoding", ["utf-8", "ascii", "cp1252"])
def test_a_pipe_takes_what_it_knows(monkeypatch: pytest.MonkeyPatch, encoding: str) -> None:
    pipe = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(pipe, encoding=encoding))
    print_paper(MADE_UP)
    sys.stdout.flush()
    assert b"1,234.56" in pipe.getvalue()
    assert b"\x1b" not in pipe.getvalue()


@pytest.mark.parametrize(
    ("width", "broken"),
    [
        (26, ["Shed, apex roof,", "5.2 × 2.8 m at 15 %"]),
        (17, ["Shed, apex roof,", "5.2 × 2.8 m at", "15 %"]),
        (5, ["Shed,", "apex", "roof,", "5.2 ×", "2.8 m", "at", "15 %"]),
    ],
)
def test_a_measure_is_not_broken_over_a_line_it_fits_on(width: int, broken: list[str]) -> None:
    assert wrapped("Shed, apex roof, 5.2 × 2.8 m at 15 %", width) == broken
