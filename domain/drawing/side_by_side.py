"""How the slopes of a drawing are set side by side on paper or a screen."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TypeVar

Number = TypeVar("Number", int, Fraction)


def shelve(
    boxes: Sequence[tuple[Number, Number]], width: Number
) -> Iterator[tuple[Number, Number]]:
    """Give the left and upper corner of each box (width, height), in rows no wider than asked.

    Boxes of a row stand on one line at their feet, so that eaves line up. One that is wider than
    the width has a row of its own.
    """
    row: list[tuple[Number, Number]] = []
    top = 0 * width
    for box in boxes:
        if row and sum(w for w, _ in row) + box[0] > width:
            yield from _placed(row, top)
            top += max(h for _, h in row)
            row = []
        row.append(box)
    yield from _placed(row, top)


def _placed(row: Sequence[tuple[Number, Number]], top: Number) -> Iterator[tuple[Number, Number]]:
    x = 0 * top
    foot = top + max((h for _, h in row), default=top)
    for width, height in row:
        yield x, foot - height
        x += width
