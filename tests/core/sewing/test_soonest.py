"""The order in which least waits, held against trying all orders."""

from itertools import permutations

from hypothesis import given
from hypothesis import strategies as st

from piecewright.sewing.soonest import Wait, cost_of, soonest

COUNT = 6


@st.composite
def makings(draw: st.DrawFn) -> tuple[list[set[int]], list[Wait]]:
    """Steps, each with earlier ones it needs, and waits from a step to a later one that needs it."""
    before = [draw(st.sets(st.integers(0, step - 1), max_size=2)) if step else set() for step in range(COUNT)]
    waits = []
    for _ in range(draw(st.integers(0, 4))):
        end = draw(st.integers(1, COUNT - 1))
        start = draw(st.integers(0, end - 1))
        before[end].add(start)
        waits.append(Wait(start, end, draw(st.integers(1, 5))))
    return before, waits


def is_allowed(steps: tuple[int, ...], before: list[set[int]]) -> bool:
    return all(before[step] <= set(steps[:place]) for place, step in enumerate(steps))


@given(makings())
def test_no_order_costs_less(made: tuple[list[set[int]], list[Wait]]) -> None:
    before, waits = made
    found = soonest(before, waits)
    assert sorted(found.steps) == list(range(COUNT))
    assert is_allowed(found.steps, before)
    least = min(cost_of(steps, waits) for steps in permutations(range(COUNT)) if is_allowed(steps, before))
    assert (found.cost, found.proven) == (least, True)
    assert cost_of(found.steps, waits) == found.cost


def test_the_given_order_stays_where_none_is_better() -> None:
    before: list[set[int]] = [set(), set(), {0}, {1, 2}]
    assert soonest(before, [Wait(2, 3, 1)]).steps == (0, 1, 2, 3)


def test_too_many_orders_leave_the_given_one_unproven() -> None:
    free = 20
    before: list[set[int]] = [set() for _ in range(free)] + [{step} for step in range(free)]
    waits = [Wait(step, free + step, step % 7 + 1) for step in range(free)]
    waits += [Wait(step, free + (step + 3) % free, 2) for step in range(free)]
    for wait in waits:
        before[wait.end].add(wait.start)
    found = soonest(before, waits)
    assert (found.steps, found.proven) == (tuple(range(2 * free)), False)
