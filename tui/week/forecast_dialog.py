"""The forecast of a day, typed from wherever the trader reads it."""

from collections.abc import Awaitable, Callable
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

from domain.days.calendar import show_date
from domain.days.clock import read_hour
from domain.errors import Refused
from domain.units import parse_speed, parse_temperature
from domain.week import Forecast
from tui.widgets.field_row import Field
from tui.widgets.form_dialog import FormDialog
from tui.widgets.line_input import Takes

DRY, WET, UNKNOWN = "dry spell", "rain all day", "not known"

FIELDS = (
    Field("sky", "Sky", choices=(DRY, WET, UNKNOWN)),
    Field(
        "dry_from",
        "Dry from",
        unit="o'clock",
        example="8",
        only_for=("sky", DRY),
        takes=Takes.COUNT,
    ),
    Field(
        "dry_until",
        "Dry until",
        unit="o'clock",
        example="16",
        only_for=("sky", DRY),
        takes=Takes.COUNT,
    ),
    Field("low", "Lowest temperature", unit="°C", example="6", takes=Takes.FIGURE),
    Field("wind", "Average wind, up to", unit="mph", example="12", takes=Takes.COUNT),
    Field("gust", "Gusts, up to", unit="mph", example="20", takes=Takes.COUNT),
)


def forecast_dialog(
    day: date, forecast: Forecast | None, save: Callable[[Forecast], Awaitable[Any]]
) -> FormDialog[Forecast]:
    """Ask for the forecast of ``day``; ``forecast`` is what was typed before, if anything."""
    return FormDialog(
        f"Forecast for {show_date(day)}",
        FIELDS,
        lambda values: read_forecast(values, day, forecast.version if forecast else 0),
        save,
        words="From the forecast for where the job is. Leave blank if you do not know.",
        values=_typed(forecast),
    )


def read_forecast(values: dict[str, str], day: date, version: int) -> Forecast:
    """Return what was typed as a value. Raises :class:`Refused`."""
    sky = values["sky"]
    dry_from = dry_until = None
    if sky == DRY:
        dry_from = read_hour("dry_from", values["dry_from"])
        dry_until = read_hour("dry_until", values["dry_until"])
        if dry_until <= dry_from:
            raise Refused("dry_until", values["dry_until"], f"Give an hour after {dry_from}.")
    return Forecast(
        day=day,
        dry_from=dry_from,
        dry_until=dry_until,
        rain_all_day=sky == WET,
        low_c=_degrees(values["low"]),
        wind_mph=_speed("wind", values["wind"]),
        gust_mph=_speed("gust", values["gust"]),
        version=version,
    )


def _degrees(text: str) -> Decimal | None:
    return _tenths(parse_temperature("low", text).celsius) if text.strip() else None


def _speed(field: str, text: str) -> Decimal | None:
    return _tenths(parse_speed(field, text).mph) if text.strip() else None


def _tenths(exact: Fraction) -> Decimal:
    return (Decimal(exact.numerator) / Decimal(exact.denominator)).quantize(Decimal("0.1"))


def _typed(forecast: Forecast | None) -> dict[str, str]:
    if forecast is None:
        return {"sky": DRY}
    sky = WET if forecast.rain_all_day else DRY if forecast.dry_from is not None else UNKNOWN
    given = {
        "dry_from": forecast.dry_from,
        "dry_until": forecast.dry_until,
        "low": forecast.low_c,
        "wind": forecast.wind_mph,
        "gust": forecast.gust_mph,
    }
    return {"sky": sky} | {k: f"{v}".removesuffix(".0") for k, v in given.items() if v is not None}
