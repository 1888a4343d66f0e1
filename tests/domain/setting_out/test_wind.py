"""The sheltered end, where ridge pieces and capping begin."""

import pytest

from domain.errors import Refused
from domain.setting_out.wind import MOSTLY, WINDS, read_wind, ridge_begins, sheltered_end

# The points of the compass in degrees from north, clockwise: not from our list.
BEARING = {
    "north": 0,
    "north-east": 45,
    "east": 90,
    "south-east": 135,
    "south": 180,
    "south-west": 225,
    "west": 270,
    "north-west": 315,
}


def test_the_sheltered_end_is_straight_away_from_the_wind() -> None:
    for wind in WINDS:
        assert (BEARING[sheltered_end(wind)] - BEARING[wind]) % 360 == 180


def test_the_wind_is_south_west_unless_the_survey_says_otherwise() -> None:
    # common practice: the prevailing wind of Britain
    assert MOSTLY == "south-west"
    assert ridge_begins("") == (
        "Begin at the sheltered end: north-east, as the wind is south-westerly."
    )
    assert ridge_begins("east").startswith("Begin at the sheltered end: west,")


@pytest.mark.parametrize(
    ("typed", "wind"),
    [
        ("", ""),
        ("SW", "south-west"),
        ("s w", None),
        ("South West", "south-west"),
        ("southwest", "south-west"),
        ("north-easterly", "north-east"),
        ("westerly", "west"),
        ("N", "north"),
        ("windy", None),
        ("south south", None),
        ("[b]", None),
    ],
)
def test_a_wind_is_one_word(typed: str, wind: str | None) -> None:
    if wind is None:
        with pytest.raises(Refused) as refusal:
            read_wind("wind_from", typed)
        assert refusal.value.field == "wind_from"
    else:
        assert read_wind("wind_from", typed) == wind
