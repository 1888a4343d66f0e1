"""The story of the demo as values: read from ``scenario.toml``, days still relative."""

import tomllib
from dataclasses import dataclass
from datetime import date, timedelta
from importlib.resources import files
from typing import Any

DEMO_SURVEY = files(__package__).joinpath("shed.toml")
"""A survey file for the take-off that the demo prints."""


@dataclass(frozen=True, slots=True)
class Story:
    """Tables of the scenario, as written there."""

    trader: dict[str, Any]
    prices: tuple[dict[str, Any], ...]
    stock: tuple[dict[str, Any], ...]
    forecasts: tuple[dict[str, Any], ...]
    purchases: tuple[dict[str, Any], ...]
    jobs: tuple[dict[str, Any], ...]

    @classmethod
    def read(cls) -> "Story":
        """Read the scenario that travels with the package."""
        text = files(__package__).joinpath("scenario.toml").read_text(encoding="utf-8")
        tables = tomllib.loads(text)
        return cls(
            trader=tables["trader"],
            prices=tuple(tables["price"]),
            stock=tuple(tables["stock"]),
            forecasts=tuple(tables["forecast"]),
            purchases=tuple(tables["purchase"]),
            jobs=tuple(tables["job"]),
        )


def working_day(today: date, steps: int) -> date:
    """The day so many working days from today; 0 is today, or the Friday before a weekend."""
    day = today - timedelta(days=max(0, today.weekday() - 4))
    while steps:
        day += timedelta(days=1 if steps > 0 else -1)
        if day.weekday() < 5:
            steps += -1 if steps > 0 else 1
    return day


def on_a_working_day(day: date) -> date:
    """The day itself, or the Friday before a weekend."""
    return day - timedelta(days=max(0, day.weekday() - 4))
