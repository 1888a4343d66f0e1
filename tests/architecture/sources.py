"""The project's own source files, parsed, for the tests that read them."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGES = ("domain", "storage", "tui", "demo_data")
FOLDERS = (*PACKAGES, "bench", "tests")


@dataclass(frozen=True, slots=True)
class Import:
    """One import as it stands in a file."""

    path: str
    """The file, from the root of the project."""
    module: str
    """What is imported, dotted: ``sqlalchemy.orm``."""
    lazy: bool
    """Whether it stands inside a function."""


def files(*folders: str) -> list[Path]:
    """Every Python file of these top-level folders."""
    return sorted(path for folder in folders for path in (ROOT / folder).rglob("*.py"))


def shown(path: Path) -> str:
    """The path as people write it, from the root of the project."""
    return path.relative_to(ROOT).as_posix()


@cache
def parsed(path: Path) -> ast.Module:
    """What a file holds, to read."""
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def imports(path: Path) -> tuple[Import, ...]:
    """Every import of a file, those for the type checker alone left out."""
    return tuple(_imports(shown(path), parsed(path), lazy=False))


def _imports(path: str, node: ast.AST, *, lazy: bool) -> Iterator[Import]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.If) and ast.unparse(child.test) == "TYPE_CHECKING":
            continue
        if isinstance(child, ast.Import):
            yield from (Import(path, name.name, lazy) for name in child.names)
        elif isinstance(child, ast.ImportFrom):
            yield Import(path, child.module or "", lazy)
        inside = isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef)
        yield from _imports(path, child, lazy=lazy or inside)
