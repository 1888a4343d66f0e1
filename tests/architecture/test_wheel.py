"""The wheel holds everything, and runs where the checkout is not."""

import os
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

from tests.architecture.sources import PACKAGES, ROOT, files, shown
from tests.tui.papers.pdf import fonts_of, pages_of

KEPT_BESIDE_CODE = {".tcss", ".toml", ".ini", ".mako", ".sql", ".txt", ".json", ".typ", ".otf"}


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    _run(sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder), cwd=ROOT)
    [built] = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The ``headlap`` command of an environment that holds the wheel.

    The libraries come from the environment of the tests, so that nothing is fetched.
    """
    folder = tmp_path_factory.mktemp("elsewhere") / "environment"
    venv.create(folder, with_pip=False, symlinks=os.name != "nt")
    scheme = {"base": str(folder), "platbase": str(folder)}
    scripts = Path(sysconfig.get_path("scripts", "venv", scheme))
    python = scripts / f"python{sysconfig.get_config_var('EXE') or ''}"
    install = ("install", "--quiet", "--no-index", "--no-deps", "--no-compile", str(wheel))
    _run(sys.executable, "-m", "pip", "--python", str(python), *install, cwd=folder)
    place = Path(sysconfig.get_path("purelib", "venv", scheme))
    (place / "libraries.pth").write_text(sysconfig.get_path("purelib"), encoding="utf-8")
    return scripts / "headlap"


def test_it_holds_every_source_file_and_what_lies_beside_them(wheel: Path) -> None:
    held = set(zipfile.ZipFile(wheel).namelist())
    code = {shown(path) for path in files(*PACKAGES)}
    beside = {
        shown(path)
        for package in PACKAGES
        for path in (ROOT / package).rglob("*")
        if path.suffix in KEPT_BESIDE_CODE
    }
    assert "tui/shell/styles/headlap.tcss" in beside
    assert "demo_data/scenario.toml" in beside
    assert {"tui/papers/paper.typ", "tui/papers/fonts/OFL.txt"} <= beside
    assert any(name.startswith("storage/migrations/") for name in code)
    assert code | beside <= held


def test_it_holds_nothing_that_only_developers_need(wheel: Path) -> None:
    tops = {name.split("/")[0] for name in zipfile.ZipFile(wheel).namelist()}
    assert {top for top in tops if not top.endswith(".dist-info")} == set(PACKAGES)


@pytest.mark.long
def test_the_command_helps(installed: Path) -> None:
    assert "usage: headlap" in _run(str(installed), "--help", cwd=installed.parent)


@pytest.mark.long
def test_the_code_that_runs_is_the_wheels(installed: Path) -> None:
    python = str(installed.parent / "python")
    for package in PACKAGES:
        where = _run(python, "-c", f"import {package}; print({package}.__file__)", cwd=Path("/"))
        assert Path(where.strip()).is_relative_to(installed.parents[1])


@pytest.mark.long
def test_the_demo_without_a_terminal_prints_the_week_and_leaves_nothing(
    installed: Path, tmp_path: Path
) -> None:
    home = str(tmp_path)
    printed = _run(str(installed), "demo", cwd=tmp_path, HOME=home, XDG_DATA_HOME=home, TMPDIR=home)
    assert "Tonight" in printed
    assert list(tmp_path.iterdir()) == []


@pytest.mark.long
def test_a_paper_is_set_with_the_template_and_fonts_of_the_wheel(
    installed: Path, tmp_path: Path
) -> None:
    survey, paper = ROOT / "demo_data" / "shed.toml", tmp_path / "take-off.pdf"
    _run(str(installed), "takeoff", str(survey), "--pdf", str(paper), cwd=tmp_path)
    content = paper.read_bytes()
    assert "Chalk lines" in pages_of(content, 1)[0]
    assert {name.split("-")[0] for name in fonts_of(content)} == {"Inter"}


def _run(*command: str, cwd: Path, **variables: str) -> str:
    """Run to the end without a terminal, in an environment that points at no checkout."""
    environment = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")} | variables
    run = subprocess.run(
        command,
        cwd=cwd,
        env=environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    return run.stdout
