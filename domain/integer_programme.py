"""Integer programmes: the least cost of whole numbers under linear limits, with a proof.

Everything in a programme is a whole number, so the solver's floating-point answer is rounded and
then checked exactly; what does not pass the check is not used.
"""

import math
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import isqrt
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    import highspy
    from highspy._core import _Highs
    from highspy._core.cb import HighsCallbackInput, HighsCallbackOutput

_ASKED = 20
"""The solver asks as often before it has found anything that is worth having."""
_UNKNOWNS_SQUARED = 1000
"""A unit of its work for so much of the square of the unknowns, whenever it asks."""

Watch: TypeAlias = Callable[[int, int], bool]
"""Told the least cost found and the bound while it is solved; answers whether to go on."""
GoesOn: TypeAlias = Callable[[], bool]
"""Answers whether to go on."""


@dataclass(frozen=True, slots=True)
class Limit:
    """``least`` ≤ the sum of coefficient × value ≤ ``most``."""

    least: int
    most: int | None
    """None: no upper limit."""
    terms: Mapping[int, int]
    """Coefficient of each unknown that takes part, by the unknown's index."""


@dataclass(frozen=True, slots=True)
class Programme:
    """Unknown whole numbers from 0 up, what each costs, and the limits they keep to."""

    costs: tuple[int, ...]
    """Of one of each unknown; never negative."""
    most: tuple[int, ...]
    """The greatest value of each unknown."""
    limits: tuple[Limit, ...]

    def cost(self, values: Sequence[int]) -> int:
        """What these values cost together."""
        return sum(c * v for c, v in zip(self.costs, values, strict=True))

    def allows(self, values: Sequence[int]) -> bool:
        """Whether the values keep to every limit, in exact arithmetic."""
        if any(not 0 <= v <= most for v, most in zip(values, self.most, strict=True)):
            return False
        return all(_kept(limit, values) for limit in self.limits)


class TooLarge(Exception):
    """A programme that is being written has more unknowns than are worth solving."""


@dataclass
class Draft:
    """A programme being written, one unknown after another; each limit goes by a name."""

    most: int | None = None
    """Unknowns that it may have, as many as it takes if None: one more raises TooLarge."""
    _most: list[int] = field(default_factory=list)
    _limits: dict[Hashable, Limit] = field(default_factory=dict)
    _terms: dict[Hashable, dict[int, int]] = field(default_factory=dict)

    def limit(self, name: Hashable, least: int, most: int | None) -> None:
        """Name a limit before an unknown takes part in it."""
        self._terms[name] = {}
        self._limits[name] = Limit(least, most, self._terms[name])

    def unknown(self, most: int, terms: Iterable[tuple[Hashable, int]]) -> int:
        """Add an unknown and what it adds to each limit it takes part in; give its index."""
        index = len(self._most)
        if index == self.most:
            raise TooLarge
        self._most.append(most)
        for name, coefficient in terms:
            sums = self._terms[name]
            sums[index] = sums.get(index, 0) + coefficient
        return index

    def programme(self, costs: Mapping[int, int], *more: Limit) -> Programme:
        """The programme with these costs, by index, and the limits named so far with ``more``."""
        each = tuple(costs.get(index, 0) for index in range(len(self._most)))
        return Programme(each, tuple(self._most), (*self._limits.values(), *more))


@dataclass(frozen=True, slots=True)
class Answer:
    """The best values found, and how good they are known to be."""

    values: tuple[int, ...]
    cost: int
    bound: int
    """No values that keep to the limits cost less than this."""
    seconds: float
    """Time the solver took."""

    @property
    def proven(self) -> bool:
        """Whether nothing can cost less."""
        return self.bound == self.cost


def minimise(
    programme: Programme,
    start: Sequence[int],
    time_limit_s: float,
    floor: int = 0,
    watch: Watch | None = None,
) -> Answer:
    """Find values of least cost within ``time_limit_s`` seconds, or until ``watch`` says stop.

    ``start`` is any set of values the programme allows: it is the answer if time ends before a
    better one is found. ``floor`` is what nothing costs less than, as far as is known beforehand.
    """
    first = Answer(tuple(start), programme.cost(start), bound=floor, seconds=0.0)
    if first.proven or time_limit_s <= 0:
        return first
    solver = _solver_of(programme)
    solver.setOptionValue("time_limit", time_limit_s)
    if watch is not None:
        _let_watch(solver, _telling(first, watch))
    solver.run()
    return _checked(programme, first, solver)


def always() -> bool:
    """Go on to the end."""
    return True


class Stopped(Exception):
    """A search was told not to go on."""


