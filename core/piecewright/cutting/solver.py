"""The one door to HiGHS: linear and whole-number programs, the library loaded when first needed.

No start is ever handed to it: version 1.16.0 gave a false optimum for a whole-number program with a start
and presolve on. Its work is limited by counts, never by the clock, so answers are the same everywhere.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from highspy.highs import HighsCallbackEvent

Row = tuple[float, float]
"""The least and the most a row may sum to."""
UNLIMITED = float("inf")
Entries = Sequence[tuple[int, float]]
"""Row and coefficient."""
_WHOLE = 0.999
"""Costs are whole numbers: an answer that is better by less than 1 is none."""


def is_there() -> bool:
    """Whether the library can be loaded."""
    return find_spec("highspy") is not None


@dataclass(frozen=True, slots=True)
class Answer:
    """A program's answer: its value, each column's amount, and each row's dual (none for whole numbers)."""

    value: float
    amounts: tuple[float, ...]
    duals: tuple[float, ...] = ()


class Program:
    """A program that minimizes; amounts are never below zero. Columns are added one by one to fixed rows."""

    def __init__(self, rows: Sequence[Row]) -> None:
        import highspy

        self._highs = highspy.Highs()  # type: ignore[no-untyped-call] # it has no annotation
        self._set(output_flag=False, threads=1, random_seed=0)
        for least, most in rows:
            self._highs.addRow(least, most, 0, [], [])

    def add_column(self, cost: float, entries: Entries, most: float = UNLIMITED) -> None:
        """A column with its cost, its entries by row and the most it may amount to."""
        rows, values = [row for row, _ in entries], [value for _, value in entries]
        self._highs.addCol(cost, 0.0, most, len(rows), rows, values)

    def set_row(self, row: int, bounds: Row) -> None:
        """Give a row other bounds."""
        self._highs.changeRowBounds(row, *bounds)

    def solve(self) -> Answer | None:
        """The best amounts, parts of a whole allowed; None where there are none."""
        self._highs.run()
        if not self._ended("kOptimal"):
            return None
        found = self._highs.getSolution()
        return Answer(self._value(), tuple(found.col_value), tuple(found.row_dual))

    def solve_whole(
        self, columns: Sequence[int], nodes: int, cancelled: Callable[[], bool]
    ) -> tuple[Answer | None, bool]:
        """The best answer found within so many nodes in which these columns are whole.

        Also whether that is proven: that there is no better one, or none at all.
        """
        import highspy

        for column in columns:
            self._highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)
        self._set(mip_max_nodes=nodes, mip_rel_gap=0.0, mip_abs_gap=_WHOLE)

        def stop_if_cancelled(event: "HighsCallbackEvent") -> None:
            if cancelled():
                event.interrupt()

        self._highs.cbMipInterrupt.subscribe(stop_if_cancelled)
        self._highs.run()
        self._highs.cbMipInterrupt.unsubscribe(stop_if_cancelled)
        if self._highs.getInfo().primal_solution_status != highspy.kSolutionStatusFeasible:
            return None, self._ended("kInfeasible")
        amounts = tuple(float(round(amount)) for amount in self._highs.getSolution().col_value)
        return Answer(self._value(), amounts), self._ended("kOptimal")

    def _set(self, **options: bool | int | float) -> None:
        for option, value in options.items():
            self._highs.setOptionValue(option, value)

    def _value(self) -> float:
        return float(self._highs.getInfo().objective_function_value)

    def _ended(self, status: str) -> bool:
        return self._highs.getModelStatus().name == status
