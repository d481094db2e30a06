"""Circles of ties that can not hold whole, found as shortest ways through a graph with every node twice.

With the best signs known, a link is bent where they break it. A circle is odd where an odd number of its links is
bent; so each odd circle has a bent link, and looking from those alone finds them all.
"""

from collections.abc import Iterator, Mapping
from heapq import heappop, heappush
from typing import NamedTuple

from piecewright.sewing.signs import Graph

Edge = tuple[int, int]
Lengths = Mapping[Edge, float]


class Circle(NamedTuple):
    """The links of an odd circle, and their lengths together."""

    edges: tuple[Edge, ...]
    length: float


def edge(one: int, other: int) -> Edge:
    """The name of a link, the same from both sides."""
    return (one, other) if one < other else (other, one)


def bent_edges(graph: Graph, signs: Mapping[int, int]) -> list[Edge]:
    """The links that signs break."""
    return [(one, other) for one, other, link in graph.edges() if signs[one] * signs[other] * link.sign < 0]


def short_circles(graph: Graph, signs: Mapping[int, int], lengths: Lengths, most: float) -> Iterator[Circle]:
    """The shortest odd circle through each link, where it is shorter than `most`."""
    bent = set(bent_edges(graph, signs))
    for start in lengths:
        found = _shortest(graph, bent, start, lengths, most)
        if found is not None:
            yield found


def packed_circles(graph: Graph, signs: Mapping[int, int]) -> int:
    """What odd circles break at least when no link's weight is counted twice."""
    left: dict[Edge, int] = {(one, other): link.weight for one, other, link in graph.edges()}
    bent = set(bent_edges(graph, signs))
    bound = 0
    for start in sorted(bent):
        while left[start]:
            lengths = {name: 1.0 if weight else float("inf") for name, weight in left.items()}
            found = _shortest(graph, bent, start, lengths, float("inf"))
            if found is None:
                break
            least = min(left[name] for name in found.edges)
            bound += least
            for name in found.edges:
                left[name] -= least
    return bound


def _shortest(graph: Graph, bent: set[Edge], start: Edge, lengths: Lengths, most: float) -> Circle | None:
    """The shortest odd circle through a link: the shortest way round that makes the number of bent links odd.

    Dijkstra over (node, whether the number of bent links so far is odd). A way may pass a link twice; without such
    links it still falls into circles of which one is odd.
    """
    home, away = start
    reached: dict[tuple[int, bool], tuple[int, bool] | None] = {}
    waiting: list[tuple[float, int, bool, tuple[int, bool] | None]] = [
        (lengths[start], away, start in bent, None)
    ]
    while waiting:
        length, node, odd, came = heappop(waiting)
        here = (node, odd)
        if length >= most or here in reached:
            continue
        reached[here] = came
        if here == (home, True):
            return Circle(_links(reached, here, start), length)
        for other in graph.links[node]:
            name = edge(node, other)
            there = (other, odd != (name in bent))
            if name != start and there not in reached and lengths[name] < float("inf"):
                heappush(waiting, (length + lengths[name], *there, here))
    return None


def _links(
    reached: Mapping[tuple[int, bool], tuple[int, bool] | None], here: tuple[int, bool], start: Edge
) -> tuple[Edge, ...]:
    found = {start}
    before = reached[here]
    while before is not None:
        name = edge(here[0], before[0])
        found ^= {name}
        here, before = before, reached[before]
    return tuple(sorted(found))