class Effort:
    """So much of the solver's work, spent by one search after another.

    The solver asks now and then whether to go on, at the same points of its work on every machine;
    in between it works for longer the larger the programme is, about with the square of its
    unknowns. Time would end a search elsewhere on every machine, and one roof would have two plans.
    """

    def __init__(self, units: int, goes_on: GoesOn = always) -> None:
        """``units``: 30,000 to 60,000 were worked off in a second on two cores.

        ``goes_on`` is asked too: once it says no, every search raises :class:`Stopped`.
        """
        self._left, self.goes_on = units, goes_on

    @property
    def most(self) -> int:
        """Unknowns of the largest programme of which enough is left to find anything."""
        return isqrt(max(0, self._left // _ASKED - 1) * _UNKNOWNS_SQUARED)

    def spend(self, unknowns: int) -> bool:
        """Spend what was worked off since the solver asked last; whether any is left."""
        self._left -= _units(unknowns)
        return self._left > 0 and self.goes_on()


def search(programme: Programme, effort: Effort) -> tuple[int, ...] | None:
    """Find values of low cost, as low as the effort goes.

    None if no values were found that keep to the limits. Raises :class:`Stopped`.
    """
    if len(programme.costs) > effort.most:
        return None
    solver = _solver_of(programme)
    _let_watch(solver, lambda _: effort.spend(len(programme.costs)))
    solver.run()
    if not effort.goes_on():
        raise Stopped
    found = tuple(round(v) for v in solver.getSolution().col_value)
    return found if len(found) == len(programme.costs) and programme.allows(found) else None


def _units(unknowns: int) -> int:
    return 1 + unknowns**2 // _UNKNOWNS_SQUARED


def _let_watch(solver: "_Highs", goes_on: Callable[["HighsCallbackOutput"], bool]) -> None:
    """Have the solver ask now and then; it lets go of the interpreter in between."""
    from highspy._core.cb import HighsCallbackType

    def told(
        _type: object,
        _words: str,
        now: "HighsCallbackOutput",
        then: "HighsCallbackInput",
        _data: object,
    ) -> None:
        if not goes_on(now):
            then.user_interrupt = True

    solver.setCallback(told, None)
    solver.startCallback(HighsCallbackType.kCallbackMipInterrupt)


def _telling(first: Answer, watch: Watch) -> Callable[["HighsCallbackOutput"], bool]:
    """Tell ``watch`` how far the solver is, and answer whether to go on."""

    def goes_on(now: "HighsCallbackOutput") -> bool:
        cost = round(min(now.mip_primal_bound, first.cost))
        return watch(cost, min(_whole_bound(now.mip_dual_bound, first.bound), cost))

    return goes_on


def _kept(limit: Limit, values: Sequence[int]) -> bool:
    """Whether the values keep to one limit."""
    total = sum(coefficient * values[index] for index, coefficient in limit.terms.items())
    return limit.least <= total and (limit.most is None or total <= limit.most)


def _checked(programme: Programme, first: Answer, solver: "_Highs") -> Answer:
    """The solver's answer in whole numbers if it passes the exact check, else where it began."""
    found = tuple(round(v) for v in solver.getSolution().col_value)
    usable = len(found) == len(first.values) and programme.allows(found)
    values = found if usable and programme.cost(found) < first.cost else first.values
    cost = programme.cost(values)
    bound = _whole_bound(solver.getInfo().mip_dual_bound, first.bound)
    return Answer(values, cost, min(bound, cost), solver.getRunTime())


def _whole_bound(proven: float, floor: int) -> int:
    """The solver's bound as a whole number, no less than what was known before.

    It keeps its own tolerances to a millionth; without any bound it gives ∓infinity.
    """
    return max(math.ceil(proven - 1e-5), floor) if math.isfinite(proven) else floor


def _as_solver_model(programme: Programme) -> "highspy.HighsLp":
    """The programme in the solver's own form: limits row by row."""
    import highspy

    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(programme.costs), len(programme.limits)
    model.col_cost_ = list(programme.costs)
    model.col_lower_, model.col_upper_ = [0] * model.num_col_, list(programme.most)
    model.integrality_ = [highspy.HighsVarType.kInteger] * model.num_col_
    model.row_lower_ = [limit.least for limit in programme.limits]
    model.row_upper_ = [
        highspy.kHighsInf if limit.most is None else limit.most for limit in programme.limits
    ]
    terms = [sorted(limit.terms.items()) for limit in programme.limits]
    matrix = model.a_matrix_
    matrix.format_ = highspy.MatrixFormat.kRowwise
    matrix.start_ = [sum(len(row) for row in terms[:i]) for i in range(len(terms) + 1)]
    matrix.index_ = [index for row in terms for index, _ in row]
    matrix.value_ = [coefficient for row in terms for _, coefficient in row]
    return model


def _solver_of(programme: Programme) -> "_Highs":
    """A solver that holds a programme."""
    solver = _quiet_solver()
    # One thread and a fixed seed give the same plan every time. The number of threads is left
    # alone: the solver keeps one pool a process, and refuses to run when two callers differ.
    solver.setOptionValue("parallel", "off")
    solver.setOptionValue("random_seed", 0)
    # Programmes this small are solved as fast as they stand, and less has to be trusted.
    solver.setOptionValue("presolve", "off")
    # Costs are whole, so a bound less than one below the best already proves it.
    solver.setOptionValue("mip_abs_gap", 0.99)
    solver.setOptionValue("mip_rel_gap", 0.0)
    # The start is kept back: solvers have been seen to return it beside the cost of a better one.
    solver.passModel(_as_solver_model(programme))
    return solver


def _quiet_solver() -> "_Highs":
    """A solver that prints nothing."""
    # The solver's public class prints a banner while it is being made, before it can be silenced;
    # the class beneath is the same solver, and waits to be told.
    from highspy._core import _Highs

    solver = _Highs()
    solver.setOptionValue("output_flag", False)
    return solver
