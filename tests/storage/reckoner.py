"""A reckoner apart from the book: plain dicts, and stock gone through from the beginning."""

from typing import Any

JOBS = (1, 2)


class Reckoner:
    """What two jobs and the lists ought to hold, whatever is saved, undone and done again."""

    def __init__(self) -> None:
        self.saves = 0
        self.done: dict[Any, list[tuple[int, str, int]]] = {}
        self.undone: dict[Any, list[tuple[int, str, int]]] = {}

    def save(self, of: object, what: str, n: int) -> None:
        """Something is saved of a job or a list: nothing can be redone there any more."""
        self.saves += 1
        self.done.setdefault(of, []).append((self.saves, what, n))
        self.undone[of] = []

    def undo(self, of: object) -> bool:
        """Undo the last of it; whether that can be."""
        return self._shift(of, self.done, self.undone)

    def redo(self, of: object) -> bool:
        """Do the last undone again; whether that can be."""
        return self._shift(of, self.undone, self.done)

    def has(self, job: int) -> bool:
        """Whether a job is in the book: its enquiry is not undone."""
        return bool(self.done.get(job))

    def last(self, of: object, what: str) -> int | None:
        """What was saved last under a name; None for nothing."""
        return next((n for _, name, n in reversed(self.done.get(of, [])) if name == what), None)

    def all(self, of: object, what: str) -> list[int]:
        """Everything that was saved under a name."""
        return [n for _, name, n in self.done.get(of, []) if name == what]

    def stock(self) -> tuple[int, int]:
        """What is in stock, and by how much it was ever short."""
        held = short = 0
        for _, n in sorted(self._slots()):
            held += n
            short += max(0, -held)
            held = max(0, held)
        return held, short

    def _slots(self) -> list[tuple[int, int]]:
        """The moves of stock, by when each was first recorded."""
        slots = [(at, n) for at, _, n in self.done.get("stock", [])]
        for job in JOBS:
            came = went = None
            for at, name, n in self.done.get(job, []):
                if name == "used":
                    came = (came[0] if came else at, max(0, n)) if n > 0 or came else None
                    went = (went[0] if went else at, n) if n < 0 else None
            slots += [slot for slot in (came, went) if slot]
        return slots

    def _shift(self, of: object, source: dict[Any, Any], target: dict[Any, Any]) -> bool:
        if not source.get(of):
            return False
        target.setdefault(of, []).append(source[of].pop())
        return True
