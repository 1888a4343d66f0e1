"""The table of commands holds together: each does something, no key means two things at once."""

import importlib
import pkgutil
from collections import Counter
from itertools import chain

import pytest
from textual.actions import parse
from textual.binding import Binding

import tui
from tui.frame.command_places import PLACES, Command
from tui.frame.command_table import commands_near, every_command
from tui.job.page import JobPage

READ_AS_ANOTHER_KEY = {"ctrl+m", "ctrl+i", "ctrl+h", "ctrl+left_square_bracket"}


def _classes_with_keys() -> list[type]:
    """Every class of the interface that binds keys of its own."""
    modules = pkgutil.walk_packages(tui.__path__, "tui.")
    found = [vars(importlib.import_module(module.name)).values() for module in modules]
    ours = {
        value
        for value in chain.from_iterable(found)
        if isinstance(value, type) and value.__module__.startswith("tui.")
    }
    return sorted((c for c in ours if vars(c).get("BINDINGS")), key=lambda c: c.__qualname__)


def _bound(owner: type) -> list[Binding]:
    return list(Binding.make_bindings(vars(owner)["BINDINGS"]))


CLASSES = _classes_with_keys()


def _keys(command: Command) -> list[str]:
    return command.key.split(",")


def _ident(command: Command) -> str:
    return f"{command.where}.{command.id}"


@pytest.mark.parametrize("command", every_command(), ids=_ident)
def test_a_command_is_bound_where_it_belongs_and_has_an_action_there(command: Command) -> None:
    owners = [c for c in CLASSES if any(b.id == _ident(command) for b in _bound(c))]
    assert owners, f"nothing binds the commands of {command.where}"
    _, action, _ = parse(command.id)
    without = [c.__qualname__ for c in owners if not hasattr(c, f"action_{action}")]
    assert without == []


@pytest.mark.parametrize("command", every_command(), ids=_ident)
def test_a_command_has_short_words_and_a_sentence_of_help(command: Command) -> None:
    assert command.where in PLACES
    assert command.words == command.words.lower()
    assert 0 < len(command.words) <= (16 if command.footer else 24)
    assert command.help[0].isupper()
    assert command.help.endswith(".")
    assert len(command.help) > len(command.words)


@pytest.mark.parametrize("place", PLACES)
def test_what_a_place_loads_has_all_of_its_commands(place: str) -> None:
    of_place = [c for c in every_command() if c.where == place]
    assert [c for c in commands_near((place,)) if c.where == place] == of_place


@pytest.mark.parametrize("place", PLACES)
def test_no_key_means_two_things_in_one_place(place: str) -> None:
    around = {"anywhere", place}
    if place in {c.place for c in _sheets()}:
        around.add("job")
    keys = Counter(key for c in every_command() if c.where in around for key in _keys(c))
    again = {"f8"} if place == "undo" else set()  # the key that asked is a yes to what it asked
    assert {key for key, times in keys.items() if times > 1} == again


@pytest.mark.parametrize("place", PLACES)
def test_the_line_of_keys_of_a_place_fits_80_columns(place: str) -> None:
    assert len([c for c in every_command() if c.where == place and c.footer]) <= 6


def test_no_command_has_a_key_that_terminals_read_as_another() -> None:
    assert {key for c in every_command() for key in _keys(c)} & READ_AS_ANOTHER_KEY == set()


def test_no_letter_of_a_command_is_taken_by_a_widget() -> None:
    declared = {_ident(c) for c in every_command()}
    taken = {b.key for c in CLASSES for b in _bound(c) if b.id not in declared}
    letters = {key for c in every_command() for key in _keys(c) if len(key) == 1}
    assert letters & taken == set()


def _sheets() -> list[type[JobPage]]:
    return [c for c in CLASSES if issubclass(c, JobPage)]
