"""Reads a site sheet back from the text of its pages: somebody who has nothing but the paper.

It shares nothing with what makes the sheet. Lengths are whole millimetres.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

_COURSES = r"(?:\d+–\d+|\d+(?:, \d+)* and \d+|\d+)"
_MM = r"\d{1,3}(?:,\d{3})*"
_PART = rf"(?:\d+ whole|(?:whole|[A-Z]+\d+ {_MM})(?: → {_MM})?(?:, {_MM} past the left edge)?)"
_ROW = re.compile(rf"(?P<courses>{_COURSES}) (?P<parts>{_PART}(?: {_PART})*) (?P<nails>\d+)(?= |$)")
_CUT = re.compile(
    r"(?P<times>\d+) × (?P<cuts>[\d,]+(?:, [\d,]+)*) (?P<parts>[A-Z]+\d+(?: [A-Z]+\d+)*)"
)
_CHALK = re.compile(r"Chalk lines, slopes? ([\d–, and]+): up from the [a-z ]+((?: \d+ [\d,]+)+)")
_SLOPES = re.compile(r"Slopes? ([\d–, and]+?), course From the left Nails a course ")


@dataclass(frozen=True, slots=True)
class ReadWay:
    """Strips that are cut alike."""

    times: int
    cuts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ReadPiece:
    """A piece of a course."""

    cut: int
    """How long its part is; 1000 of a whole strip."""
    laid: int
    over: int
    """How far it begins left of the edge."""


@dataclass(frozen=True, slots=True)
class ReadSheet:
    """All that the paper says."""

    chalk: dict[int, tuple[int, ...]]
    """Chalk lines by slope."""
    cutting: frozenset[ReadWay]
    courses: dict[tuple[int, int], tuple[tuple[ReadPiece, ...], int]]
    """By slope and course: its pieces from the left, and its nails."""
    nails: dict[str, int]


def read_sheet(pages: Sequence[str], width: int) -> ReadSheet:
    """Read the pages of a sheet; a strip is ``width`` long."""
    text = " ".join(re.sub(r"Site sheet \d+ \d+ of \d+$", "", page).strip() for page in pages)
    piles = _piles(text)
    return ReadSheet(
        chalk={
            slope: tuple(int(mm.replace(",", "")) for mm in told.split()[1::2])
            for slopes, told in _CHALK.findall(text)
            for slope in _numbers(slopes)
        },
        cutting=frozenset(_ways(text)),
        courses=dict(_courses(text, piles, width)),
        nails={name: int(found.replace(",", "")) for name, found in _nails(text)},
    )


def _piles(text: str) -> dict[str, int]:
    found = re.search(r"Piles: ((?:[A-Z]+\d+ [\d,]+ ?)+)", text)
    words = found[1].split() if found else []
    return {
        name: int(mm.replace(",", "")) for name, mm in zip(words[::2], words[1::2], strict=True)
    }


def _ways(text: str) -> Iterator[ReadWay]:
    """The ways of cutting; a part that disagrees with its pile is an error of the sheet."""
    piles = _piles(text)
    for found in _CUT.finditer(text):
        cuts = tuple(int(cut.replace(",", "")) for cut in found["cuts"].split(", "))
        parts = found["parts"].split()
        for name, start, end in zip(parts, (0, *cuts), cuts, strict=False):
            assert abs(piles[name] - (end - start)) <= 1, (name, start, end)
        yield ReadWay(int(found["times"]), cuts)


def _courses(
    text: str, piles: dict[str, int], width: int
) -> Iterator[tuple[tuple[int, int], tuple[tuple[ReadPiece, ...], int]]]:
    """Every course of every slope that a line names."""
    _, *tables = _SLOPES.split(text)
    for slopes, told in zip(tables[::2], tables[1::2], strict=True):
        at = 0
        while row := _ROW.match(told, at):
            pieces = tuple(_pieces(row["parts"], piles, width))
            for slope in _numbers(slopes):
                for course in _numbers(row["courses"]):
                    yield (slope, course), (pieces, int(row["nails"]))
            at = row.end() + 1


def _pieces(parts: str, piles: dict[str, int], width: int) -> Iterator[ReadPiece]:
    for part in re.findall(_PART, parts):
        if count := re.fullmatch(r"(\d+) whole", part):
            yield from [ReadPiece(width, width, 0)] * int(count[1])
            continue
        first, *over = part.removesuffix(" past the left edge").split(", ")
        from_, *laid = first.split(" → ")
        name, *mm = from_.split()
        cut = int(mm[0].replace(",", "")) if mm else width
        assert piles.get(name, width) == cut, name
        yield ReadPiece(
            cut, int(laid[0].replace(",", "")) if laid else cut, int(over[0]) if over else 0
        )


def _nails(text: str) -> Iterator[tuple[str, str]]:
    for name, pattern in (
        ("shingle", r"25 in from each end\. ([\d,]+) in all"),
        ("edge", r"every \d+ along every edge: ([\d,]+)"),
        ("underlay", r"every 300 along the free edges: ([\d,]+)"),
        ("ridge", r"2 a piece, under the next one: ([\d,]+)"),
    ):
        yield from ((name, found) for found in re.findall(pattern, text))


def _numbers(words: str) -> list[int]:
    """Numbers as they are told: "2", "1 and 2", "1–8", "1, 3 and 5"."""
    first, dash, last = words.partition("–")
    if dash:
        return list(range(int(first), int(last) + 1))
    return [int(number) for number in re.findall(r"\d+", words)]
