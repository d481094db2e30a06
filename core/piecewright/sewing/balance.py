"""Signs that break as few ties as can be, with proof where it can be had and a bound where not."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from piecewright.sewing.core import settle_core
from piecewright.sewing.signs import Graph, Link, Part, Tie, broken_weight, graph_of, parts_of, within


@dataclass(frozen=True, slots=True)
class Balance:
    """A sign, 1 or -1, for each index; what the broken ties cost, and what no signs can cost less than.

    `groups` numbers the signs that hang together by ties: all of a group may be flipped at no cost, but for group 0,
    which is held by what is fixed.
    """

    signs: tuple[int, ...]
    broken: int
    bound: int
    groups: tuple[int, ...]

    @property
    def proven(self) -> bool:
        """Whether no signs can break less."""
        return self.broken == self.bound


def balance(
    count: int, ties: Sequence[Tie], fixed: Mapping[int, int] | None = None, *, library: bool = True
) -> Balance:
    """The signs of `count` indices under ties; `fixed` are given. Without `library`, HiGHS is not asked.

    Parts without contradiction are settled by one walk. In the others, ends and chains are taken off exactly; what
    is left goes to search and odd circles (see `core`). The first index of each free group gets sign 1.
    """
    fixed = fixed or {}
    graph = graph_of(count, ties, fixed)
    signs, groups = dict(fixed), dict.fromkeys(fixed, 0)
    bound = graph.base
    for number, part in enumerate(parts_of(graph, first=(count,))):
        found, least = _settle(graph, part, library=library)
        turn = found[min(part.signs) if number else count]
        signs.update((node, sign * turn) for node, sign in found.items())
        groups.update(dict.fromkeys(found, number))
        bound += least
    broken = sum(tie.weight for tie in ties if (signs[tie.one] == signs[tie.other]) != tie.same)
    return Balance(
        tuple(signs[index] for index in range(count)),
        broken,
        bound,
        tuple(groups[index] for index in range(count)),
    )


def balance_in_order(
    count: int,
    ties: Sequence[Tie],
    wishes: Sequence[Sequence[Tie]],
    fixed: Mapping[int, int] | None = None,
    *,
    library: bool = True,
) -> Balance:
    """As `balance`; then, of what it leaves free, each list of `wishes` in its order breaks as little as can be.

    A wish may name index `count`, whose sign is 1.
    """
    held = {**(fixed or {}), count: 1}
    found = balance(count + 1, ties, held, library=library)
    signs, groups = found.signs, found.groups
    for level in wishes:
        asked = [
            Tie(
                groups[wish.one],
                groups[wish.other],
                wish.same == (signs[wish.one] == signs[wish.other]),
                wish.weight,
            )
            for wish in level
        ]
        turned = balance(max(groups) + 1, asked, {0: 1}, library=library)
        signs = tuple(sign * turned.signs[group] for sign, group in zip(signs, groups, strict=True))
        groups = tuple(turned.groups[group] for group in groups)
    return Balance(signs[:count], found.broken, found.bound, groups[:count])


def _settle(graph: Graph, part: Part, *, library: bool) -> tuple[dict[int, int], int]:
    """Signs of a part that break little, and what they can not break less than."""
    if part.even:
        return part.signs, 0
    work = within(graph, part.signs)
    taken = _strip(work)
    base, work.base = work.base, 0
    signs: dict[int, int] = {}
    least = base
    for core in parts_of(work):
        found, bound = (
            (core.signs, 0) if core.even else settle_core(within(work, core.signs), library=library)
        )
        signs.update(found)
        least += bound
    _put_back(taken, signs)
    plain = part.signs
    whole = within(graph, plain)
    return (signs, least) if broken_weight(whole, signs) <= broken_weight(whole, plain) else (plain, least)


class _Taken(NamedTuple):
    node: int
    links: dict[int, Link]


def _strip(graph: Graph) -> list[_Taken]:
    """Take off nodes with one link, and with two, whose links become one: what that breaks is known exactly."""
    taken: list[_Taken] = []
    waiting = list(graph.links)
    while waiting:
        node = waiting.pop()
        if node not in graph.links or len(graph.links[node]) > 2:
            continue
        links = graph.remove(node)
        taken.append(_Taken(node, links))
        if len(links) == 2:
            (one, first), (other, second) = links.items()
            graph.add(one, other, first.sign * second.sign, min(first.weight, second.weight))
        waiting.extend(links)
    return taken


def _put_back(taken: Sequence[_Taken], signs: dict[int, int]) -> None:
    """Give the nodes taken off their signs, last first, each after its heaviest link."""
    for node, links in reversed(taken):
        if not links:
            signs[node] = 1
            continue
        other, link = max(links.items(), key=lambda item: item[1].weight)
        signs[node] = signs[other] * link.sign
