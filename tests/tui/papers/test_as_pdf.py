"""Papers set on A4: whole, in a font of their own, and what a user typed stays a text."""

import pytest

from domain.papers.blocks import Column, Details, Paper, Signature, Table, Ticks, Words
from domain.tone import Tone
from tests.domain.papers.reading import words_of
from tests.tui.papers.odd import PAPERS
from tests.tui.papers.pdf import fonts_of, lines_of, pages_of
from tui.papers.as_pdf import pdf_of

HOSTILE = [
    '#panic("no") #read("paper.typ") $x^2$ [a](b) *b* _i_ `c` <l> @ref // no /* no */',
    "\\ \\u{41} \\n #{ } ~ -- --- ... 'single' \"double\"",
    "#",
    "$",
    "[",
    "]",
    "\\",
    "@",
    '"',
    "line\nbreaks\r\nand\u2028more\ttabs",
    "שלום עולם, مرحبا بالعالم",
    "\u202eturned\u202c \u200fand\u200e",
    "👷🏽 🏚️ \U0001f1ec\U0001f1e7",
    "漢字 ไทย \ue000 \U0010ffff",
    "\x00\x07\x1b[31m",
    "Llŷn, Łódź, Ștefan, Ağrı",
    "{{paper.title}} %s ${HOME}",
    "e" + "\u0301" * 60,
]


@pytest.mark.parametrize("title", PAPERS)
def test_every_paper_is_set_whole(title: str) -> None:
    text = "".join(pages_of(pdf_of(PAPERS[title]))).replace("\u200b", "")
    words = {word for word in words_of(PAPERS[title]).split() if word.isascii() and word.isalpha()}
    assert {word for word in words - set(Tone) if word not in text} == set()


@pytest.mark.parametrize("text", HOSTILE)
def test_what_was_typed_is_put_down_and_never_read_as_markup(text: str) -> None:
    paper = Paper(text, (Words(text, text), Details(((text, text),), text)), (text, text))
    (page,) = pages_of(pdf_of(paper))
    letters = [word for word in text.split() if word.isascii() and word.isprintable()]
    assert [word for word in letters if word not in page] == []


def test_the_pages_are_counted_on_each() -> None:
    long = Paper("Long", tuple(Words("word " * 400) for _ in range(9)))
    pages = pages_of(pdf_of(long))
    assert len(pages) > 2
    for number, page in enumerate(pages, start=1):
        assert page.endswith(f"Long {number} of {len(pages)}")


def test_the_titles_of_a_table_stand_on_every_page_it_runs_over() -> None:
    table = Table(
        (Column("Chalk"), Column("Up", True)), tuple((f"r{n}", f"{n}") for n in range(99))
    )
    pages = pages_of(pdf_of(Paper("Long", (table,))))
    assert len(pages) > 1
    assert all("Chalk Up" in page for page in pages)


def test_what_is_signed_stands_on_the_page_of_what_is_signed_for() -> None:
    for lines in range(30, 60):
        filled = Words("\n".join(["line"] * lines))
        asked = Words("I ask for it:", "Asked"), Ticks(((False, "begin sooner"),))
        pages = pages_of(pdf_of(Paper("Quote", (filled, *asked, Signature("Mrs Vane")))))
        [page] = [page for page in pages if "Signed, Mrs Vane" in page]
        assert "Asked" in page
        assert "begin sooner" in page


def test_it_is_set_in_the_font_that_travels_with_the_program() -> None:
    names = fonts_of(pdf_of(PAPERS["Take-off"]))
    assert {name.split("-")[0] for name in names} == {"Inter"}


def test_the_same_paper_gives_the_same_bytes() -> None:
    paper = PAPERS["Take-off"]
    assert pdf_of(paper) == pdf_of(paper)


def test_long_labels_leave_their_values_a_line() -> None:
    fixings = Details((("Shingle nails", "696"),), "Fixings")
    value = "269 kg go on the van; van carries 450 kg: 1 trip."
    weights = Details((("To buy", value), ("Roof covering, on the deck", "3.5 kg/m²")), "Weights")
    lines = lines_of(pdf_of(Paper("Take-off", (fixings, weights))))
    assert any(line.endswith(value) for line in lines)
