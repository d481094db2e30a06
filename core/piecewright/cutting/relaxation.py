"""The least cloth that parts of layouts could do with: a linear program to which layouts come as they are needed.

No plan of the same kind can use less, so its value is the bound beside every answer (column generation;
Gilmore and Gomory 1961 and 1965).
"""

from collections.abc import Callable, Iterable, Sequence
from math import ceil

from piecewright.cutting.offers import Duals, Offer, offers
from piecewright.cutting.problem import Demand, Layout, Problem, made_by
from piecewright.cutting.reach import next_sum
from piecewright.cutting.solver import UNLIMITED, Answer, Entries, Program, Row

CLOSE = 1e-7
"""A layout gains when its value is more than its cost by this much."""
SAFE = 1e-6
"""What sums of floats may be off by, many times over; costs are whole numbers below ten million."""
MOST_ROUNDS = 400
AT_ONCE = 12


class Relaxation:
    """Layouts found so far, the program over them, and the best bound proven with the duals that prove it."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.layouts: list[Layout] = []
        self.bound = 0.0
        self.duals = Duals((0.0,) * len(problem.demand), (0.0,) * len(problem.stocks))
        self._known: set[Layout] = set()
        self._program = Program(rows_of(problem, problem.demand))

    @property
    def whole_bound(self) -> int:
        """The bound rounded up to the next cloth that strips can sum to."""
        return next_sum(self.problem, ceil(self.bound - SAFE))

    def add(self, layouts: Iterable[Layout]) -> int:
        """Add the layouts not known yet; how many these were."""
        before = len(self.layouts)
        for layout in layouts:
            if layout not in self._known:
                self._known.add(layout)
                self.layouts.append(layout)
                self._program.add_column(
                    float(self.problem.cost_of(layout)), entries_of(self.problem, layout)
                )
        return len(self.layouts) - before

    def ask(self, demand: Demand, stocks: Sequence[int | None]) -> Answer | None:
        """The answer for another demand and other stocks, from the layouts there are."""
        for row, bounds in enumerate(rows_of(self.problem, demand, stocks)):
            self._program.set_row(row, bounds)
        return self._program.solve()

    def close(self, cancelled: Callable[[], bool]) -> Answer | None:
        """Solve, adding layouts until none gains: then the answer's value is the bound.

        The layouts there are must be able to give the demand, else None.
        """
        answer = self._program.solve()
        for _ in range(MOST_ROUNDS):
            if answer is None or cancelled():
                break
            duals = self._duals(answer)
            found = sorted(offers(self.problem, duals), key=lambda offer: -offer.gain)
            self._raise_bound(duals, found)
            if not self.add(offer.build() for offer in found[:AT_ONCE] if offer.gain > CLOSE):
                break
            answer = self._program.solve()
        return answer

    def reduced_cost(self, layout: Layout) -> float:
        """How much more a layout costs than it is worth by the duals of the bound."""
        made = made_by(layout.fills, len(self.problem.demand))
        worth = sum(dual * count for dual, count in zip(self.duals.items, made, strict=True))
        saved = self.duals.stocks[self.problem.faces[layout.face].source]
        return self.problem.cost_of(layout) + saved - worth

    def _duals(self, answer: Answer) -> Duals:
        items = len(self.problem.demand)
        return Duals(
            tuple(max(0.0, dual) for dual in answer.duals[:items]),
            tuple(max(0.0, -dual) for dual in answer.duals[items:]),
        )

    def _raise_bound(self, duals: Duals, found: Sequence[Offer]) -> None:
        """Duals scaled down until no layout is worth more than it costs give a bound (Farley 1990)."""
        scale = max((offer.value / offer.cost for offer in found if offer.cost), default=1.0)
        scale = max(scale, 1.0)
        items = tuple(dual / scale for dual in duals.items)
        stocks = [0.0] * len(self.problem.stocks)
        for offer in found:
            if not offer.cost:
                stocks[offer.source] = max(stocks[offer.source], offer.value / scale)
        bound = sum(dual * count for dual, count in zip(items, self.problem.demand, strict=True))
        bound -= sum(each * (stock or 0) for each, stock in zip(stocks, self.problem.stocks, strict=True))
        if bound > self.bound:
            self.bound, self.duals = bound, Duals(items, tuple(stocks))


def rows_of(problem: Problem, demand: Demand, stocks: Sequence[int | None] | None = None) -> list[Row]:
    """A row for every item, at least the demand, and one for every source, at most its stock."""
    limits = problem.stocks if stocks is None else stocks
    return [
        *((float(count), UNLIMITED) for count in demand),
        *((0.0, UNLIMITED if stock is None else float(stock)) for stock in limits),
    ]


def entries_of(problem: Problem, layout: Layout) -> Entries:
    """What one of a layout adds to the rows."""
    items = len(problem.demand)
    made = made_by(layout.fills, items)
    source = items + problem.faces[layout.face].source
    return [*((item, float(count)) for item, count in enumerate(made) if count), (source, 1.0)]
