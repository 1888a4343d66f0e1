"""What is loaded before the first screen stands, seen in a process of its own."""

import subprocess
import sys

import pytest

from tests.architecture.sources import ROOT

HEAVY = {
    "sqlmodel",
    "sqlalchemy",
    "pydantic",
    "pint",
    "highspy",
    "numpy",
    "alembic",
    "holidays",
    "shapely",
}


def loaded_by(code: str) -> set[str]:
    """Run the code in a fresh interpreter; the top-level names of all modules it has loaded."""
    script = f"{code}\nimport sys\nprint(*{{name.split('.')[0] for name in sys.modules}})"
    run = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr
    return set(run.stdout.splitlines()[-1].split())


@pytest.mark.parametrize(
    "module", ["tui.cli", "tui.app", "storage.glance", "storage.places", "domain.week"]
)
def test_importing_what_the_first_screen_needs_loads_nothing_heavy(module: str) -> None:
    assert loaded_by(f"import {module}") & HEAVY == set()
