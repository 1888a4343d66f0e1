"""Frozen values as JSON text."""

import json

import pytest

from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import RoofMeasures
from domain.snapshot import from_json, to_json
from domain.trader import Rates
from domain.units import parse_length

PENT = RoofMeasures(RoofForm.PENT, length=parse_length("Length", "2.4 m"))


def test_a_field_that_a_text_is_older_than_takes_its_default() -> None:
    plain = json.loads(to_json(PENT))
    for name in ("sides", "slopes", "front_run"):
        del plain[name]
    assert from_json(RoofMeasures, json.dumps(plain)) == PENT


def test_a_text_that_lacks_what_every_value_has_is_refused() -> None:
    plain = json.loads(to_json(PENT))
    del plain["form"]
    with pytest.raises(KeyError):
        from_json(RoofMeasures, json.dumps(plain))


def test_a_field_that_was_renamed_is_kept_under_the_key_it_had() -> None:
    rates = Rates(minimum_charge=123_45)
    plain = json.loads(to_json(rates))
    assert plain["least_charge"] == 123_45
    assert "minimum_charge" not in plain
    assert from_json(Rates, json.dumps(plain)) == rates
