"""Papers as they are drawn: whole, inside their width, and without what a terminal obeys."""

import io
import re
import sys
import unicodedata
from collections.abc import Iterator
from dataclasses import replace

import pytest
from rich.cells import cell_len

from domain.accounts.invoice import invoice_for
from domain.accounts.receipt import receipt_for
from domain.job import Job, Payment, Stage
from domain.papers.blocks import (
    Column,
    Details,
    Paper,
    Signature,
    Table,
    Ticks,
    Tone,
    Totals,
    Words,
)
from domain.papers.invoice import invoice_paper
from domain.papers.materials import materials_paper
from domain.papers.quote import quote_paper
from domain.papers.receipt import receipt_paper
from domain.papers.takeoff import takeoff_paper
from domain.papers.week import week_paper
from domain.week import WeekData, plan_week
from tests import builders, priced
from tests.papers.reading import words_of
from tests.tui.enquiry_book import NASTY
from tui.papers.draw import draw, plain_text, print_paper
from tui.safe_text import one_line
from tui.theme import DAY

WIDTHS = (20, 34, 48, 60, 80, 92, 120)
ODD = f"{NASTY} \x1b[31m\x07👷🏽 {'Featherstonehaugh-' * 6}"
MONEY = re.compile(r"−?£[0-9,]+\.[0-9]{2}")


def _odd_job() -> Job:
    """A laid job whose every name is odd, with sums as great as a book takes."""
    job = priced.laid_job(priced.quote(priced.registered(), deposit=100_00))
    return replace(
        job,
        customer=replace(job.customer, name=ODD, address=f"{ODD}\nOsmerton"),
        site=replace(job.site, place=ODD, access=ODD),
    )


def _papers() -> Iterator[Paper]:
    job, trader = _odd_job(), priced.registered(name=ODD, trading_as="", address=f"{ODD}\n{ODD}")
    assert job.quote is not None
    yield quote_paper(job, job.quote, trader)
    yield invoice_paper(invoice_for(job, trader, 1, builders.SIGNED))
    yield materials_paper(job)
    paid = Payment(builders.DUE, 99_999_999_99, ODD)
    yield receipt_paper(
        receipt_for(builders.job_at(Stage.SIGNED_OFF), paid, trader, 9, paid.received_on)
    )
    line = replace(builders.week_line(builders.job_at(Stage.LAID)), place=ODD, customer=ODD)
    yield week_paper(plan_week(WeekData((line,), (), trader), builders.LAY_DAY))
    yield takeoff_paper(priced.worked_example())
    yield MADE_UP


MADE_UP = Paper(
    ODD,
    (
        Words(f"{ODD}\n\n{ODD}", ODD, Tone.STOP),
        Table((Column(ODD), Column("sum", number=True)), ((ODD, "£1,234.56"), ("", "£0.00")), ODD),
        Details(((ODD, ODD), ("", "")), ODD),
        Details((), ""),
        Ticks(((True, ODD), (False, "")), ODD),
        Totals(((ODD, "£99,999,999.99"), ("To pay", "−£0.01"))),
        Totals(()),
        Signature(ODD),
    ),
    (ODD, "", ODD),
)
PAPERS = {paper.title[:8]: paper for paper in _papers()}


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
    seen = draw(PAPERS[title], 80, DAY).plain.split("\n")
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
