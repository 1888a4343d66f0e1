"""Every name of a main screen leads to that screen."""

from importlib import import_module

import pytest

from tui.frame.commands import commands
from tui.frame.screen import BaseScreen
from tui.shell.app import SCREENS


@pytest.mark.parametrize("where", SCREENS)
def test_the_screen_is_there_under_its_name(where: str) -> None:
    module, kind = SCREENS[where]
    screen = getattr(import_module(f"tui.{module}"), kind)
    assert issubclass(screen, BaseScreen)
    assert screen.place == where


def test_every_command_that_goes_to_a_screen_finds_it() -> None:
    asked = {c.id for c in commands("anywhere") if c.id.startswith("go(")}
    from_the_week = {c.id for c in commands("week")} & SCREENS.keys()
    anywhere = {"week", "jobs", *SCREENS} - from_the_week
    assert asked == {f"go('{where}')" for where in anywhere}
