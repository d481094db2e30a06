"""Signs by search: a heaviest tree, flips that mend, kicks, and trying all where nodes are few."""

from collections.abc import Iterable
from heapq import heappop, heappush
from random import Random

from piecewright.sewing.signs import Graph, broken_weight

Signs = dict[int, int]

_KICKS = 4_000
_MOST_KICKED = 8


def tree_signs(graph: Graph) -> Signs:
    """Signs that hold every link of a heaviest tree."""
    signs: Signs = {}
    waiting = [(0, next(iter(graph.links)), 1)]
    while waiting:
        _, node, sign = heappop(waiting)
        if node not in signs:
            signs[node] = sign
            for other, link in graph.links[node].items():
                if other not in signs:
                    heappush(waiting, (-link.weight, other, sign * link.sign))
    return signs


def _flip(graph: Graph, signs: Signs, node: int) -> int:
    """Flip a node; how much more is broken then."""
    more = sum(
        signs[node] * signs[other] * link.sign * link.weight for other, link in graph.links[node].items()
    )
    signs[node] = -signs[node]
    return more


def descend(graph: Graph, signs: Signs, nodes: Iterable[int]) -> tuple[list[int], int]:
    """Flip nodes, beginning with these, as long as that mends more than it breaks: which, and how much that mends."""
    waiting, flipped, mended = list(nodes), [], 0
    while waiting:
        node = waiting.pop()
        more = _flip(graph, signs, node)
        if more < 0:
            flipped.append(node)
            mended -= more
            waiting.extend(graph.links[node])
        else:
            signs[node] = -signs[node]
    return flipped, mended


def kicked(graph: Graph, signs: Signs) -> Signs:
    """Flip a few neighbors at random and descend again, a fixed number of times; what makes it worse is undone."""
    random = Random(len(graph.links))  # noqa: S311 # for variety, not for secrets
    nodes, signs = list(graph.links), dict(signs)
    for _ in range(_KICKS):
        kicked = [random.choice(nodes)]
        for _ in range(random.randrange(_MOST_KICKED)):
            kicked.append(random.choice(list(graph.links[kicked[-1]])))
        broken = sum(_flip(graph, signs, node) for node in kicked)
        flipped, mended = descend(graph, signs, kicked)
        if mended < broken:
            for node in (*kicked, *flipped):
                signs[node] = -signs[node]
    return signs


def try_all(graph: Graph, best: Signs, most: int) -> tuple[Signs, bool]:
    """Try all signs, one node after the other, dropping what can not get better than the best.

    Also whether that came to its end within so many steps.
    """
    order = _near_first(graph)
    place = {node: index for index, node in enumerate(order)}
    before = [
        [
            (place[other], link.sign * link.weight)
            for other, link in graph.links[node].items()
            if place[other] < index
        ]
        for index, node in enumerate(order)
    ]
    least = broken_weight(graph, best)
    signs = [1] * len(order)
    waiting = [(0, 1, 0)]
    for _ in range(most):
        if not waiting:
            return best, True
        index, sign, broken = waiting.pop()
        signs[index] = sign
        broken += sum(abs(pull) for other, pull in before[index] if pull * signs[other] * sign < 0)
        if broken >= least:
            continue
        if index + 1 == len(order):
            best, least = dict(zip(order, signs, strict=True)), broken
            continue
        liked = 1 if sum(pull * signs[other] for other, pull in before[index + 1]) >= 0 else -1
        waiting += [(index + 1, -liked, broken), (index + 1, liked, broken)]
    return best, not waiting


def _near_first(graph: Graph) -> list[int]:
    """The nodes so that each has as much link weight as can be to those before it."""
    order: list[int] = []
    pull = dict.fromkeys(graph.links, 0)
    while pull:
        node = max(pull, key=lambda other: (pull[other], len(graph.links[other]), -other))
        del pull[node]
        order.append(node)
        for other, link in graph.links[node].items():
            if other in pull:
                pull[other] += link.weight
    return order
