"""What holds for every test."""

import inspect
from pathlib import Path

import pytest

_INTERFACE = Path(__file__).parent / "tui"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what drives the running program: ``make quick`` leaves it out."""
    for item in items:
        function = getattr(item, "function", None)
        if _INTERFACE in item.path.parents and inspect.iscoroutinefunction(function):
            item.add_marker(pytest.mark.walk)
