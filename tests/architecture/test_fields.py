"""Fields are found by their ids: unique in a form, and those that refusals name are declared."""

import ast
import importlib
from collections import defaultdict
from collections.abc import Iterator

import pytest

from domain.job import Stage
from tests import builders, priced
from tests.architecture.sources import ROOT, files, parsed, shown
from tui.job.quote.quote_fields import acceptance_fields
from tui.widgets.field_row import Field

DECLARE = {"Field", "_measure"}
NO_FORM = {
    ("tui/shell", "'book'"): "an option of the command line",
    ("tui/shell", "'backup'"): "what is given to headlap restore",
    ("tui/shell", "'folder'"): "what is given to headlap export",
    ("tui/shell", "'to'"): "an option of headlap backup",
    ("tui/shell", "'survey_file'"): "an option of the command line",
    ("tui/job/money", "'issued_on'"): "the day of an invoice is today's, never typed",
}
"""What is refused, or asked about, under tui/ although no form asks for it, and why."""


def _calls(tree: ast.AST) -> Iterator[tuple[str, ast.Call]]:
    """Every call of a plain name, with the name."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            yield node.func.id, node


def _literal(call: ast.Call, at: int) -> str | None:
    """A text that stands in a call as it is written, None if something else does."""
    given = call.args[at] if at < len(call.args) else None
    is_text = isinstance(given, ast.Constant) and isinstance(given.value, str)
    return ast.unparse(given) if given and (is_text or isinstance(given, ast.JoinedStr)) else None


def _refusers() -> dict[str, int]:
    """Every function that is told the field it reads, and the place of that among what it takes."""
    found = {"Refused": 0}
    for path in files("domain", "tui"):
        for node in ast.walk(parsed(path)):
            if isinstance(node, ast.FunctionDef):
                names = [arg.arg for arg in node.args.args]
                if "field" in names and names[0] != "self":
                    found[node.name] = names.index("field")
    return found


def _declared() -> dict[str, set[str]]:
    """The ids of the fields of each folder, as they are written."""
    found: dict[str, set[str]] = defaultdict(set)
    for path in files("tui"):
        ids = (_literal(call, 0) for name, call in _calls(parsed(path)) if name in DECLARE)
        found[shown(path.parent)].update(id_ for id_ in ids if id_)
    return found


def _named() -> Iterator[tuple[str, str]]:
    """The folder and the id of every field that is named where it is read or refused."""
    refusers = _refusers()
    for path in files("tui"):
        for name, call in _calls(parsed(path)):
            id_ = _literal(call, refusers[name]) if name in refusers else None
            if id_:
                yield shown(path.parent), id_


def test_what_is_refused_is_the_id_of_a_field_beside_it() -> None:
    declared, named = _declared(), set(_named())
    assert ("tui/job/quote", "'early_request_on'") in named
    assert ("tui/job/booking", "f'day{n}'") in named
    undeclared = {(folder, id_) for folder, id_ in named if id_ not in declared[folder]}
    assert undeclared == set(NO_FORM)


def _forms() -> Iterator[tuple[str, tuple[Field, ...]]]:
    """Every tuple of fields that a module holds, by its name."""
    for path in files("tui"):
        if not any(name in DECLARE for name, _ in _calls(parsed(path))):
            continue
        module = importlib.import_module(".".join(path.relative_to(ROOT).with_suffix("").parts))
        for name, value in vars(module).items():
            if isinstance(value, tuple) and value and all(isinstance(f, Field) for f in value):
                yield f"{module.__name__}.{name}", value


FORMS = dict(_forms())


@pytest.mark.parametrize("name", FORMS)
def test_the_ids_of_a_form_are_unique(name: str) -> None:
    ids = [field.id for field in FORMS[name]]
    assert sorted(ids) == sorted(set(ids))


def test_the_ids_of_a_form_that_is_put_together_are_unique() -> None:
    ids = [
        field.id
        for field in acceptance_fields(builders.job_at(Stage.QUOTED), priced.three_options())
    ]
    assert len(ids) == len(set(ids))
    for path in files("tui"):
        for node in ast.walk(parsed(path)):
            if isinstance(node, ast.FunctionDef):
                made = [_literal(call, 0) for name, call in _calls(node) if name in DECLARE]
                literal = [id_ for id_ in made if id_]
                assert len(literal) == len(set(literal)), f"{shown(path)}: {node.name}"
