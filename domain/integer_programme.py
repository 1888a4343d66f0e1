"""Integer programmes: the least cost of whole numbers under linear limits, with a proof.

Everything in a programme is a whole number, so the solver's floating-point answer is rounded and
then checked exactly; what does not pass the check is not used.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import highspy
    from highspy._core import _Highs


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


def minimise(programme: Programme, start: Sequence[int], time_limit_s: float) -> Answer:
    """Find values of least cost within ``time_limit_s`` seconds.

    ``start`` is any set of values the programme allows: it is the answer if time ends before a
    better one is found.
    """
    first = Answer(tuple(start), programme.cost(start), bound=0, seconds=0.0)
    if first.proven or time_limit_s <= 0:
        return first
    solver = _quiet_solver()
    # One thread and a fixed seed give the same plan every time. The number of threads is left
    # alone: the solver keeps one pool a process, and refuses to run when two callers differ.
    solver.setOptionValue("parallel", "off")
    solver.setOptionValue("random_seed", 0)
    # Programmes this small are solved as fast as they stand, and less has to be trusted.
    solver.setOptionValue("presolve", "off")
    solver.setOptionValue("time_limit", time_limit_s)
    # Costs are whole, so a bound less than one below the best already proves it.
    solver.setOptionValue("mip_abs_gap", 0.99)
    solver.setOptionValue("mip_rel_gap", 0.0)
    # The start is kept back: solvers have been seen to return it beside the cost of a better one.
    solver.passModel(_as_solver_model(programme))
    solver.run()
    return _checked(programme, first, solver)


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
    proven_from_below = solver.getInfo().mip_dual_bound
    # The solver keeps its own tolerances to a millionth; without any bound it gives ∓infinity.
    bound = math.ceil(proven_from_below - 1e-5) if math.isfinite(proven_from_below) else 0
    return Answer(values, cost, min(max(bound, 0), cost), solver.getRunTime())


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


def _quiet_solver() -> "_Highs":
    """A solver that prints nothing."""
    # The solver's public class prints a banner while it is being made, before it can be silenced;
    # the class beneath is the same solver, and waits to be told.
    from highspy._core import _Highs

    solver = _Highs()
    solver.setOptionValue("output_flag", False)
    return solver
