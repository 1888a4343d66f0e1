"""The lock file has all that the program needs on Linux, macOS and Windows."""

import re
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, requires
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]

SYSTEMS = {
    "linux": {"sys_platform": "linux", "platform_system": "Linux", "os_name": "posix"},
    "macOS": {"sys_platform": "darwin", "platform_system": "Darwin", "os_name": "posix"},
    "Windows": {"sys_platform": "win32", "platform_system": "Windows", "os_name": "nt"},
}
"""What a marker asks of a system; source: the Python packaging specification of markers, read."""


def _locked() -> Iterator[Requirement]:
    for line in (ROOT / "requirements.lock").read_text(encoding="utf-8").splitlines():
        if re.match(r"[a-z0-9]", line):
            yield Requirement(line.rstrip(" \\"))


def _needed(name: str, system: dict[str, str], found: set[str]) -> set[str]:
    """The names of all that a package needs on a system, itself left out.

    What is installed only on another system is not here to be asked for more.
    """
    try:
        wanted = requires(name) or []
    except PackageNotFoundError:
        return found
    for text in wanted:
        need = Requirement(text)
        key = canonicalize_name(need.name)
        if key in found or not (need.marker is None or need.marker.evaluate(system | _PLAIN)):
            continue
        found.add(key)
        _needed(key, system, found)
    return found


_PLAIN = {"extra": ""}


@pytest.mark.parametrize("system", SYSTEMS)
def test_what_is_needed_on_a_system_is_locked_for_it(system: str) -> None:
    asked = SYSTEMS[system]
    locked = {
        canonicalize_name(each.name)
        for each in _locked()
        if each.marker is None or each.marker.evaluate(asked | _PLAIN)
    }
    needed = _needed("headlap", asked, set())
    assert {"textual", "sqlmodel", "typst", "highspy"} <= needed
    assert needed <= locked
