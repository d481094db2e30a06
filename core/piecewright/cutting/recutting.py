"""Cut anew: take a few wasteful layouts out of a plan and see whether their pieces fit into less."""

from collections import Counter
from random import Random

from piecewright.cutting.diving import finished
from piecewright.cutting.problem import Layout, Problem, Solution, joined

FEWEST, MOST = 2, 10


def recut(problem: Problem, solution: Solution, random: Random) -> Solution:
    """The solution with some of its layouts cut anew, if that is no worse; else the solution itself."""
    taken = _taken(problem, solution, random)
    kept = Counter(solution) - taken
    rest = problem.without(kept)
    anew = joined(kept, finished(rest, rest.demand))
    return anew if problem.score(anew) <= problem.score(solution) else solution


def _taken(problem: Problem, solution: Solution, random: Random) -> Counter[Layout]:
    """A few layouts, the emptier ones more likely."""
    layouts = list(Counter(solution).elements())
    weights = [1.02 - problem.fullness(layout) for layout in layouts]
    taken: Counter[Layout] = Counter()
    for _ in range(min(random.randint(FEWEST, MOST), len(layouts))):
        place = random.choices(range(len(layouts)), weights)[0]
        taken[layouts.pop(place)] += 1
        weights.pop(place)
    return taken
