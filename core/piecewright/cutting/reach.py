"""Which lengths of cloth strips can sum to: a bound between two of them is as good as the next."""

from piecewright.cutting.problem import Problem


def next_sum(problem: Problem, least: int) -> int:
    """The least cost from `least` up that strips off the bolt, or sheets, can have."""
    heights = _heights(problem)
    if least <= 0 or not heights:
        return max(least, 0)
    limit = least + max(heights)
    above = _sums(heights, limit) >> least
    return least + (above & -above).bit_length() - 1


def sum_below(problem: Problem, cost: int) -> int:
    """The greatest cost below `cost` that strips off the bolt, or sheets, can have; -1 where there is none."""
    heights = _heights(problem)
    sums = _sums(heights, cost) if heights else (1 << cost) - 1
    return (sums & ((1 << max(cost, 0)) - 1)).bit_length() - 1


def _heights(problem: Problem) -> set[int]:
    """The heights that a strip off the bolt can have; none where sheets are counted."""
    return {
        variant.top
        for index in problem.open_faces
        if problem.faces[index].is_bolt
        for variant in problem.faces[index].variants
        if variant.stack <= problem.demand[variant.item]
    }


def _sums(heights: set[int], limit: int) -> int:
    """A number whose bit n tells whether some heights, each as often as one likes, sum to n."""
    sums, mask = 1, (1 << (limit + 1)) - 1
    for height in sorted(heights):
        shift = height
        while shift <= limit:
            sums |= (sums << shift) & mask
            shift *= 2
    return sums
