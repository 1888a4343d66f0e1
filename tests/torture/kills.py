"""A program killed at a moment picked by chance, over and over, and what it left looked at."""

import os
import random
import signal
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.torture.outcome import Outcome

_LEARNING = 5
"""Runs to the end, to know how long one takes."""


@dataclass(frozen=True, slots=True)
class Trial:
    """What is begun on a book and killed."""

    name: str
    lay_out: Callable[[Path], None]
    """Makes the book as it stands before, at a path in a folder of its own."""
    act: Callable[[Path], None]
    """What is killed; run in a process of its own."""
    fault: Callable[[Path], str]
    """Looks at what was left; what is wrong with it, or nothing."""


def kill_over_and_over(trial: Trial, kills: int, seed: int, folder: Path) -> Outcome:
    """Kill a trial until so many kills were in time. ``folder`` keeps the books of faults."""
    chance = random.Random(seed)  # noqa: S311 -- chance that can be repeated
    longest = max(
        _run(trial, folder / f"{trial.name}, whole {n}", None)[1] for n in range(_LEARNING)
    )
    in_time, faults, tried = 0, [], 0
    while in_time < kills:
        path = folder / f"{trial.name} {tried}"
        killed, _ = _run(trial, path, chance.uniform(0, longest))
        tried += 1
        in_time += killed
        fault = trial.fault(path / "book.headlap")
        if fault:
            faults.append(f"{path}: {fault}")
        else:
            _clear(path)
    return Outcome(f"killed {trial.name}", in_time, tuple(faults))


def _run(trial: Trial, folder: Path, seconds: float | None) -> tuple[bool, float]:
    """Run it in a fork, killed after so long; whether that was in time, and how long it ran."""
    folder.mkdir(parents=True)
    path = folder / "book.headlap"
    trial.lay_out(path)
    began = time.perf_counter()
    child = os.fork()
    if not child:
        code = 1
        try:
            trial.act(path)
            code = 0
        finally:
            os._exit(code)  # nothing of the test itself is run to its end here
    if seconds is not None:
        time.sleep(seconds)
        os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    took = time.perf_counter() - began
    killed = os.WIFSIGNALED(status)
    if not killed and os.WEXITSTATUS(status):
        raise AssertionError(f"{trial.name} fails by itself in {folder}")
    return killed, took


def _clear(folder: Path) -> None:
    for path in sorted(folder.rglob("*"), reverse=True):
        path.rmdir() if path.is_dir() else path.unlink()
    folder.rmdir()
