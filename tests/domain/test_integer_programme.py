from collections.abc import Iterator, Sequence

import pytest

from domain.integer_programme import Limit, Programme, minimise


def rolls_to_cut(roll: int, widths: Sequence[int], demand: Sequence[int]) -> Programme:
    """The fewest rolls: an unknown for every way to cut one that leaves no further width."""
    ways = [way for way in ways_to_cut(roll, widths) if roll - used(way, widths) < min(widths)]
    limits = [
        Limit(wanted, None, {i: way[n] for i, way in enumerate(ways) if way[n]})
        for n, wanted in enumerate(demand)
    ]
    return Programme((1,) * len(ways), (sum(demand),) * len(ways), tuple(limits))


def ways_to_cut(roll: int, widths: Sequence[int]) -> Iterator[tuple[int, ...]]:
    if not widths:
        yield ()
        return
    for count in range(roll // widths[0] + 1):
        for rest in ways_to_cut(roll - count * widths[0], widths[1:]):
            yield (count, *rest)


def used(way: Sequence[int], widths: Sequence[int]) -> int:
    return sum(count * width for count, width in zip(way, widths, strict=True))


def plenty(programme: Programme, demand: Sequence[int]) -> list[int]:
    """As many rolls of one way for each width as there are of it to cut."""
    values = [0] * len(programme.costs)
    for limit, wanted in zip(programme.limits, demand, strict=True):
        values[next(iter(limit.terms))] += wanted
    return values


@pytest.mark.parametrize(
    ("roll", "orders", "fewest"),
    [
        # 73 rolls, 0.401 % waste: read in the encyclopaedia article on the cutting-stock problem.
        (
            5600,
            {
                1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
                2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
            },
            73,
        ),
        # 453 rolls (452.25 without whole numbers): computed; Chvátal's textbook, memory.
        (100, {45: 97, 36: 610, 31: 395, 14: 211}, 453),
    ],
)  # fmt: skip
def test_published_rolls_are_cut_from_the_fewest(
    roll: int, orders: dict[int, int], fewest: int
) -> None:
    widths, demand = list(orders), list(orders.values())
    programme = rolls_to_cut(roll, widths, demand)
    answer = minimise(programme, plenty(programme, demand), time_limit_s=20)
    assert programme.allows(answer.values)
    assert programme.cost(answer.values) == answer.cost
    assert (answer.cost, answer.bound, answer.proven) == (fewest, fewest, True)


# Two of the first and three of the second do 5 in all at a cost of 8; five of the first cost 5.
FIVE = Programme((1, 2), (4, 9), (Limit(5, 5, {0: 1, 1: 1}),))


def test_the_greatest_value_of_an_unknown_is_kept_to() -> None:
    assert minimise(FIVE, (2, 3), time_limit_s=5).values == (4, 1)


@pytest.mark.parametrize("values", [(5, 0), (-1, 6), (2, 2), (2, 4)])
def test_values_outside_the_limits_are_not_allowed(values: tuple[int, int]) -> None:
    assert not FIVE.allows(values)


def test_without_time_the_start_is_the_answer() -> None:
    answer = minimise(FIVE, (2, 3), time_limit_s=0)
    assert (answer.values, answer.cost, answer.bound, answer.proven) == ((2, 3), 8, 0, False)


def test_solving_prints_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    minimise(FIVE, (2, 3), time_limit_s=5)
    assert capfd.readouterr() == ("", "")
