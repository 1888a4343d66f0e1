"""Adding a covering is one place: a shingle that is only listed reaches everything."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.mark.long
@pytest.mark.parametrize("reached", ["tests/fourth_shingle/reached.py"])
def test_a_fourth_shingle_reaches_survey_prices_comparison_quote_and_papers(reached: str) -> None:
    plugin = ("-p", "tests.fourth_shingle.register", "-p", "no:cacheprovider")
    command = (sys.executable, "-m", "pytest", "-x", *plugin, reached)
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert " passed" in done.stdout or "[100%]" in done.stdout, done.stdout
