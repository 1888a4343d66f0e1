"""What an action changed, field by field, in the words of the person."""

from collections.abc import Sequence
from dataclasses import dataclass

_LONGEST = 32
"""Characters of a value where several stand in one line."""
_IN_A_LINE = 2
"""So many changes are told in a line; of the others, how many they are."""


@dataclass(frozen=True, slots=True)
class Change:
    """One field as it was and as it became; empty for nothing."""

    label: str
    before: str
    after: str

    def told(self) -> str:
        """What was done: ``length 2.20 → 2.40 m``, or ``colour black`` where nothing stood."""
        if not self.before:
            return f"{self.label} {_short(self.after)}"
        if not self.after:
            return f"{self.label} taken out"
        return (
            f"{self.label} {_short(_without_unit(self.before, self.after))} → {_short(self.after)}"
        )

    def told_back(self) -> str:
        """What undoing it does: ``length 2.40 m back to 2.20 m``."""
        if not self.after:
            return f"{self.label} back to {_short(self.before)}"
        if not self.before:
            return f"{self.label} {_short(self.after)} taken out"
        return f"{self.label} {_short(self.after)} back to {_short(self.before)}"


def told(changes: Sequence[Change]) -> str:
    """The first changes, and how many more there are: ``length 2.20 → 2.40 m, and 3 more``."""
    return _joined([change.told() for change in changes[:_IN_A_LINE]], len(changes) - _IN_A_LINE)


def _joined(first: list[str], more: int) -> str:
    return ", ".join([*first, f"and {more} more"] if more > 0 else first)


def _without_unit(before: str, after: str) -> str:
    """``2.20 m`` before ``2.40 m`` without its unit: it is said once."""
    number, _, unit = before.partition(" ")
    is_measure = number[:1].isdigit() and unit and " " not in unit and not unit[0].isdigit()
    return number if is_measure and after.endswith(f" {unit}") else before


def _short(value: str) -> str:
    return value if len(value) <= _LONGEST else f"{value[: _LONGEST - 1].rstrip()}…"
