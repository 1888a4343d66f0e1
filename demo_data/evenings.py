"""The clock of the story: each thing is recorded on the evening of its day."""

from datetime import date, datetime, time, timedelta

_AT_THE_TABLE = time(19, 10)
_A_THING = timedelta(minutes=2)


class Evenings:
    """A clock that is turned from evening to evening, never past the one the story is told on."""

    def __init__(self, now: datetime) -> None:
        self._now = self._at = now

    def turn_to(self, day: date) -> None:
        """Go to the evening of a day, or two minutes on if it is that evening already."""
        later = self._at + _A_THING
        evening = later if self._at.date() == day else datetime.combine(day, _AT_THE_TABLE)
        self._at = min(evening, self._now)

    def __call__(self) -> datetime:
        """The moment to record by."""
        return self._at
