"""The command line: what it prints, how it ends, and what it says of what a person can mend."""

import json
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from demo_data.story import DEMO_SURVEY
from domain.job import Stage
from storage.bookfile import SCHEMA
from tests.tui.books.a_job_at_a_stage import carried_to
from tests.tui.papers.pdf import pages_of
from tui.papers.asked_for import HELD, STATEMENT
from tui.shell.command_line import PAPERS, QUARTER, main

Told = Callable[..., tuple[object, str, str]]

TAKE_OFF = (["takeoff", "{}"], ["takeoff", "{}", "--json"])
ON_A_BOOK: tuple[list[str], ...] = (["week"], ["paper", "quote", "0001"], [])
"""The last opens the screen."""

NOT_GIVEN = frozenset(
    {"deposit-invoice", "receipt", "credit-note", "refund", "mistake", "extra", "guarantee"}
    | {"second-reminder"}
)
"""Papers that the job of these books never had."""


WASTE_NOTE = "waste-note"
_GIVEN = tuple(kind for kind in PAPERS if kind not in (*NOT_GIVEN, QUARTER, WASTE_NOTE))


@pytest.fixture
def told(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Told:
    """Run the command line; gives its exit status, and what it wrote out and to stderr."""
    monkeypatch.setattr(
        "tui.shell.command_line.run_app", lambda book: pytest.fail(f"{book} was opened")
    )

    def run(*arguments: str) -> tuple[object, str, str]:
        try:
            status: object = main(list(arguments))
        except SystemExit as ended:
            status = ended.code
        return status, *capsys.readouterr()

    return run


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A book whose one job is signed off and invoiced; these tests only read it."""
    path = tmp_path_factory.mktemp("read") / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    return str(path)


@pytest.fixture(scope="module")
def early(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A book whose one job is surveyed and no more; these tests only read it."""
    path = tmp_path_factory.mktemp("early") / "book.headlap"
    carried_to(path, Stage.SURVEY)
    return str(path)


def _is_one_sentence(text: str) -> bool:
    return text.count("\n") == 1 and text.endswith(".\n") and text[:-1].isprintable()


def _newer_book(path: Path) -> Path:
    carried_to(path, Stage.ENQUIRY)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    return path


def _no_book(path: Path) -> Path:
    path.write_text("a shopping list", encoding="utf-8")
    return path


def _folder(path: Path) -> Path:
    path.mkdir()
    return path


def test_the_week_is_printed(book: str, told: Told) -> None:
    status, printed, complaint = told("week", "--book", book)
    assert (status, complaint) == (0, "")
    assert "Tonight" in printed
    assert told("--book", book, "week") == (0, printed, "")


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("quote", "square butt"),
        ("invoice", "invoice inv-1"),
        ("materials", "estimated v used"),
        ("takeoff", "take-off 0001"),
        ("site-sheet", "chalk lines"),
    ],
)
def test_a_paper_is_printed_at_80_columns(book: str, told: Told, kind: str, words: str) -> None:
    status, printed, complaint = told("paper", kind, "0001", "--book", book)
    assert (status, complaint) == (0, "")
    assert words in printed.lower()
    assert max(map(len, printed.splitlines())) <= 80


def test_a_take_off_is_printed_and_given_as_figures(told: Told) -> None:
    status, printed, complaint = told("takeoff", str(DEMO_SURVEY))
    assert (status, complaint) == (0, "")
    assert "Cut list" in printed
    status, printed, _ = told("takeoff", str(DEMO_SURVEY), "--json")
    assert status == 0
    assert isinstance(json.loads(printed), dict)


def test_the_demo_into_a_pipe_prints_its_papers(
    told: Told, monkeypatch: pytest.MonkeyPatch
) -> None:
    def lay_out(path: Path, *_: object) -> None:
        carried_to(path, Stage.SIGNED_OFF)

    monkeypatch.setattr("demo_data.layout.lay_out_book", lay_out)
    monkeypatch.setattr("tui.shell.demo.keeping_place", lambda: None)
    status, printed, complaint = told("demo")
    assert (status, complaint) == (0, "")
    assert all(words in printed for words in ("Tonight", "Cut list", "Invoice INV-1"))


