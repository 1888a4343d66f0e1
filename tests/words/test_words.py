"""One word for one thing: every string a user can see is held to the glossary."""

import re
from pathlib import Path

import pytest

from tests.architecture.sources import ROOT
from tests.words.glossary import read_glossary
from tests.words.strings import documents, in_markdown, in_python, in_typst, seen_strings


def test_no_string_that_a_user_sees_holds_what_is_never_said() -> None:
    glossary = read_glossary()
    wrong = [
        f"{seen.path}:{seen.line}: {phrases} in “{seen.words}”"
        for seen in (*seen_strings(), *documents())
        if (phrases := glossary.wrong_in(seen.words))
    ]
    assert wrong == []


def test_no_sentence_holds_a_name_of_the_code() -> None:
    named = re.compile(r"[a-z]_[a-z]|\b[A-Z][a-z]+[A-Z][a-z]")
    sentences = [
        seen for seen in seen_strings() if " " in seen.words and "SELECT" not in seen.words
    ]
    wrong = [
        f"{seen.path}:{seen.line}: {seen.words}" for seen in sentences if named.search(seen.words)
    ]
    assert wrong == []


_KEY = re.compile(
    r"\b[Ff](?:[1-9]|1[0-2])\b|\bctrl\+|\b(?:press|key) .(?: |$|[.,;:])"
    r"|(?:^|[,;:(] )[b-z] (?:to|for|adds?|opens?|shows?|leads?|takes?|saves?|gives?)\b",
    re.IGNORECASE,
)
"""A key that is named by itself: ``F4``, ``ctrl+s``, “press +”, “n to add”."""
_NAMES_KEYS = (
    "tui/frame/commands.py",
    "tui/frame/job_commands.py",
    "tui/frame/main_commands.py",
    "tui/frame/paper_commands.py",
    "tui/shell/help_page.py",
)


def test_no_sentence_names_a_key_that_it_has_not_from_the_table_of_commands() -> None:
    wrong = [
        f"{seen.path}:{seen.line}: {seen.words}"
        for seen in seen_strings()
        if seen.path not in _NAMES_KEYS and _KEY.search(seen.words)
    ]
    assert wrong == []


@pytest.mark.parametrize(
    "words",
    ["F4 leads to the prices.", "Prices (f10)", "ctrl+t sends it.", "Press + to add some.",
     "None yet: n adds one.", "Press {} for that, n to add one."],
)  # fmt: skip
def test_a_key_is_found_however_it_is_named(words: str) -> None:
    assert _KEY.search(words)


@pytest.mark.parametrize(
    ("path", "source"),
    [
        ("domain/planted.py", 'FIELD = Field("weight", "Mass")'),
        ("domain/planted.py", 'FIELD = Field("waste_to", "Taken to", hint="the store")'),
        ("domain/planted.py", 'COMMAND = Command("undo", "f8", "undo", "Take back it.", "week")'),
        ("domain/planted.py", 'raise NotNow(f"{covering} will not do.")'),
        ("tui/planted.typ", 'text("Holds until")'),
    ],
    ids=["a label", "a hint", "the help", "a refusal", "a PDF"],
)
def test_a_phrase_that_is_never_said_is_found_wherever_it_is_planted(
    path: str, source: str
) -> None:
    place: Path = ROOT / path
    read = in_typst if place.suffix == ".typ" else in_python
    assert any(read_glossary().wrong_in(seen.words) for seen in read(place, source))


def test_a_phrase_is_found_in_a_document_across_the_end_of_a_line_and_not_in_its_code() -> None:
    text = "# A page\n\nRun:\n\n```\nthe store\n```\n\nOr `drop it`; it is put on\nrecord.\n"
    glossary = read_glossary()
    found = [
        (seen.line, phrases)
        for seen in in_markdown(ROOT / "planted.md", text)
        if (phrases := glossary.wrong_in(seen.words))
    ]
    assert found == [(9, ["put on record", "on record"])]


def test_ids_styles_and_docstrings_are_not_taken_for_words() -> None:
    source = '''
"""The store."""
class Page:
    """Drop it."""
    DEFAULT_CSS = "Store { color: $ink; }"
FIELD = Field("store", "Stock", only_for=("outlook", "a"))
'''
    assert [seen.words for seen in in_python(ROOT / "domain/planted.py", source)] == ["Stock"]


def test_every_phrase_that_is_allowed_holds_one_that_is_not() -> None:
    glossary = read_glossary()
    bare = [p for p in glossary.allowed if not any(f in p for f in glossary.forbidden)]
    assert bare == []
