"""As few broken ties as can be, held against trying all signs."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.sewing.balance import balance, balance_in_order
from piecewright.sewing.circle_program import by_circles
from piecewright.sewing.circles import packed_circles
from piecewright.sewing.core import SMALL
from piecewright.sewing.signs import Tie, broken_weight, graph_of

COUNT = 7


def ties_of(count: int, most: int) -> st.SearchStrategy[list[Tie]]:
    ends = st.integers(0, count - 1)
    return st.lists(st.builds(Tie, ends, ends, st.booleans(), st.integers(1, 3)), max_size=most)


fixings = st.dictionaries(st.integers(0, COUNT - 1), st.sampled_from([1, -1]), max_size=3)


def broken(ties: list[Tie], signs: tuple[int, ...]) -> int:
    return sum(tie.weight for tie in ties if (signs[tie.one] == signs[tie.other]) != tie.same)


def all_signs(count: int, fixed: dict[int, int]) -> list[tuple[int, ...]]:
    found = product((1, -1), repeat=count)
    return [signs for signs in found if all(signs[index] == sign for index, sign in fixed.items())]


@given(ties_of(COUNT, 20), fixings)
def test_no_signs_break_less(ties: list[Tie], fixed: dict[int, int]) -> None:
    found = balance(COUNT, ties, fixed)
    assert all(found.signs[index] == sign for index, sign in fixed.items())
    least = min(broken(ties, signs) for signs in all_signs(COUNT, fixed))
    assert (broken(ties, found.signs), found.broken, found.bound) == (least, least, least)


@given(ties_of(COUNT, 12), fixings, st.data())
def test_a_group_flips_at_no_cost(ties: list[Tie], fixed: dict[int, int], data: st.DataObject) -> None:
    found = balance(COUNT, ties, fixed)
    flipped = data.draw(st.sets(st.integers(1, COUNT)))
    signs = tuple(
        -sign if group in flipped else sign for sign, group in zip(found.signs, found.groups, strict=True)
    )
    assert broken(ties, signs) == found.broken


@given(ties_of(COUNT, 8), ties_of(COUNT + 1, 4), ties_of(COUNT + 1, 4), fixings)
def test_wishes_break_no_tie_and_the_first_ones_come_first(
    ties: list[Tie], first: list[Tie], second: list[Tie], fixed: dict[int, int]
) -> None:
    found = balance_in_order(COUNT, ties, (first, second), fixed)
    allowed = balance(COUNT, ties, fixed)
    assert found.broken == allowed.broken == broken(ties, found.signs)
    if not allowed.broken:
        best = min((broken(ties, signs), broken(first, (*signs, 1))) for signs in all_signs(COUNT, fixed))
        assert (found.broken, broken(first, (*found.signs, 1))) == best


@given(ties_of(9, 30))
def test_odd_circles_bound_and_the_program_reaches_what_search_proves(ties: list[Tie]) -> None:
    graph = graph_of(9, ties, {})
    for node in [node for node, links in graph.links.items() if not links]:
        graph.remove(node)
    if not graph.links:
        return
    start = dict.fromkeys(graph.links, 1)
    least = min(
        broken_weight(graph, dict(zip(graph.links, signs, strict=True)))
        for signs in product((1, -1), repeat=len(graph.links))
    )
    assert packed_circles(graph, start) <= least
    signs, bound = by_circles(graph, start)
    assert bound == least == broken_weight(graph, signs)


@pytest.mark.parametrize("library", [True, False])
def test_a_large_even_core_is_settled_whole(library: bool) -> None:
    side = 12
    ties = [Tie(y * side + x, y * side + x + 1, same=True) for y in range(side) for x in range(side - 1)]
    ties += [Tie(y * side + x, y * side + x + side, x % 2 == 0) for y in range(side - 1) for x in range(side)]
    knots = sum(1 for y in range(side - 1) for x in range(side - 1))
    found = balance(side * side, ties, library=library)
    # every square of the grid is an odd circle and no link lies in more than two: at least half as many break
    assert found.broken >= -(-knots // 2)
    assert found.bound >= knots // 3
    if library:
        assert found.proven


@given(ties_of(24, 80))
def test_without_the_library_the_answer_is_as_sound(ties: list[Tie]) -> None:
    with_it, without = balance(24, ties), balance(24, ties, library=False)
    assert with_it.bound <= without.broken
    assert without.bound <= with_it.broken
    for found in (with_it, without):
        assert found.bound <= found.broken == broken(ties, found.signs)


@pytest.mark.parametrize("count", [3, 8, 15, 18])
@pytest.mark.parametrize("library", [True, False])
def test_all_opposite_among_all(count: int, library: bool) -> None:
    """The largest cut of a complete graph has floor(n^2 / 4) edges (Mantel 1907: the most without a triangle)."""
    ties = [Tie(one, other, same=False) for one in range(count) for other in range(one)]
    found = balance(count, ties, library=library)
    assert found.broken == len(ties) - count**2 // 4
    assert found.bound <= found.broken
    assert found.proven or count > SMALL
