"""Figures in lines, and how many measurements become one figure."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median

__all__ = ["Line", "Pace", "median", "nearly_worst", "print_table"]


@dataclass(frozen=True, slots=True)
class Line:
    """One figure."""

    what: str
    figure: str
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast the machine is just now: limits are told for one on which a bare program takes 440.

    ``bare_ms`` is what a bare program's first word takes here, in milliseconds.
    """

    bare_ms: float

    def limit(self, most_ms: float) -> str:
        """A limit, and what it is on this machine."""
        return f"at most {most_ms}, here {most_ms * self.bare_ms / 440:.1f}"


def nearly_worst(values: Sequence[float]) -> float:
    """The value that 95 of 100 are no greater than."""
    ordered = sorted(values)
    return ordered[-(-len(ordered) * 95 // 100) - 1]


def print_table(title: str, lines: Iterable[Line]) -> None:
    """Print the lines under their title, each as soon as it is known."""
    print(f"\n{title}")
    for line in lines:
        print(f"  {line.what:<44}{line.figure:>12}  {line.remark}".rstrip(), flush=True)
