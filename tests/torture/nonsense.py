"""Texts that are nearly right, and all that reads what is typed: read, or refused by its field."""

import random
import re
import time
import unicodedata
from collections.abc import Callable
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any

from domain.days.calendar import show_date
from domain.days.dates import read_date, read_past_date
from domain.errors import Refused
from domain.money import read_money, read_rough_money, show_money
from domain.takeoff.surveyfile import read_survey_file
from domain.units import parse_angle, parse_length, parse_offset, parse_weight
from storage.texts import without_control
from storage.week_and_jobs import find_jobs
from tests.architecture.sources import ROOT
from tests.storage.books import query
from tests.torture.outcome import Outcome
from tests.tui.test_reading import ABSURD, FORMS, TODAY

_SLOW_S = 2.0
"""Of the processor; nothing that is typed takes as long to read."""
_GOOD = re.findall(r"`([^`]+)`", (ROOT / "docs" / "typing.md").read_text(encoding="utf-8"))
_SURVEYS = [path.read_text("utf-8") for path in (ROOT / "tui/shell/surveys").glob("*.toml")]
_SIGNS = "0123456789.,/'\" -+£°½¼⅞²③٣kmftin[]=_#\n\t\x00\u202e\u200d🏚é\ud800%"

_Try = Callable[[random.Random], str]


def fuzzed(tries: int, seed: int, folder: Path, book: Path) -> list[Outcome]:
    """So many in all: lengths, dates, money, survey files, search in a book, forms."""
    kinds: dict[str, _Try] = {
        "lengths": _length,
        "dates": _date,
        "money": _money,
        "survey files": _survey,
        "search": _searching(book),
        "forms": _form,
    }
    return [_fuzzed(kind, once, tries // len(kinds), seed, folder) for kind, once in kinds.items()]


def _fuzzed(kind: str, once: _Try, tries: int, seed: int, folder: Path) -> Outcome:
    faults = []
    for number in range(tries):
        name = f"{seed} {kind} {number}"
        began = time.process_time()
        try:
            fault = once(random.Random(name))  # noqa: S311 -- chance that can be repeated
        except Exception as error:
            fault = f"{type(error).__name__}: {error}"
        took = time.process_time() - began
        if not fault and took > _SLOW_S:
            fault = f"took {took:.1f} s"
        if fault:
            faults.append(f"random.Random({name!r}): {fault}")
    folder.joinpath(f"fuzzed {kind}.txt").write_text("\n".join(faults), "utf-8", "replace")
    return Outcome(f"fuzzed {kind}", tries, tuple(faults[:10]))


def nearly_right(chance: random.Random, good: list[str]) -> str:
    """A good or an absurd text, with some of it lost, doubled, swapped or put in."""
    text = chance.choice(good if chance.random() < 0.8 else ABSURD)
    for _ in range(chance.choice((0, 1, 1, 2, 3, 8))):
        at = chance.randrange(len(text) + 1)
        change = chance.randrange(5)
        if change == 0:
            text = text[:at] + text[at + 1 :]
        elif change == 1:
            text = text[:at] + chance.choice(_SIGNS) + text[at:]
        elif change == 2:
            text = text[:at] + text[at : at + 4] * 2 + text[at + 4 :]
        elif change == 3:
            text += chance.choice((" ", "")) + chance.choice(good)[: chance.randrange(30)]
        else:
            text = text[:at] + chance.choice((str.upper, str.lower, str.title))(text[at:])
    return text


def _refusal(refused: Refused, *fields: str) -> str:
    """What is wrong with a refusal: it names no field, or cannot be read on one line."""
    told = str(refused)
    if fields and refused.field not in fields:
        return f"names {refused.field}: {told}"
    if not told.isprintable() or len(told) > 400 or not told.endswith((".", "”")):
        return f"is no sentence: {told!r}"
    return ""


def _read_or_refused(text: str, read: Callable[[str], Any], again: Callable[[Any], bool]) -> str:
    try:
        value = read(text)
    except Refused as refused:
        return _refusal(refused, "field")
    return "" if again(value) else f"{text!r} is read as {value!r}, which is not read as itself"


def _length(chance: random.Random) -> str:
    text = nearly_right(chance, _GOOD)
    parse = chance.choice((parse_length, parse_offset, parse_angle, parse_weight))

    def again(read: Any) -> bool:
        amount = (
            read.degrees if parse is parse_angle else read.kg if parse is parse_weight else read.mm
        )
        same: bool = read == parse("field", read.typed)
        return same and (parse is parse_offset or amount >= 0) and abs(amount) <= 10**9

    return _read_or_refused(text, lambda typed: parse("field", typed), again)


def _date(chance: random.Random) -> str:
    text = nearly_right(chance, _GOOD)
    read = chance.choice((read_date, read_past_date))

    def again(day: date) -> bool:
        return 2000 <= day.year <= 2099 and read_date("field", show_date(day), TODAY) == day

    return _read_or_refused(text, lambda typed: read("field", typed, TODAY), again)


def _money(chance: random.Random) -> str:
    text = nearly_right(chance, _GOOD)
    read = chance.choice((read_money, read_rough_money))

    def again(pence: int) -> bool:
        return pence >= 0 and read_money("field", show_money(pence)) == pence

    return _read_or_refused(text, lambda typed: read("field", typed), again)


def _survey(chance: random.Random) -> str:
    try:
        survey = read_survey_file(nearly_right(chance, _SURVEYS))
    except Refused as refused:
        return _refusal(refused)
    lengths = [survey.measures.length, survey.measures.span, survey.measures.rise]
    bad = [each for each in lengths if each is not None and each.mm < Fraction(0)]
    return f"reads {bad}" if bad else ""


def _searching(book: Path) -> _Try:
    """Compares what is found with a plain look through every name and place of the book."""
    wanted = """SELECT job.id, customer.name || ' ' || site.place || ' ' || job.ref FROM job
                JOIN site ON site.id = site_id JOIN customer ON customer.id = customer_id"""
    words = {key: _folded(text) for key, text in query(book, wanted)}
    known = [word for text in words.values() for word in text.split()]

    def once(chance: random.Random) -> str:
        typed = nearly_right(chance, known)
        found = {line.id for line in find_jobs(book, typed)[:]}
        wanted = _folded(without_control(typed)).split()
        there = {key for key, text in words.items() if all(word in text for word in wanted)}
        return "" if there == found else f"{typed!r} finds {found}, not {there}"

    return once


def _folded(text: str) -> str:
    parts = unicodedata.normalize("NFKD", text)
    return "".join(part for part in parts if not unicodedata.combining(part)).casefold()


def _form(chance: random.Random) -> str:
    name = chance.choice(list(FORMS))
    form = FORMS[name]
    texts = dict(form.good)
    for field in chance.sample(form.fields, min(len(form.fields), chance.randint(1, 4))):
        choices = ["", *field.choices]
        texts[field.id] = chance.choice(choices) if field.choices else nearly_right(chance, _GOOD)
    typed = form.typed(texts)
    try:
        read = form.read(typed)
    except Refused as refused:
        return _refusal(refused, *(field.id for field in form.fields))
    if form.fill is not None and form.read(form.typed(form.fill(read))) != read:
        return f"{name} is not filled with what it read from {typed}"
    return ""
