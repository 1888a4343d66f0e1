"""What holds for every test."""

import gc
import inspect
from pathlib import Path

import pytest
from hypothesis import settings

_INTERFACE = Path(__file__).parent / "tui"

_YOUNG = 50_000
"""Objects made until Python looks for what may go: at its own 700 a quarter of the time is that."""

gc.set_threshold(_YOUNG)  # at once, since what is imported and collected stays


# Nothing is held against a clock: the machine may be busy, and the first example loads libraries.
settings.register_profile("whole", deadline=None, max_examples=100)
settings.register_profile("quick", deadline=None, max_examples=30)
settings.load_profile("whole")


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """The demo's whole book, to read: every worker has a copy of its own."""
    from tests.laid_out_once import copy_of_demo

    base = tmp_path_factory.getbasetemp()
    shared = base if worker_id == "master" else base.parent
    return copy_of_demo(shared, tmp_path_factory.mktemp("demo") / "demo.headlap")


@pytest.fixture(autouse=True)
def _no_desktop(monkeypatch: pytest.MonkeyPatch) -> None:
    """Open nothing on the desktop of whoever runs the tests, and leave their clipboard alone."""
    for variable in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(variable, raising=False)


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
