"""Where tabs that two pieces share are cut apart in the plan of fewest strips."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from domain.cutting.neat_places import neat_places

MIDDLE = Fraction(125)
WINDOWS = st.tuples(st.integers(1, 249), st.integers(1, 249)).map(
    lambda ends: (Fraction(min(ends)), Fraction(max(ends)))
)


def test_cuts_that_can_be_alike_are_and_at_what_is_easily_taped() -> None:
    windows = [(Fraction(a), Fraction(b)) for a, b in [(60, 130), (30, 80), (55, 110), (171, 174)]]
    places = neat_places(windows, MIDDLE)
    # The first reaches the middle; 75 does for two; no multiple of 5 lies from 171 to 174.
    assert [places[window] for window in windows] == [125, 75, 75, 174]
    narrow = (Fraction(171), Fraction(176))
    assert neat_places([narrow], MIDDLE)[narrow] == 175


@given(st.lists(WINDOWS, min_size=1))
def test_every_window_is_cut_within_it(windows: list[tuple[Fraction, Fraction]]) -> None:
    for (first, last), place in neat_places(windows, MIDDLE).items():
        assert first <= place <= last
