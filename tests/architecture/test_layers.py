"""What the import contracts of pyproject.toml cannot say: who loads what, how large a file is."""

import ast
import re

import pytest

from tests.architecture.sources import FOLDERS, PACKAGES, ROOT, files, imports, parsed, shown

ONLY_IN = {
    "cattrs": r"domain/snapshot\.py",
    "pint": r"domain/units\.py",
    "highspy": r"domain/integer_programme\.py",
    "numpy": r"domain/integer_programme\.py",
    "holidays": r"domain/days/calendar\.py",
    "stdnum": r"domain/accounts/identifiers\.py",
    "alembic": r"storage/.+\.py",
    "sqlmodel": r"storage/.+\.py",
    "sqlalchemy": r"storage/.+\.py",
    "sqlite3": r"storage/.+\.py",
    "typst": r"tui/papers/as_pdf\.py",
    "platformdirs": r"storage/folders\.py",
}
LAZY = {"cattrs", "pint", "highspy", "numpy", "holidays"}


@pytest.mark.parametrize("library", ONLY_IN)
def test_a_heavy_library_is_imported_in_its_place_alone(library: str) -> None:
    found = {
        found.path
        for path in files(*PACKAGES)
        for found in imports(path)
        if found.module.split(".")[0] == library
    }
    assert {path for path in found if not re.fullmatch(ONLY_IN[library], path)} == set()


def test_the_domain_loads_heavy_libraries_only_inside_functions() -> None:
    eager = [
        f"{found.path}: {found.module}"
        for path in files("domain")
        for found in imports(path)
        if found.module.split(".")[0] in LAZY and not found.lazy
    ]
    assert eager == []


def test_the_domain_reads_no_clock_and_no_file() -> None:
    clocks = {"now", "today", "utcnow", "time", "monotonic", "perf_counter"}
    reads = {"open", "read_text", "read_bytes", "write_text", "print", "input"}
    found = []
    for path in files("domain"):
        for node in ast.walk(parsed(path)):
            if not isinstance(node, ast.Call):
                continue
            called = ast.unparse(node.func)
            of_a_clock = re.fullmatch(rf"(datetime|date|time)\.({'|'.join(clocks)})", called)
            if of_a_clock or called.split(".")[-1] in reads:
                found.append(f"{shown(path)}:{node.lineno} {called}")
    assert found == []


def test_no_file_is_longer_than_400_lines() -> None:
    long = {
        shown(path): lines
        for path in files(*FOLDERS)
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert long == {}


def test_every_package_says_what_belongs_in_it() -> None:
    silent = [
        shown(path)
        for path in files(*PACKAGES, "bench")
        if path.name == "__init__.py" and not ast.get_docstring(parsed(path))
    ]
    assert silent == []


def test_every_folder_with_code_is_a_package_of_its_own() -> None:
    folders = {path.parent for path in files(*PACKAGES, "bench")}
    loose = [shown(folder) for folder in folders if not (folder / "__init__.py").exists()]
    assert loose == []


def test_the_wheel_and_the_contracts_name_every_package() -> None:
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    named = ", ".join(f'"{package}"' for package in PACKAGES)
    assert f"packages = [{named}]" in text
    assert f"root_packages = [{named}]" in text
