"""A version on a value is one that stock fills: by it a change of another hand is noticed."""

from dataclasses import fields, is_dataclass

import domain.job
from domain.trader import Trader
from domain.week import Forecast
from storage import rows

VALUES: list[type] = [getattr(domain.job, name) for name in domain.job.__all__]


def test_every_version_that_a_value_carries_stands_in_its_row() -> None:
    carrying = {kind.__name__ for kind in (*VALUES, Trader, Forecast) if _has_version(kind)}
    assert carrying == {"Customer", "Site", "Job", "Trader", "Forecast"}
    for name in carrying:
        assert "version" in getattr(rows, f"{name}Row").model_fields, name


def _has_version(kind: type) -> bool:
    return is_dataclass(kind) and "version" in {field.name for field in fields(kind)}
