"""Output that is closed or full, and a survey that has no end: a sentence, never a traceback."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from demo_data.story import DEMO_SURVEY
from tests.architecture.sources import ROOT

HEADLAP = f"{sys.executable} -m tui.shell.command_line"


def _in_a_shell(command: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["bash", "-c", f"set -o pipefail; {command}"],  # noqa: S607 -- wherever the shell is
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )


@pytest.mark.long
@pytest.mark.parametrize(
    ("output", "words"),
    [
        ("| (exec <&-; sleep 0.01)", "Broken pipe"),
        (">/dev/full", "No space left on device"),
        (">&-", "there is nowhere to print to"),
    ],
)
def test_output_that_takes_no_more_ends_with_a_sentence(output: str, words: str) -> None:
    done = _in_a_shell(f"{HEADLAP} takeoff {DEMO_SURVEY} {output}")
    assert done.stderr == f"Not all of it was printed: {words}.\n"
    assert done.returncode == 2


@pytest.mark.long
@pytest.mark.parametrize("command", ["--help", "week --help"])
def test_help_that_could_not_be_printed_is_said(command: str) -> None:
    done = _in_a_shell(f"{HEADLAP} {command} >/dev/full")
    assert done.stderr == "Not all of it was printed: No space left on device.\n"
    assert done.returncode == 2


@pytest.mark.long
@pytest.mark.parametrize("given", ["</dev/null | cat", "<&-"])
def test_without_a_terminal_the_book_is_not_opened(tmp_path: Path, given: str) -> None:
    path = tmp_path / "book.headlap"
    done = _in_a_shell(f"{HEADLAP} --book {path} {given}")
    assert done.stderr.startswith("Headlap needs a terminal: ")
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)
    assert not path.exists()


def _a_pipe(path: Path) -> Path:
    os.mkfifo(path)
    return path


def _a_folder(path: Path) -> Path:
    path.mkdir()
    return path


@pytest.mark.long
@pytest.mark.parametrize("make", [_a_pipe, _a_folder, lambda _: Path("/dev/zero")])
def test_a_survey_that_is_no_file_is_refused_and_not_waited_for(
    tmp_path: Path, make: object
) -> None:
    assert callable(make)
    done = _in_a_shell(f"{HEADLAP} takeoff {make(tmp_path / 'survey.toml')}")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("Survey file: ")
    assert done.stderr.endswith("It is not a file: name the file of a survey.\n")
