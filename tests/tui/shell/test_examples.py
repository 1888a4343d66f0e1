"""What the help gives as an example works as it stands; nothing that one system lacks is needed."""

import os
import re
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from domain.coverings.registry import COVERINGS
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import RoofForm
from domain.takeoff.roof_takeoff import take_off
from domain.takeoff.surveyfile import read_survey_file
from storage.folders import book_path
from tui.shell.command_line import main
from tui.shell.examples import EXAMPLES, survey_example

ROOT = Path(__file__).parents[3]


def _home(folder: Path, demo: Path) -> dict[str, str]:
    """The environment of somebody whose own book is the demo's, and who has the command."""
    command = folder / "bin" / "headlap"
    command.parent.mkdir()
    command.write_text(f'#!/bin/sh\nexec {sys.executable} -m tui.shell.command_line "$@"\n')
    command.chmod(0o700)
    data = folder / "data" / "headlap"
    data.mkdir(parents=True)
    (data / book_path(None).name).write_bytes(demo.read_bytes())
    path = f"{command.parent}{os.pathsep}{os.environ['PATH']}"
    own = {"PATH": path, "HOME": str(folder), "XDG_DATA_HOME": str(folder / "data")}
    return os.environ | own | {"PYTHONPATH": str(ROOT)}


@pytest.mark.long
def test_every_example_of_the_help_works_as_it_stands(tmp_path: Path, demo: Path) -> None:
    home = _home(tmp_path, demo)
    here = tmp_path / "here"
    here.mkdir()
    for name, lines in EXAMPLES.items():
        for line in lines.splitlines():
            ran = subprocess.run(
                ["/bin/sh", "-c", line],
                cwd=here,
                env=home,
                stdin=subprocess.DEVNULL,
                capture_output=True,
                text=True,
                check=False,
            )
            assert (ran.returncode, ran.stderr) == (0, ""), f"{name}: {line}: {ran.stderr}"
    made = {path.name for path in here.iterdir()}
    assert {"week.pdf", "shed.toml", "quote.pdf", "tables"} <= made


@pytest.mark.parametrize("form", list(RoofForm))
def test_an_example_of_a_survey_is_a_whole_one(form: RoofForm) -> None:
    survey = read_survey_file(survey_example(form))
    assert survey.measures.form is form
    assert [name for name in (*COVERINGS, *RoofForm) if name not in survey_example(form)] == []
    assert take_off(build_roof(survey.measures), survey.covering, survey.packing).roof.area > 0


_WITHOUT = """
import asyncio, signal, sys
from pathlib import Path

class Missing:
    def find_spec(self, name, path=None, target=None):
        if name in {"fcntl", "termios", "pwd", "resource", "tty", "grp"}:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)

for name in ("fcntl", "termios", "pwd", "resource", "tty", "grp"):
    sys.modules.pop(name, None)
sys.meta_path.insert(0, Missing())
del signal.SIGHUP
import textual.app
textual.app.App.get_driver_class = lambda self: textual.drivers.headless_driver.HeadlessDriver
import textual.drivers.headless_driver
from tui.shell.app import make_app
from datetime import datetime

async def walk():
    app = make_app(Path(sys.argv[1]), lambda: datetime(2026, 11, 25, 19, 30))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        await pilot.press(*"Dave")
        await pilot.press("escape", "escape")
        await pilot.pause(0.2)
    print(app.return_code)

asyncio.run(walk())
"""
"""A start where the modules and the signal are missing that Windows does not have."""


@pytest.mark.long
def test_it_starts_where_what_windows_lacks_is_missing(tmp_path: Path) -> None:
    book = tmp_path / "book.headlap"
    ran = subprocess.run(
        [sys.executable, "-c", _WITHOUT, str(book)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.returncode, ran.stderr) == (0, "")
    assert ran.stdout.strip() in ("0", "None")
    assert book.exists()


def test_the_readme_and_the_help_show_a_whole_survey_file(
    capsys: pytest.CaptureFixture[str],
) -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    blocks = re.findall(r"^```\n(.*?)\n```$", readme, re.MULTILINE | re.DOTALL)
    [shown] = [block for block in blocks if "[roof]" in block]
    with pytest.raises(SystemExit):
        main(["takeoff", "--help"])
    helped = capsys.readouterr().out.partition("a whole survey file:\n")[2]
    of_help = read_survey_file(textwrap.dedent(helped))
    assert read_survey_file(shown) == of_help == read_survey_file(survey_example(RoofForm.APEX))


def test_a_survey_of_over_a_megabyte_is_refused_unread(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    large = tmp_path / "shed.toml"
    with large.open("wb") as file:
        file.truncate(1_000_001)
    assert main(["takeoff", str(large)]) == 2
    assert "over 1 MB" in capsys.readouterr().err
