"""What holds for every test."""

import gc
import inspect
from pathlib import Path

import pytest

_INTERFACE = Path(__file__).parent / "tui"

_YOUNG = 50_000
"""Objects made until Python looks for what may go: at its own 700 a quarter of the time is that."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what drives the running program: ``make quick`` leaves it out."""
    for item in items:
        function = getattr(item, "function", None)
        if _INTERFACE in item.path.parents and inspect.iscoroutinefunction(function):
            item.add_marker(pytest.mark.walk)


def pytest_collection_finish() -> None:
    """Leave out of every search for what may go what is there to stay: modules and tests."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(_YOUNG)