@pytest.mark.parametrize("kind", sorted(NOT_GIVEN))
def test_a_paper_that_was_never_given_is_refused_in_a_sentence(
    book: str, told: Told, kind: str
) -> None:
    status, printed, complaint = told("paper", kind, "0001", "--book", book)
    assert (status, printed) == (2, "")
    assert _is_one_sentence(complaint)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["week"], "Tonight"),
        (["takeoff", str(DEMO_SURVEY)], "Chalk lines"),
        (["paper", WASTE_NOTE, "0001"], "Where it came from"),  # it names no customer
        *((["paper", kind, "0001"], "Mrs Adeyemi") for kind in _GIVEN),
    ],
)
def test_a_paper_is_set_on_a4_in_a_file_that_is_never_overwritten(
    book: str, told: Told, tmp_path: Path, arguments: list[str], words: str
) -> None:
    path = tmp_path / "paper.pdf"
    on = [] if arguments[0] == "takeoff" else ["--book", book]
    assert told(*arguments, *on, "--pdf", str(path)) == (0, f"Saved as {path}\n", "")
    content = path.read_bytes()
    assert words in pages_of(content, 1)[0]
    status, printed, complaint = told(*arguments, *on, "--pdf", str(path))
    assert (status, printed) == (2, "")
    assert complaint.startswith("PDF: ")
    assert complaint.endswith("There is already a file of that name: choose another.\n")
    assert path.read_bytes() == content


def test_a_roof_is_drawn_in_a_file_that_is_never_overwritten(told: Told, tmp_path: Path) -> None:
    path = tmp_path / "roof.svg"
    draw = ("takeoff", str(DEMO_SURVEY), "--svg", str(path))
    assert told(*draw) == (0, f"Saved as {path}\n", "")
    assert path.read_text(encoding="utf-8").startswith("<svg ")
    status, printed, complaint = told(*draw)
    assert (status, printed) == (2, "")
    assert complaint.startswith("SVG: ")
    assert complaint.endswith("There is already a file of that name: choose another.\n")


@pytest.mark.parametrize("name", ["", "nowhere/a.pdf", "a.txt/b.pdf", "x" * 300, "\x1b[31m/a.pdf"])
def test_a_pdf_that_cannot_be_written_is_told_in_a_sentence(
    told: Told, tmp_path: Path, name: str
) -> None:
    (tmp_path / "a.txt").write_text("in the way", encoding="utf-8")
    status, printed, complaint = told("takeoff", str(DEMO_SURVEY), "--pdf", f"{tmp_path}/{name}")
    assert (status, printed) == (2, "")
    assert complaint.startswith("PDF: ")
    assert _is_one_sentence(complaint)


@pytest.mark.parametrize("arguments", ON_A_BOOK[:2])
def test_a_book_that_is_missing_is_named_and_not_made(
    tmp_path: Path, told: Told, arguments: list[str]
) -> None:
    path = tmp_path / "nowhere" / "b.db"
    status, printed, complaint = told("--book", str(path), *arguments)
    assert (status, printed) == (2, "")
    assert complaint.startswith("Book: ")
    assert "There is no book there yet" in complaint
    assert not path.parent.exists()


@pytest.mark.parametrize("arguments", ON_A_BOOK)
@pytest.mark.parametrize(
    ("make", "words"),
    [
        (_newer_book, "was written by a newer Headlap"),
        (_no_book, "is not a Headlap book"),
        (_folder, "is not a Headlap book"),
    ],
)
def test_what_is_no_book_of_ours_is_named_and_left_as_it_is(
    tmp_path: Path, told: Told, make: Callable[[Path], Path], words: str, arguments: list[str]
) -> None:
    path = make(tmp_path / "odd \x1b[31m\u202e.db")
    before = path.read_bytes() if path.is_file() else None
    status, printed, complaint = told("--book", str(path), *arguments)
    assert (status, printed) == (2, "")
    assert words in complaint
    assert complaint.startswith("odd ")
    assert _is_one_sentence(complaint)
    assert (path.read_bytes() if path.is_file() else None) == before
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("named", ["~nobody-of-this-name/b.db", "", "/dev/null/b.db"])
@pytest.mark.parametrize("arguments", ON_A_BOOK)
def test_a_book_that_can_be_nowhere_is_refused(
    told: Told, arguments: list[str], named: str
) -> None:
    status, printed, complaint = told("--book", named, *arguments)
    assert (status, printed) == (2, "")
    assert _is_one_sentence(complaint)
    assert complaint[0] != " "


@pytest.mark.parametrize("ref", ["0099", "[/]\x1b[31m" * 9, "", "9" * 400, "\u202e1"])
def test_a_job_that_is_not_there_is_told_in_a_sentence(book: str, told: Told, ref: str) -> None:
    status, printed, complaint = told("paper", "quote", ref, "--book", book)
    assert (status, printed) == (2, "")
    assert complaint.startswith("Reference: " if ref else "Reference is empty. ")
    assert _is_one_sentence(complaint)


COUNTED = ("takeoff", "site-sheet", "load-list")
"""From the survey alone."""


