"""The knotted core of a graph of ties: search for signs, and odd circles that prove how good they are.

A circle with an odd number of opposite links can not hold whole; circles that share no link add up to a bound. The
linear program over all of them is exact where the graph is planar (Barahona and Mahjoub 1986), and near it elsewhere.
"""

from importlib.util import find_spec

from piecewright.sewing.circles import packed_circles
from piecewright.sewing.search import Signs, descend, kicked, tree_signs, try_all
from piecewright.sewing.signs import Graph, broken_weight

SMALL = 14
"""Cores of so many nodes are searched through to the end, without any library."""
_MEDIUM = 20
"""In cores of so many nodes the search is tried before the library."""
_MOST_LINKS = 600
"""Larger cores are left to the search and the circles packed; their program would take too long."""
MOST_STEPS = 200_000


def settle_core(graph: Graph, *, library: bool) -> tuple[Signs, int]:
    """Signs of a core in one part, and the least that any signs break."""
    best = tree_signs(graph)
    descend(graph, best, graph.links)
    if len(graph.links) <= SMALL:
        best, _ = try_all(graph, best, 2 << SMALL)
        return best, broken_weight(graph, best)
    best = kicked(graph, best)
    bound = packed_circles(graph, best)
    if bound == broken_weight(graph, best):
        return best, bound
    links = sum(map(len, graph.links.values())) // 2
    use_library = library and links <= _MOST_LINKS and find_spec("highspy") is not None
    if len(graph.links) <= _MEDIUM or not use_library:
        best, done = try_all(graph, best, MOST_STEPS)
        if done or not use_library:
            return best, broken_weight(graph, best) if done else bound
    from piecewright.sewing.circle_program import by_circles  # brings the library, needed by few designs

    best, least = by_circles(graph, best)
    return best, max(bound, least)
