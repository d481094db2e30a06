"""From fewest sets to scrappiest: in how many mixes of fabrics blocks are sewn, who gets which, and what it costs."""

from collections import Counter, deque
from collections.abc import Mapping
from dataclasses import dataclass
from random import Random

from piecewright.arrange.arranging import Scatter, arrange
from piecewright.edit.arranging import Hung
from piecewright.edit.footprint import Laid, all_laid
from piecewright.edit.registry import Cell, EditCall, apply, call
from piecewright.making.recipe import Recipe
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.value import Letters
from piecewright.plan.materials import materials

Pools = Mapping[str, tuple[str, ...]]
"""The fabric ids that each letter may be."""
Mix = dict[str, tuple[str, ...]]
"""The fabrics of each letter in every layer of one making."""
_TRIES = 40
"""So often a mix is drawn anew where it was there already."""


@dataclass(frozen=True)
class Group:
    """Placed blocks sewn by one recipe in one size, none of them locked; `makings` of `stack` blocks each."""

    recipe: Recipe
    laid: tuple[Laid, ...]

    @property
    def stack(self) -> int:
        """Blocks that come of one making's layers."""
        return self.recipe.stack

    @property
    def makings(self) -> int:
        """How often the recipe is sewn: the most mixes there can be."""
        return -(-len(self.laid) // self.stack)


@dataclass(frozen=True)
class Scrappy:
    """An answer: the edit (None where nothing changes), the mixes in it, and the sets and strips it then takes."""

    call: EditCall | None
    mixes: int
    sets: int
    strips: int


def group_of(design: Design, block: str) -> Group:
    """All blocks on the wall in view that are sewn as this block of the shelf is. Raises KeyError for an unknown id."""
    shelf = design.shelf
    wanted = _making(shelf.blocks[block])
    laid = tuple(
        one
        for one in all_laid(design, design.quilt)
        if _making(shelf.blocks[one.placement.block]) == wanted and not one.placement.locked
    )
    return Group(shelf.recipes[shelf.blocks[block].recipe], laid)


def pools_of(design: Design, group: Group) -> Pools:
    """For each letter the fabrics that these blocks have in it now, in the design's order."""
    order = {fabric.id: number for number, fabric in enumerate(design.fabrics)}
    pools: dict[str, set[str]] = {letter: set() for letter in group.recipe.letters}
    for one in group.laid:
        letters = design.letters(one.placement)
        for letter in pools:
            pools[letter].update(letters.get(letter, ()))
    return {letter: tuple(sorted(pool, key=order.__getitem__)) for letter, pool in pools.items() if pool}


def scrappy(design: Design, block: str, mixes: int, *, pools: Pools | None = None, seed: int = 0) -> Scrappy:
    """The blocks sewn as this one, in so many mixes of fabrics, each as often as the others, scattered.

    Fabrics are used as evenly as may be, none twice in one mix where the pools allow it. There are never more
    mixes than makings, nor more than the pools give; the answer says how many there are.
    """
    group = group_of(design, block)
    if not group.laid:
        return _told(design, design, 0)
    random = Random(seed)  # noqa: S311 - chance for beauty, not for secrets
    wanted = max(1, min(mixes, group.makings))
    found = _mixes(pools or pools_of(design, group), group.stack, wanted, random)
    dealt = _dealt(design, group, found)
    cells = [Cell(one.column, one.row) for one in group.laid]
    scattered = arrange(dealt, Scatter(), cells=cells, seed=seed, turning=False)
    after = dealt if scattered.call is None else apply(dealt, scattered.call)
    return _told(design, after, len(found))


def free_mixes(design: Design, block: str, *, pools: Pools | None = None, seed: int = 0) -> int:
    """The most mixes that take no more strip sets than one mix does; each takes a set at least."""
    group = group_of(design, block)
    if not group.laid:
        return 0
    chosen = pools or pools_of(design, group)

    def sets(mixes: int) -> int:
        random = Random(seed)  # noqa: S311 - chance for beauty, not for secrets
        return materials(_dealt(design, group, _mixes(chosen, group.stack, mixes, random))).set_count

    least = sets(1)
    return next((mixes for mixes in range(min(group.makings, least), 1, -1) if sets(mixes) <= least), 1)


def _making(block: Block) -> tuple[object, ...]:
    return block.recipe, block.sizes, block.draws


def _mixes(pools: Pools, stack: int, wanted: int, random: Random) -> list[Mix]:
    """So many unlike mixes, or as many as come up, the least used fabrics first."""
    used: dict[str, Counter[str]] = {letter: Counter() for letter in pools}
    mixes: list[Mix] = []
    seen: set[tuple[tuple[str, ...], ...]] = set()
    for _ in range(wanted):
        for _ in range(_TRIES):
            mix = _drawn(pools, stack, used, random)
            if tuple(mix.values()) not in seen:
                break
            for letter in pools:  # the even choice is there already: another one, nearly as even
                used[letter][random.choice(pools[letter])] += 1
        else:
            break
        seen.add(tuple(mix.values()))
        mixes.append(mix)
        for letter, ids in mix.items():
            used[letter].update(ids)
    return mixes


def _drawn(pools: Pools, stack: int, used: dict[str, Counter[str]], random: Random) -> Mix:
    mix: Mix = {}
    taken: set[str] = set()
    for letter in sorted(pools, key=lambda letter: len(pools[letter])):
        pool = [fabric for fabric in pools[letter] if fabric not in taken] or list(pools[letter])
        random.shuffle(pool)
        pool.sort(key=used[letter].__getitem__)
        mix[letter] = tuple(pool[layer % len(pool)] for layer in range(stack))
        taken.update(mix[letter])
    return {letter: mix[letter] for letter in pools}


def _dealt(design: Design, group: Group, mixes: list[Mix]) -> Design:
    """The blocks in these mixes, making by making, each mix as often as the others."""
    lift, lay = [], []
    layers = deque[int]()
    making = -1
    for one in group.laid:
        if not layers:
            layers.extend(range(group.stack))
            making += 1
        fabrics = Letters(mixes[making % len(mixes)]) if mixes else one.placement.fabrics
        placement = one.placement.changed(fabrics=fabrics, layer=layers.popleft())
        lift.append(Cell(one.column, one.row))
        lay.append(Hung(one.row, placement))
    return apply(design, call("arrange-blocks", lift=tuple(lift), lay=tuple(lay)))


def _told(before: Design, after: Design, mixes: int) -> Scrappy:
    needed = materials(after)
    return Scrappy(between(before, after), mixes, needed.set_count, needed.strip_count)


def between(before: Design, after: Design) -> EditCall | None:
    """The one edit that hangs the wall of `before` as that of `after` hangs; None where they are alike."""
    was, now = set(all_laid(before, before.quilt)), set(all_laid(after, after.quilt))
    lift = tuple(Cell(one.column, one.row) for one in sorted(was - now, key=_place))
    lay = tuple(Hung(one.row, one.placement) for one in sorted(now - was, key=_place))
    return call("arrange-blocks", lift=lift, lay=lay) if lift or lay else None


def _place(laid: Laid) -> tuple[int, int]:
    return laid.row, laid.column
