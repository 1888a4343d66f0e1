"""The documents name what is there, and what is there is named in a document."""

import re
import tomllib

import pytest

from tests.architecture.sources import FOLDERS, ROOT
from tui.shell.command_line import main

README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def _help_of(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    with pytest.raises(SystemExit):
        main([*arguments, "--help"])
    return capsys.readouterr().out


def _parts(capsys: pytest.CaptureFixture[str]) -> list[str]:
    found = re.findall(r"^ {4}(\w+) +\w", _help_of(capsys), re.MULTILINE)
    assert "takeoff" in found
    return found


def test_the_first_paragraph_is_the_job() -> None:
    first = README.split("\n\n")[1]
    told = ("sole trader", "sheds", "garages", "shingles", "felt", "prices", "invoices")
    assert [words for words in told if words not in first] == []


def test_two_commands_come_next_each_alone_in_its_block() -> None:
    blocks = re.findall(r"^```\n(.*?)\n```$", README, re.MULTILINE | re.DOTALL)
    assert blocks[:2] == ["make demo", "make test"]


def test_every_part_of_the_command_line_is_in_the_readme(
    capsys: pytest.CaptureFixture[str],
) -> None:
    missing = [part for part in _parts(capsys) if f"headlap {part}" not in README]
    assert missing == []


def test_every_option_of_the_command_line_is_in_the_readme(
    capsys: pytest.CaptureFixture[str],
) -> None:
    pages = [_help_of(capsys), *(_help_of(capsys, part) for part in _parts(capsys))]
    options = {option for page in pages for option in re.findall(r"--\w[\w-]*", page)}
    assert {option for option in options - {"--help"} if option not in README} == set()


def test_every_target_of_make_is_in_a_document() -> None:
    rules = (ROOT / "Makefile").read_text(encoding="utf-8")
    [targets] = re.findall(r"^\.PHONY: (.*)$", rules, re.MULTILINE)
    missing = [t for t in targets.split() if f"make {t}" not in README + DEVELOPERS]
    assert missing == []


def test_every_link_in_the_readme_leads_to_a_file() -> None:
    links = re.findall(r"\]\(([^)]+)\)", README)
    assert links
    assert [link for link in links if not (ROOT / link).is_file()] == []


def test_every_path_in_the_developers_page_is_there() -> None:
    paths = re.findall(rf"`((?:{'|'.join(FOLDERS)})/[\w./-]*)`", DEVELOPERS)
    assert len(paths) > 10
    assert [path for path in paths if not (ROOT / path).exists()] == []


def test_every_top_level_folder_is_in_the_developers_page() -> None:
    assert [folder for folder in FOLDERS if f"`{folder}/`" not in DEVELOPERS] == []


def test_the_changelog_tells_of_this_version() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    changes = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    assert f"\n## {project['version']}" in changes
