"""The command line: ``headlap``, and the papers and the take-off without a screen."""

import errno
import os
import sys
from collections.abc import Callable
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from domain.errors import HeadlapError, Refused
from tui.frame.garbage import look_for_none
from tui.frame.wall_clock import wall_clock
from tui.shell.book_option import add_book, book_at, book_of, must_exist

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace, _ActionsContainer

    from domain.papers.blocks import Paper

_OF_OUTPUT = (errno.EPIPE, errno.ENOSPC, errno.EIO, errno.EBADF)
"""How writing ends when the reader has left, the disk is full, the terminal is gone, or closed."""

QUARTER = "quarter"
"""The paper that is of no job: this quarter's books."""
PAPERS = (
    *("quote", "confirmation", "extra", "deposit-invoice", "invoice", "receipt", "credit-note"),
    *("refund", "mistake", "second-reminder", "statement", "guarantee", "waste-note"),
    *("materials", "takeoff", "site-sheet", "load-list", "held", QUARTER),
)

_LARGEST_SURVEY = 1_000_000
"""Bytes."""
_ESCAPE_MS = "10"
"""Milliseconds after which Esc is the key of that name, and not the beginning of an arrow."""
_PAINTS_A_SECOND = "250"
"""At most: by Textual's own 60 what a key brings waits up to 17 ms for the key's own paint."""


def main(arguments: list[str] | None = None) -> int:
    """Run ``headlap``; returns the exit status.

    It is 0 for done, 1 for a book that is not sound, 2 for what the person can put right.

    Raises :class:`SystemExit` as the reader of the command line does, and after a fault: 1.
    """
    given = sys.argv[1:] if arguments is None else arguments
    if sys.stdout is None:  # type: ignore[unreachable, unused-ignore]
        return _not_all_printed("there is nowhere to print to")
    try:
        status = _asked_for(given)() or 0
        sys.stdout.flush()
    except HeadlapError as error:
        from tui.frame.safe_text import one_line  # a file's name may hold what a terminal obeys

        print(one_line(str(error)), file=sys.stderr)
        return 2
    except OSError as error:
        if error.errno not in _OF_OUTPUT:
            raise
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # what is left goes nowhere
        return _not_all_printed(str(error.strerror))
    except KeyboardInterrupt:
        return 130
    return status


def _not_all_printed(why: str) -> int:
    print(f"Not all of it was printed: {why}.", file=sys.stderr)
    return 2


def _asked_for(given: list[str]) -> "Callable[[], int | None]":
    """What is to be run; to open a book and no more, no reader of commands is loaded."""
    match given:
        case []:
            return partial(_open_screen, None)
        case ["--book", path] if not path.startswith("-"):
            return partial(_open_screen, Path(path))
    options = _parser().parse_args(given)
    return partial(options.run, options)


def _parser() -> "ArgumentParser":
    from argparse import SUPPRESS

    from domain.setting_out.kinds import RoofForm
    from tui.shell.command_parser import CommandParser
    from tui.shell.examples import add_examples
    from tui.shell.keeping import add_keeping

    parser: ArgumentParser = CommandParser(
        prog="headlap",
        description="Job book for re-roofing sheds, summerhouses, workshops and garages.",
    )
    add_book(parser, Path)
    parser.set_defaults(run=lambda options: _open_screen(options.book))
    parser.add_argument(
        "--version",
        action="store_const",
        dest="run",
        const=_print_version,
        help="print the version",
    )
    parts = parser.add_subparsers(metavar="COMMAND")

    week = parts.add_parser("week", help="print the week and what needs doing tonight")
    _add_pdf(week)
    week.set_defaults(run=_print_week)

    takeoff = parts.add_parser("takeoff", help="print the take-off of a survey file")
    what = takeoff.add_mutually_exclusive_group(required=True)
    what.add_argument("survey", type=Path, metavar="SURVEY.toml", nargs="?")
    forms = [form.value for form in RoofForm]
    shown = "print a whole survey file to begin from, of a roof of this form: " + ", ".join(forms)
    what.add_argument("--example", choices=forms, metavar="FORM", help=shown)
    how = takeoff.add_mutually_exclusive_group()
    how.add_argument("--json", action="store_true", help="the figures, for other programs")
    _add_pdf(how)
    drawn = "draw the roof to scale, as SVG in a new file"
    how.add_argument("--svg", type=Path, metavar="FILE", help=drawn)
    takeoff.set_defaults(run=_takeoff)

    paper = parts.add_parser(
        "paper",
        help="print a paper of a job, what its customer owes or is held on them, or the quarter",
    )
    paper.add_argument("kind", choices=PAPERS)
    of_which = "the job's reference, such as 0421; the quarter is of no job"
    paper.add_argument("ref", metavar="REF", nargs="?", help=of_which)
    _add_pdf(paper)
    paper.set_defaults(run=partial(_print_paper, paper.error))

    demo = parts.add_parser("demo", help="look round an example book")
    demo.set_defaults(run=_demo)
    for part in (week, paper, *add_keeping(parts)):
        add_book(part, SUPPRESS)
    add_examples(parser, parts)
    return parser


def _add_pdf(parser: "_ActionsContainer") -> None:
    words = "save it as an A4 PDF instead of printing it"
    parser.add_argument("--pdf", type=Path, metavar="FILE", help=words)


