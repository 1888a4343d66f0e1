"""How one kind of torture went, and its line in the table of all."""

import random
import shutil
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was tried of one kind, and what went wrong."""

    kind: str
    tries: int
    """How often; of kills, how many were in time."""
    faults: tuple[str, ...]
    """Each with where its book was kept."""
    note: str = ""
    """What else is worth knowing of the tries."""


def heading() -> str:
    """The head of the table."""
    return f"{'kind':<44}{'tries':>7}{'faults':>8}"


def lines(outcome: Outcome) -> str:
    """A line of the table, and under it what went wrong."""
    counts = f"{outcome.kind:<44}{outcome.tries:>7}{len(outcome.faults):>8}  {outcome.note}"
    return "\n".join([counts.rstrip(), *(f"    {fault}" for fault in outcome.faults)])


def try_each(
    kind: str, tries: int, seed: int, folder: Path, once: Callable[[random.Random, Path], str]
) -> Outcome:
    """Try something over and over, each time in a folder of its own that stays if it fails.

    ``once`` is given its chance and its folder; it returns what is wrong, or nothing.
    """
    kept = []
    for number in range(tries):
        home = folder / f"{kind} {number}"
        home.mkdir()
        home.chmod(0o755)
        try:
            fault = once(random.Random(f"{seed} {kind} {number}"), home)  # noqa: S311 -- repeatable
        except Exception:
            fault = traceback.format_exc()
        if fault:
            kept.append(f"{home}: {fault}")
        else:
            shutil.rmtree(home)
    return Outcome(kind, tries, tuple(kept))
