"""Python looks for garbage among what is made, not among what is loaded."""

import gc
from collections.abc import Iterator

import pytest

from tui.frame import garbage


@pytest.fixture(autouse=True)
def _as_it_was() -> Iterator[None]:
    often = gc.get_threshold()
    yield
    gc.set_threshold(*often)
    gc.enable()


def test_what_is_loaded_at_the_start_is_never_looked_through() -> None:
    garbage.look_for_none()
    kept = [[] for _ in range(100)]  # type: ignore[var-annotated]
    before = gc.get_freeze_count()
    garbage.look_for_it()
    assert gc.isenabled()
    assert gc.get_freeze_count() >= before + len(kept)


def test_what_is_loaded_afterwards_is_left_out_as_well() -> None:
    garbage.look_for_none()
    garbage.look_for_it()
    before = gc.get_freeze_count()
    kept = [[] for _ in range(100)]  # type: ignore[var-annotated]
    garbage.keep_what_is_loaded()
    assert gc.get_freeze_count() >= before + len(kept)


def test_where_nobody_put_it_off_nothing_changes() -> None:
    before, often = gc.get_freeze_count(), gc.get_threshold()
    garbage.look_for_it()
    garbage.keep_what_is_loaded()
    assert (gc.get_freeze_count(), gc.get_threshold()) == (before, often)
