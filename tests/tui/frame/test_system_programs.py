"""Opening and copying by programs of the system, whichever there are."""

from pathlib import Path

import pytest

from tests.tui.programs import stand_in
from tui.frame.clipboard import copied
from tui.frame.opener import opened

HOSTILE = "-rf $(touch x) ; £3\n'\u202e"


async def test_the_opener_is_given_the_one_path_and_keeps_quiet(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    noted = stand_in(tmp_path, "xdg-open", monkeypatch)
    monkeypatch.chdir(tmp_path)
    assert await opened(Path(HOSTILE))
    assert noted.read_text(encoding="utf-8") == f"{tmp_path / HOSTILE}\n"
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize(("ends", "runs_s", "done"), [(3, 0, False), (0, 5, True)])
async def test_an_opener_that_refuses_is_known_and_one_that_stays_is_not_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ends: int, runs_s: float, done: bool
) -> None:
    stand_in(tmp_path, "xdg-open", monkeypatch, ends=ends, runs_s=runs_s)
    assert await opened(tmp_path) is done


async def test_nothing_is_opened_without_a_desktop(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    noted = stand_in(tmp_path, "xdg-open", monkeypatch)
    monkeypatch.delenv("DISPLAY")
    assert not await opened(tmp_path)
    assert not noted.exists()


async def test_a_tool_that_takes_the_text_has_copied_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    noted = stand_in(tmp_path, "xclip", monkeypatch)
    assert await copied(HOSTILE)
    assert noted.read_text(encoding="utf-8") == f"-selection\nclipboard\n{HOSTILE}"
    assert capfd.readouterr() == ("", "")


async def test_what_no_tool_takes_is_not_said_to_be_copied(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stand_in(tmp_path, "xsel", monkeypatch, ends=1)
    assert not await copied(HOSTILE)
