"""Ties between signs: which pairs should be equal or opposite, and how few ties must break.

A seam pressed one way or the other is a sign; two seams that meet are a tie. All ties hold just where no circle of
them asks a sign to be its own opposite (Harary 1953, balance of signed graphs).
"""

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple


class Tie(NamedTuple):
    """Two signs, by index, that should be the `same` or not; broken, it costs `weight` (whole, more than 0)."""

    one: int
    other: int
    same: bool
    weight: int = 1


class Link(NamedTuple):
    """All ties between two nodes as one: `sign` 1 for the same, -1 for opposite, and what breaking it costs more."""

    sign: int
    weight: int


@dataclass
class Graph:
    """Nodes with at most one link between two of them; `base` is what is broken whatever the signs."""

    links: dict[int, dict[int, Link]] = field(default_factory=dict)
    base: int = 0

    def add(self, one: int, other: int, sign: int, weight: int) -> None:
        """Add a tie; ties between the same two nodes become one link, or none where they cancel."""
        if one == other:
            self.base += weight if sign < 0 else 0
            return
        before = self.links.setdefault(one, {}).get(other)
        self.links.setdefault(other, {})
        signed = sign * weight + (before.sign * before.weight if before else 0)
        if before and before.sign != sign:
            self.base += min(before.weight, weight)
        if signed:
            link = Link(1 if signed > 0 else -1, abs(signed))
            self.links[one][other] = self.links[other][one] = link
        elif before:
            del self.links[one][other], self.links[other][one]

    def remove(self, node: int) -> dict[int, Link]:
        """Take a node out with its links, which are given back."""
        links = self.links.pop(node)
        for other in links:
            del self.links[other][node]
        return links

    def edges(self) -> Iterable[tuple[int, int, Link]]:
        """Every link once."""
        for one, links in self.links.items():
            for other, link in links.items():
                if one < other:
                    yield one, other, link


def broken_weight(graph: Graph, signs: Mapping[int, int]) -> int:
    """What the links broken by signs of all nodes cost, `base` left out."""
    return sum(link.weight for one, other, link in graph.edges() if signs[one] * signs[other] * link.sign < 0)


def graph_of(count: int, ties: Iterable[Tie], fixed: Mapping[int, int]) -> Graph:
    """The graph of `count` signs; those fixed are one node, number `count`, whose sign is 1."""
    graph = Graph({node: {} for node in (*range(count), count) if node not in fixed})
    for tie in ties:
        sign = 1 if tie.same else -1
        ends = []
        for end in (tie.one, tie.other):
            ends.append(count if end in fixed else end)
            sign *= fixed.get(end, 1)
        graph.add(ends[0], ends[1], sign, tie.weight)
    return graph


@dataclass(frozen=True, slots=True)
class Part:
    """Nodes that hang together; `signs` as a walk from the first of them gives; `even` where that breaks no link."""

    signs: dict[int, int]
    even: bool


def parts_of(graph: Graph, first: Sequence[int] = ()) -> list[Part]:
    """The parts of a graph, those with a node of `first` beginning there."""
    seen: set[int] = set()
    parts = []
    for start in (*first, *graph.links):
        if start in graph.links and start not in seen:
            part = _walk(graph, start)
            seen.update(part.signs)
            parts.append(part)
    return parts


def _walk(graph: Graph, start: int) -> Part:
    signs, even = {start: 1}, True
    waiting = deque([start])
    while waiting:
        node = waiting.popleft()
        for other, link in graph.links[node].items():
            sign = signs[node] * link.sign
            if other not in signs:
                signs[other] = sign
                waiting.append(other)
            elif signs[other] != sign:
                even = False
    return Part(signs, even)


def within(graph: Graph, nodes: Iterable[int]) -> Graph:
    """A copy of a part of a graph, given all its nodes."""
    return Graph({node: dict(graph.links[node]) for node in nodes})
