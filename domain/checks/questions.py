"""What is open of a job, folded: what is asked together is one question."""

from collections.abc import Sequence
from dataclasses import dataclass

from domain.checks.check import Check, Part, Severity


@dataclass(frozen=True, slots=True)
class Question:
    """One or more open checks that are settled at one place."""

    checks: tuple[Check, ...]
    """Stops first; at least one."""

    @property
    def severity(self) -> Severity:
        """A stop if any of them is one."""
        return self.checks[0].severity

    @property
    def words(self) -> str:
        """The words of the check, or of the first of several, with how many more of what."""
        first, *others = self.checks
        if first.part is None or not others:
            return first.words
        return f"{first.words} And {len(others)} more of “{first.part}”."


def questions_of(checks: Sequence[Check]) -> tuple[Question, ...]:
    """Fold checks that come stops first into questions, in the order of their first checks.

    Only what is settled on one page is asked together.
    """
    asked: dict[object, list[Check]] = {}
    for check in checks:
        key = (check.part, check.page) if check.part else check.id
        asked.setdefault(key, []).append(check)
    return tuple(Question(tuple(together)) for together in asked.values())


def noted_together(cautions: Sequence[Check]) -> tuple[Question, ...]:
    """Cautions by the note that passes them: what one key answers before stripping has one."""
    asked: dict[object, list[Check]] = {}
    for check in cautions:
        asked.setdefault(check.part if check.part is Part.AROUND else check.id, []).append(check)
    return tuple(Question(tuple(together)) for together in asked.values())
