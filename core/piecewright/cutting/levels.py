"""The live answer: strips filled level by level, sizes by falling height, each where it fits best.

Alike strips are filled together, so the work grows with the number of sizes, not of pieces.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from piecewright.cutting.problem import (
    Demand,
    Face,
    Fill,
    Group,
    Layout,
    Lie,
    Problem,
    Solution,
    fill_of,
    joined,
    made_by,
    minus,
)

Fills = list[tuple[Fill, int]]
"""Strips with how many there are of each."""


@dataclass(slots=True)
class _Open:
    """`times` alike strips that are not full: what is left of their length, and what is in them."""

    height: int
    left: int
    times: int
    groups: tuple[Group, ...]


def level_solutions(problem: Problem, demand: Demand) -> Iterator[Solution]:
    """The answers of every order. All give exactly the demand."""
    taken, rest = _from_stock(problem, demand)
    for index in problem.open_faces:
        for fills in levels(problem.faces[index], rest):
            yield joined(taken, on_sheets(index, problem.faces[index], fills))


def levels(face: Face, demand: Demand) -> Iterator[Fills]:
    """The strips of every order in turn; items that do not fit on the face must not be asked for."""
    if not any(demand):
        yield []
        return
    seen = set()
    for rule in (_plainest, _highest, _lowest):
        opening = [
            rule(lies, demand[item], face.width) for item, lies in face.lies_by_item.items() if demand[item]
        ]
        opening.sort(key=lambda lie: (-lie.along, -lie.across))
        if tuple(opening) not in seen:
            seen.add(tuple(opening))
            yield _filled(face, demand, opening, by_height=True)
            yield _filled(face, demand, opening, by_height=False)


def _plainest(lies: Sequence[Lie], count: int, width: int) -> Lie:
    """The lie that takes least cloth in strips of its own."""
    return min(lies, key=lambda lie: (-(-count // (width // lie.across)) * lie.along, lie.along))


def _highest(lies: Sequence[Lie], count: int, width: int) -> Lie:  # noqa: ARG001 - one of several rules
    return max(lies, key=lambda lie: lie.along)


def _lowest(lies: Sequence[Lie], count: int, width: int) -> Lie:  # noqa: ARG001 - one of several rules
    return min(lies, key=lambda lie: lie.along)


def _filled(face: Face, demand: Demand, opening: Sequence[Lie], *, by_height: bool) -> Fills:
    strips: list[_Open] = []
    full: list[_Open] = []
    for lie, least in zip(opening, _least_lengths(face, opening), strict=True):
        full += [strip for strip in strips if strip.left < least]
        strips = [strip for strip in strips if strip.left >= least]
        need = demand[lie.item]
        lies = face.lies_by_item[lie.item]
        while need:
            found = _best(strips, lies, face.stack, by_height=by_height)
            if found is None:
                strips.append(_Open(lie.along, face.width, -(-need // (face.width // lie.across)), ()))
                found = (strips[-1], lie, 1)
            need -= _put(strips, *found, need)
    return [(fill_of(strip.groups), strip.times) for strip in (*full, *strips)]


def _least_lengths(face: Face, opening: Sequence[Lie]) -> list[int]:
    """How much of a strip the shortest of each item and all after it takes: with less left, it is full."""
    least: list[int] = []
    for lie in reversed(opening):
        here = min(each.across for each in face.lies_by_item[lie.item])
        least.append(min(here, least[-1]) if least else here)
    return least[::-1]


def _best(
    strips: Iterable[_Open], lies: Sequence[Lie], stack: int, *, by_height: bool
) -> tuple[_Open, Lie, int] | None:
    """The open strip where least is wasted above, or beside, and how high the item stacks there."""
    best, found = None, None
    for strip in strips:
        left, height = strip.left, strip.height
        for lie in lies:
            if lie.across > left or lie.along > height:
                continue
            stacked = min(stack, height // lie.along)
            above, beside = height - stacked * lie.along, left % lie.across
            rank = (above, beside) if by_height else (above * lie.across + beside * height, left)
            if best is None or rank < best:
                best, found = rank, (strip, lie, stacked)
    return found


def _put(strips: list[_Open], strip: _Open, lie: Lie, stacked: int, need: int) -> int:
    """Put up to `need` pieces into alike strips; those filled less than the others become strips apart."""
    each = strip.left // lie.across * stacked
    full = min(strip.times, need // each)
    rest = 0 if full == strip.times else need - full * each
    untouched = strip.times - full - (rest > 0)
    left, groups = strip.left, strip.groups
    for times, count in ((full, each), (1 if rest else 0, rest)):
        if times:
            group = Group(lie.item, lie.across, lie.along, stacked, count)
            strips.append(_Open(strip.height, left - group.columns * lie.across, times, (*groups, group)))
    if untouched:
        strip.times = untouched
    else:
        strips.remove(strip)
    return full * each + rest


def on_sheets(index: int, face: Face, fills: Fills) -> Counter[Layout]:
    """Strips laid on sheets of a face, highest first, each into the first sheet that has room."""
    if face.length is None:
        off_the_bolt: Counter[Layout] = Counter()
        for fill, times in fills:
            off_the_bolt[Layout(index, (fill,))] += times
        return off_the_bolt
    sheets: list[tuple[int, list[Fill]]] = []
    for fill, times in sorted(fills, key=lambda each: -each[0].height):
        for _ in range(times):
            _lay(sheets, fill, face.length)
    return Counter(Layout(index, tuple(sorted(strips, reverse=True))) for _, strips in sheets)


def _lay(sheets: list[tuple[int, list[Fill]]], fill: Fill, length: int) -> None:
    for place, (left, strips) in enumerate(sheets):
        if left >= fill.height:
            strips.append(fill)
            sheets[place] = (left - fill.height, strips)
            return
    sheets.append((length - fill.height, [fill]))


def _from_stock(problem: Problem, demand: Demand) -> tuple[Solution, Demand]:
    """The fullest sheets of every source that costs nothing, and what they leave to be cut."""
    taken: Counter[Layout] = Counter()
    for source, stock in enumerate(problem.stocks):
        if source == problem.source or stock is None:
            continue
        left = stock
        while left:
            layout = _fullest(problem, source, demand)
            if layout is None:
                break
            made = made_by(layout.fills, len(demand))
            times = min(left, *(wanted // given for wanted, given in zip(demand, made, strict=True) if given))
            taken[layout] += times
            demand = minus(demand, made, times)
            left -= times
    return taken, demand


def _fullest(problem: Problem, source: int, demand: Demand) -> Layout | None:
    sheets = [
        layout
        for index, face in enumerate(problem.faces)
        if face.source == source
        for fills in levels(face, fitting(face, demand))
        for layout in on_sheets(index, face, fills)
    ]
    return max(sheets, key=problem.covered, default=None)


def fitting(face: Face, demand: Demand) -> Demand:
    """The part of a demand that fits on a face."""
    return tuple(count if item in face.lies_by_item else 0 for item, count in enumerate(demand))
