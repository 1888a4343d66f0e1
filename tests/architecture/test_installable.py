"""The lock file has all that the program needs on Linux, macOS and Windows."""

import re
from collections.abc import Iterator
from contextlib import suppress
from importlib.metadata import PackageNotFoundError, distribution, requires
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


WHEELS = [
    "ast-serialize",
    "grimp",
    "highspy",
    "hypothesis",
    "librt",
    "markupsafe",
    "mypy",
    "numpy",
    "pydantic-core",
    "ruff",
    "shapely",
    "sqlalchemy",
    "typst",
    "zxing-cpp",
]
"""What is not pure Python. Each of the versions locked on 28 November 2026 was fetched for Linux,
macOS and Windows as a wheel of its own, no compiler needed: computed, with pip's own download."""


def test_what_is_not_pure_python_has_wheels_for_every_system() -> None:
    made = []
    for each in _locked():
        with suppress(PackageNotFoundError):
            told = distribution(each.name).read_text("WHEEL") or ""
            if "Root-Is-Purelib: true" not in told:
                made.append(canonicalize_name(each.name))
    assert set(made) <= set(WHEELS), "fetch it for all three systems, then name it here"
    assert {"highspy", "typst", "pydantic-core"} <= set(made)
