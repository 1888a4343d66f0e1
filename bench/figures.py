"""Figures in lines, and how many measurements become one figure."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median

__all__ = ["Line", "median", "nearly_worst", "print_table"]


@dataclass(frozen=True, slots=True)
class Line:
    """One figure."""

    what: str
    figure: str
    remark: str = ""


def nearly_worst(values: Sequence[float]) -> float:
    """The value that 95 of 100 are no greater than."""
    ordered = sorted(values)
    return ordered[-(-len(ordered) * 95 // 100) - 1]


def print_table(title: str, lines: Iterable[Line]) -> None:
    """Print the lines under their title, each as soon as it is known."""
    print(f"\n{title}")
    for line in lines:
        print(f"  {line.what:<44}{line.figure:>12}  {line.remark}".rstrip(), flush=True)
