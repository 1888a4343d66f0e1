"""Kill as often as asked for, and say what was found: ``python -m tests.torture KILLS SEED``."""

import sys
import tempfile
from pathlib import Path

from tests.torture.kills import kill_over_and_over
from tests.torture.trials import backed_up, backing_up, making, restoring, upgrading


def main(kills: int, seed: int) -> int:
    """Return 1 if a book was left that does not open, or holds what it should not."""
    folder = Path(tempfile.mkdtemp(prefix="headlap-torture-"))
    trials = [making(), *(upgrading(folder / f"old {way}", way) for way in ("delete", "wal"))]
    template = backed_up(folder / "backed up")
    trials += [backing_up(template), *(restoring(template, damaged=each) for each in (False, True))]
    bad = 0
    for trial in trials:
        outcome = kill_over_and_over(trial, kills, seed, folder)
        print(f"{trial.name}: {outcome.kills} kills, {len(outcome.faults)} faults")
        for fault in outcome.faults:
            print(f"  {fault}")
        bad += len(outcome.faults)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2])))
