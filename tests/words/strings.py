"""Every string that a user can see, found in the program's own source.

A string is taken for seen unless it is plainly something else: a docstring, a style, a pattern, a
name. Rather one too many than one too few: what is listed here is held to the glossary.
"""

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.architecture.sources import PACKAGES, ROOT, files, shown

_NAME = re.compile(r"[a-z0-9_]?[a-z0-9_.:#%*()'|\[\]{}@$/+,-]*")
"""A single word in small letters: a key, an id, a column."""
_WORDED = frozenset({"Field", "Command", "Column", "Check", "Reminder", "ChoiceField", "Choice"})
"""Calls whose arguments are shown, even where one is a single small word."""
_IDS = {"Field": {0}, "Command": {0, 1, 4}, "Check": {0}}
"""Of those, the arguments that are names after all, by position."""
_ID_KEYWORDS = frozenset({"id", "where", "key", "only_for", "classes", "name", "stage"})
_NOT_SHOWN = frozenset(
    {"compile", "fullmatch", "sub", "query_one", "query", "getattr", "import_module", "Binding",
     "TypeVar", "add_class", "set_class", "set_classes", "run_action", "strftime", "cast"}
)  # fmt: skip
"""Calls whose arguments are no words: patterns, selectors, names."""
_STORED_ALONE = frozenset({"LineKind"})
"""Enumerations whose values are kept in the book and shown nowhere."""
_IS_CODE = re.compile(r"\$|^\s*(SELECT|PRAGMA|CASE|AND|BEGIN) ")
"""A style, which names colours with ``$``, or a statement for the database."""
_RAISED = re.compile(r"RAISE\(ABORT, '([^']+)'\)")
"""What a trigger of the database says."""
_CODE_IN_MARKDOWN = re.compile(r"^```.*?^```|`[^`\n]+`", re.DOTALL | re.MULTILINE)
_PARAGRAPH = re.compile(r"\S(?:.|\n(?!\n))*")
_TYPST = re.compile(r'"((?:[^"\\]|\\.)*)"')


@dataclass(frozen=True, slots=True)
class Seen:
    """A string that a user can see."""

    path: str
    """The file, from the root of the project."""
    line: int
    words: str
    """What is put in at run time stands as ``{}``."""


@cache
def seen_strings() -> tuple[Seen, ...]:
    """Every string of the program that a user can see, by file and line."""
    found = [seen for path in files(*PACKAGES) for seen in in_python(path)]
    papers = sorted(path for folder in PACKAGES for path in (ROOT / folder).rglob("*.typ"))
    return (*found, *(seen for path in papers for seen in in_typst(path)))


def documents() -> list[Seen]:
    """Every paragraph of the documents that a user reads; the glossary quotes what it forbids."""
    docs = [path for path in sorted((ROOT / "docs").glob("*.md")) if path.name != "words.md"]
    pages = [ROOT / "README.md", ROOT / "CHANGELOG.md", *docs]
    return [seen for path in pages for seen in in_markdown(path)]


def in_markdown(path: Path, source: str | None = None) -> Iterator[Seen]:
    """The paragraphs of a document, without what stands in it as code."""
    text = path.read_text(encoding="utf-8") if source is None else source
    plain = _CODE_IN_MARKDOWN.sub(lambda match: "\n" * match[0].count("\n"), text)
    for match in _PARAGRAPH.finditer(plain):
        yield Seen(shown(path), plain[: match.start()].count("\n") + 1, match[0])


def in_python(path: Path, source: str | None = None) -> Iterator[Seen]:
    """The seen strings of a Python file; ``source`` stands in for what is in it."""
    text = path.read_text(encoding="utf-8") if source is None else source
    where = shown(path)
    if "/migrations/" in where:
        for match in _RAISED.finditer(text):
            yield Seen(where, text[: match.start()].count("\n") + 1, match[1])
        return
    for line, words in _in_tree(ast.parse(text), shown_even_if_small=False):
        yield Seen(where, line, words)


def in_typst(path: Path, source: str | None = None) -> Iterator[Seen]:
    """The seen strings of a template of the typesetter."""
    text = path.read_text(encoding="utf-8") if source is None else source
    for number, line in enumerate(text.splitlines(), start=1):
        for match in _TYPST.finditer(line):
            if not _NAME.fullmatch(match[1]):
                yield Seen(shown(path), number, match[1])


def _in_tree(node: ast.AST, *, shown_even_if_small: bool) -> Iterator[tuple[int, str]]:
    """The strings under a node, each with its line."""
    if isinstance(node, ast.Constant | ast.JoinedStr):
        words = _words(node)
        if _is_worded(words, shown_even_if_small):
            yield node.lineno, words
        if isinstance(node, ast.JoinedStr):
            for part in node.values:
                if isinstance(part, ast.FormattedValue):
                    yield from _in_tree(part.value, shown_even_if_small=False)
        return
    for child, small in _children(node, shown_even_if_small):
        yield from _in_tree(child, shown_even_if_small=small)


def _children(node: ast.AST, small: bool) -> Iterator[tuple[ast.AST, bool]]:
    """What stands under a node and may be seen, and whether even a single small word is."""
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return  # a docstring
    if isinstance(node, ast.Assign | ast.AnnAssign) and _is_hidden_name(node):
        return
    if isinstance(node, ast.Call):
        yield from _arguments(node)
        return
    if isinstance(node, ast.ClassDef):
        is_enum = any("Enum" in ast.unparse(base) for base in node.bases)
        body = [] if node.name in _STORED_ALONE else node.body
        yield from ((statement, is_enum) for statement in body)
        return
    types = [getattr(node, "annotation", None), getattr(node, "returns", None)]
    for child in ast.iter_child_nodes(node):
        inside = isinstance(node, ast.Assign | ast.AnnAssign | ast.Tuple | ast.List | ast.IfExp)
        if child not in types:
            yield child, small and inside


def _arguments(call: ast.Call) -> Iterator[tuple[ast.AST, bool]]:
    """The arguments of a call that may be seen."""
    name = call.func.attr if isinstance(call.func, ast.Attribute) else ast.unparse(call.func)
    yield call.func, False
    if name in _NOT_SHOWN:
        return
    worded = name in _WORDED
    for place, argument in enumerate(call.args):
        yield argument, worded and place not in _IDS.get(name, set())
    for keyword in call.keywords:
        if keyword.arg not in _ID_KEYWORDS:
            yield keyword.value, worded


def _is_hidden_name(node: ast.Assign | ast.AnnAssign) -> bool:
    """Tell whether what is assigned is a style or a list of names."""
    targets = node.targets if isinstance(node, ast.Assign) else [node.target]
    names = [target.id for target in targets if isinstance(target, ast.Name)]
    return any("CSS" in name or name in ("__all__", "BINDINGS") for name in names)


def _words(node: ast.Constant | ast.JoinedStr) -> str:
    """The text of a literal; empty for what is no text."""
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else ""
    parts = (part.value if isinstance(part, ast.Constant) else "{}" for part in node.values)
    return "".join(str(part) for part in parts)


def _is_worded(words: str, shown_even_if_small: bool) -> bool:
    """Tell whether a text has words in it that could be read."""
    has_letters = any(character.isalpha() for character in words.replace("{}", ""))
    return (
        has_letters
        and not _IS_CODE.search(words)
        and (shown_even_if_small or not _NAME.fullmatch(words))
    )