def _print_version(_options: "Namespace") -> None:
    from importlib.metadata import version

    print(f"headlap {version('headlap')}")


def _open_screen(given: Path | None) -> None:
    from storage.backups.names import has_backups
    from storage.bookfile import State, look_at

    book = book_at(given)
    state = look_at(book)  # what is no book of ours is said before the terminal is taken over
    if state is State.NEW and has_backups(book):
        _ask_to_begin_again(book)
        run_app(book, begin_again=True)
    else:
        run_app(book)


def _ask_to_begin_again(book: Path) -> None:
    """Raise :class:`NoBook` unless the person says that a new book is to be begun."""
    from storage.errors import NoBook
    from tui.frame.safe_text import one_line
    from tui.shell.questions import is_answered, says_yes

    missing = NoBook(book)
    if not is_answered():
        raise missing
    print(one_line(str(missing)))
    if not says_yes("begin a new, empty book instead"):
        raise missing


def run_app(
    book: Path, now: Callable[[], datetime] = wall_clock, *, begin_again: bool = False
) -> None:
    """Open the book on the terminal.

    Raises :class:`NoTerminal` if there is none, :class:`SystemExit` if it did not end in order.
    """
    from tui.shell.questions import demand_terminal

    demand_terminal()  # without one Textual waits for ever
    look_for_none()
    os.environ.setdefault("ESCDELAY", _ESCAPE_MS)  # Textual reads both as it is loaded
    os.environ.setdefault("TEXTUAL_FPS", _PAINTS_A_SECOND)
    from tui.shell.app import make_app

    app = make_app(book, now, begin_again=begin_again)
    app.run()
    if app.return_code:
        sys.exit(app.return_code)
    if app.leads_to_example:
        _look_round_example()
        run_app(book, now)


def _look_round_example() -> None:
    from tui.shell.demo import run_demo

    run_demo(run_app, show)


def _print_week(options: "Namespace") -> None:
    from domain.papers.week_paper import week_paper
    from domain.week import first_shown, plan_week, with_holidays
    from storage.week_and_jobs import read_week

    today = wall_clock().date()
    book = book_of(options)
    must_exist(book)
    data = with_holidays(read_week(book, today), first_shown(today))
    _give(week_paper(plan_week(data, today)), options.pdf)


def _takeoff(options: "Namespace") -> None:
    import json

    from domain.drawing.draw_roof import draw_roof
    from domain.papers.takeoff_paper import takeoff_paper
    from domain.setting_out.forms.roof import build_roof
    from domain.setting_out.kinds import RoofForm
    from domain.takeoff.figures_for_programs import as_json
    from domain.takeoff.roof_takeoff import take_off, worked_out
    from domain.takeoff.surveyfile import read_survey_file
    from tui.roof.svg import drawing_svg
    from tui.shell.examples import survey_example

    if options.example is not None:
        print(survey_example(RoofForm(options.example)), end="")
        return
    survey = read_survey_file(_text_of(options.survey))
    takeoff = take_off(build_roof(survey.measures), survey.covering, survey.packing)
    if options.json:
        print(json.dumps(as_json(takeoff), indent=1))
    elif options.svg is not None:
        _write("SVG", options.svg, drawing_svg(draw_roof(worked_out(takeoff))).encode())
    else:
        _give(takeoff_paper(worked_out(takeoff)), options.pdf)


def _print_paper(complain: Callable[[str], object], options: "Namespace") -> None:
    """Print or save one; ``complain`` ends with how the command is used."""
    if (options.kind == QUARTER) is not (options.ref is None):
        is_missing = options.ref is None
        complain("REF is needed" if is_missing else "the quarter is of no job: leave REF out")
    from storage.book import Book
    from tui.papers.asked_for import paper_asked_for

    path = book_of(options)
    must_exist(path)
    book = Book.open(path, wall_clock)
    try:
        paper = paper_asked_for(book, options.kind, options.ref, wall_clock().date())
        _give(paper, options.pdf, book.picture(paper.look.logo))
    finally:
        book.close()


def _demo(_options: "Namespace") -> None:
    _look_round_example()


def _give(paper: "Paper", pdf: Path | None, logo: bytes = b"") -> None:
    """Write it to the file asked for, with its logo, or show it."""
    if pdf is None:
        show(paper)
        return
    from tui.papers.as_pdf import pdf_of

    _write("PDF", pdf, pdf_of(paper, logo))


def _write(what: str, path: Path, content: bytes) -> None:
    """Write it to a new file and say so."""
    from storage.saved_papers import write_new
    from tui.frame.safe_text import one_line

    write_new(what, path, content)
    print(one_line(f"Saved as {path}"))


def show(paper: "Paper") -> None:
    """Print a paper: in colour on a terminal, as plain text into a pipe or a file."""
    from tui.papers.as_text import print_paper

    print_paper(paper)


def _text_of(path: Path) -> str:
    from storage.users_file import read_users_file

    content = read_users_file("survey_file", path, _LARGEST_SURVEY, "a survey", path)
    if len(content) > _LARGEST_SURVEY:
        raise Refused("survey_file", path, "It is over 1 MB: a survey has a few lines.")
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        raise Refused("survey_file", path, "It is not text in UTF-8.") from error


if __name__ == "__main__":
    sys.exit(main())