@pytest.mark.parametrize(
    "kind", [k for k in PAPERS if k not in (*COUNTED, HELD, STATEMENT, QUARTER)]
)
def test_a_job_without_a_quote_has_no_paper(early: str, told: Told, kind: str) -> None:
    refused = (2, "", "Job 0001 has no quote yet.\n")
    assert told("paper", kind, "0001", "--book", early) == refused


@pytest.mark.parametrize("kind", COUNTED)
def test_what_is_counted_from_the_survey_waits_for_it(early: str, told: Told, kind: str) -> None:
    status, printed, complaint = told("paper", kind, "0001", "--book", early)
    assert (status, printed) == (2, "")
    assert "fill in the survey and choose the covering" in complaint
    assert _is_one_sentence(complaint)


def test_a_job_that_is_not_invoiced_has_no_invoice(tmp_path: Path, told: Told) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    refused = (2, "", "Job 0001 is not invoiced yet.\n")
    assert told("paper", "invoice", "0001", "--book", str(path)) == refused


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\xff\xfe\x00",
        b"x = [",
        b"[roof]\nform = 'dome'\n",
        b"[roof]\nform = 'apex'\nlength = '-2.4 m'\n",
        b"roof = 3\n",
        b"[roof]\n" + b"a" * 10_000 + b" = 1\n",
        "[roof]\nform = '\u202e[/]'\n".encode(),
        b"[" * 5_000,
        b"[roof]\nlength = " + b"[" * 3_000 + b"]" * 3_000,
    ],
)
@pytest.mark.parametrize("arguments", TAKE_OFF)
def test_a_survey_file_that_will_not_do_is_told_in_a_sentence(
    tmp_path: Path, told: Told, content: bytes, arguments: list[str]
) -> None:
    path = tmp_path / "shed.toml"
    path.write_bytes(content)
    status, printed, complaint = told(*(part.format(path) for part in arguments))
    assert (status, printed) == (2, "")
    assert _is_one_sentence(complaint)


@pytest.mark.parametrize("name", [".", "missing\x1b[31m.toml", "x" * 5_000])
def test_a_survey_file_that_cannot_be_read_is_told_in_a_sentence(
    tmp_path: Path, told: Told, name: str
) -> None:
    status, printed, complaint = told("takeoff", f"{tmp_path}/{name}")
    assert (status, printed) == (2, "")
    assert complaint.startswith("Survey file: ")
    assert _is_one_sentence(complaint)


@pytest.mark.parametrize(
    "arguments",
    [["nonsense"], ["paper", "poem", "0001"], ["paper", "quote"], ["takeoff"], ["week", "--loud"]],
)
def test_a_command_that_is_none_shows_how_it_is_used(told: Told, arguments: list[str]) -> None:
    status, printed, complaint = told(*arguments)
    assert (status, printed) == (2, "")
    assert complaint.startswith("usage: headlap")


def test_the_screen_is_opened_on_the_book_that_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Path] = []
    monkeypatch.setattr("tui.shell.command_line.run_app", opened.append)
    path = tmp_path / "new" / "b.db"
    assert main(["--book", str(path)]) == 0
    assert opened == [path]


def test_a_program_that_ends_out_of_order_says_so_by_its_status(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.shell.questions.demand_terminal", lambda: None)
    monkeypatch.setattr("tui.shell.app.HeadlapApp.run", lambda app: app.exit(return_code=1))
    with pytest.raises(SystemExit) as ended:
        main(["--book", str(tmp_path / "b.db")])
    assert ended.value.code == 1


def test_an_interrupted_command_ends_as_shells_expect(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("tui.shell.command_line.run_app", interrupted)
    # source: 128 and the number of SIGINT, as POSIX shells report it; memory.
    assert main(["--book", "b.db"]) == 130


@pytest.mark.long
@pytest.mark.parametrize("encoding", ["utf-8", "ascii"])
def test_a_pipe_may_be_closed_early_and_know_few_characters(tmp_path: Path, encoding: str) -> None:
    command = [sys.executable, "-m", "tui.shell.command_line", "takeoff", str(DEMO_SURVEY)]
    with subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={"PYTHONIOENCODING": encoding, "PYTHONPATH": str(Path(__file__).parents[2])},
        cwd=tmp_path,
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.read(1)
        running.stdout.close()
        assert running.stderr.read() == b""
        assert running.wait() == 0


def test_the_quarter_is_of_no_job_and_every_other_paper_of_one(book: str, told: Told) -> None:
    status, printed, complaint = told("paper", QUARTER, "--book", book)
    assert (status, complaint) == (0, "")
    assert "Tax year" in printed
    assert max(map(len, printed.splitlines())) <= 80
    status, printed, complaint = told("paper", QUARTER, "0001", "--book", book)
    assert (status, printed) == (2, "")
    assert "the quarter is of no job" in complaint
