"""The ways to bring a quilt to a size wished for, ranked: nearest first, then least new cloth, then least work."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain

from piecewright.edit.registry import EditCall, apply, call
from piecewright.edit.resize_quilt import cloth_around
from piecewright.edit.resizing import leaving
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Quilt
from piecewright.plan.difference import Change, difference
from piecewright.plan.materials import Materials, materials
from piecewright.plan.resize_blocks import Rehung, rehung
from piecewright.plan.resize_moves import (
    Base,
    Plan,
    base_of,
    borders,
    counts,
    other_sashing,
    other_sizes,
    with_sashing,
)
from piecewright.plan.resize_wish import BlocksWish, Wish, blocks_to_make, target_of
from piecewright.units.measure import Yardage
from piecewright.units.scale import INCH
from piecewright.units.sizes import Finished
from piecewright.words.message import Message, message

MOST_WAYS = 12
"""Ways that are worked out with their materials and offered."""
_OF_A_KIND = 2
_MOST_TRIED = 16
_MOST_COPED = Fraction(1, 8)
"""The part of a quilt that coping strips may fill."""
RULER = INCH / 8
_NONE = Fraction(0)


@dataclass(frozen=True, slots=True)
class Way:
    """One way to the size: a few edits, done as one by `call`.

    `does` names each of them; `size` is the exact finished size, and `off` by how much it is wider and longer than
    the wish, below zero for less; (0, 0) where the wish is no size. `changes` is what is other in the materials,
    `cloth` how much more of it is to be bought, `to_make` how many blocks on the wall are not made yet, `leaving` how
    many leave it. `why` tells its rank in a sentence.
    """

    calls: tuple[EditCall, ...]
    does: tuple[Message, ...]
    design: Design
    size: Finished
    off: tuple[Fraction, Fraction]
    changes: tuple[Change, ...]
    cloth: Yardage
    to_make: int
    leaving: int
    why: Message

    @property
    def call(self) -> EditCall:
        """All of it as one edit."""
        return call("do-together", edits=self.calls, purpose="resize")

    @property
    def name(self) -> Message:
        """What it does."""
        return message("resize.way", parts=self.does)

    @property
    def is_exact(self) -> bool:
        """Whether it comes out at the size wished for."""
        return not any(self.off)

    @property
    def rank(self) -> tuple[Fraction, Fraction, int, int]:
        """Inches off both ways together, inches of cloth to buy, blocks to make, edits: the least comes first."""
        return sum(map(abs, self.off), _NONE), self.cloth.rounded, self.to_make, len(self.calls)


def ways_to(
    design: Design,
    wish: Wish,
    *,
    ruler: Fraction = RULER,
    is_given_up: Callable[[], bool] = lambda: False,
) -> tuple[Way, ...]:
    """The ways to a wish that lead no further off than the quilt is, the best first; none where all are refused.

    Widths of sashing and borders are whole multiples of `ruler`. `is_given_up` is asked between the ways: where it
    says so, those found so far are given. For the blocks at hand the largest comes first. Raises EditError for a bed
    that the country has not, and for a size that is none.
    """
    if isinstance(wish, BlocksWish):
        return _by_blocks(design, ruler, is_given_up)
    target = target_of(wish, design.settings)
    found = _worked_out(design, _chosen(design, target, ruler), target, is_given_up)
    return tuple(sorted(found, key=lambda way: way.rank)[:MOST_WAYS])


def _by_blocks(design: Design, ruler: Fraction, is_given_up: Callable[[], bool]) -> tuple[Way, ...]:
    plans = [(one.plan, one) for one in rehung(design, ruler)]
    found = _worked_out(design, plans, None, is_given_up)
    ways = sorted(found, key=lambda way: (-_area(way.size), *way.rank))
    return tuple(ways[:MOST_WAYS])


def _chosen(design: Design, target: Finished, ruler: Fraction) -> list[tuple[Plan, Rehung | None]]:
    """The best few of every kind that lead no further off, the nearest first."""
    best: dict[tuple[str, ...], list[Plan]] = {}
    here, far = design.quilt, _miss(Plan(design.quilt).size, target)
    for plan in _plans(design, target, ruler):
        if plan.calls and _miss(plan.size, target) <= far:
            best.setdefault(plan.kinds, []).append(plan)
    few = chain.from_iterable(
        sorted(several, key=lambda plan: (_miss(plan.size, target), _moved(here, plan)))[:_OF_A_KIND]
        for several in best.values()
    )
    nearest = sorted(few, key=lambda plan: (_miss(plan.size, target), len(plan.calls)))
    return [(plan, None) for plan in nearest[:_MOST_TRIED]]


def _plans(design: Design, target: Finished, ruler: Fraction) -> Iterator[Plan]:
    """Every plan worth a look, by its size alone."""
    base, present = base_of(design), base_of(design).plan.size
    across, down = (
        Fraction(target.width) / Fraction(present.width),
        Fraction(target.height) / Fraction(present.height),
    )
    yield from _from_base(base, design, target, ruler)
    for other in other_sizes(design, (across + down) / 2):
        yield from _from_base(other, design, target, ruler)
    sashed = [one for one in with_sashing(base, ruler * 2) if one is not base]
    for bare in other_sashing(design):
        sashed += with_sashing(bare, ruler * 2)
    for one in sashed:
        yield from _from_base(one, design, target, ruler)


def _from_base(base: Base, design: Design, target: Finished, ruler: Fraction) -> Iterator[Plan]:
    """A quilt as it is, with other counts, with another border; and where it is the first, with both of these."""
    yield base.plan
    yield from counts(base, target)
    yield from borders(base.plan, design, target, ruler)
    if base.plan.calls:
        return
    for fewer in counts(base, target, below=True):
        yield from borders(fewer, design, target, ruler)


def _worked_out(
    design: Design,
    plans: Iterable[tuple[Plan, Rehung | None]],
    target: Finished | None,
    is_given_up: Callable[[], bool],
) -> list[Way]:
    """The ways that are not refused, each once.

    What would leave cells free in a quilt that had none is given only where no other way has more or fewer blocks, as
    may be with blocks of unlike sizes; coping strips then fill them.
    """
    before = materials(design)
    ways: list[Way] = []
    coped: list[Way] = []
    seen = {design}
    for plan, hung in plans:
        if is_given_up():
            break
        after = _after(design, plan)
        if after is None or after in seen:
            continue
        seen.add(after)
        now = materials(after)
        if not now.missing or before.missing or after.quilt.coping is not None:
            ways.append(_way(design, before, plan, (after, now), target, hung))
            continue
        filled = _coped(after, plan, now.missing)
        then = _after(design, filled) if filled else None
        if filled is not None and then is not None:
            coped.append(_way(design, before, filled, (then, materials(then)), target, hung))
    carried = any(one.name == "continue-quilt" for way in ways for one in way.calls)
    return ways if carried else ways + coped[:_OF_A_KIND]


def _after(design: Design, plan: Plan) -> Design | None:
    """The design once a plan is done; None where that is refused."""
    try:
        return apply(design, call("do-together", edits=plan.calls, purpose="resize"))
    except EditError:
        return None


def _coped(after: Design, plan: Plan, free: int) -> Plan | None:
    """The plan with coping strips in what it leaves free; None where that is too much, or there is no cloth."""
    fabric = cloth_around(after)
    if fabric is None or free > _MOST_COPED * after.quilt.lattice.cell_count:
        return None
    said = message("resize.coping", count=free)
    return plan.then("coping", call("set-coping", fabric=fabric), said, plan.quilt)


def _way(
    design: Design,
    before: Materials,
    plan: Plan,
    then: tuple[Design, Materials],
    target: Finished | None,
    hung: Rehung | None,
) -> Way:
    after, now = then
    size = Finished(Fraction(now.size.finished.width), Fraction(now.size.finished.height))
    off = (_NONE, _NONE) if target is None else _off(size, target)
    changes = difference(before, now)
    more = [one.cloth for one in changes if one.part == "cloth" and one.cloth is not None and one.by > 0]
    cloth = Yardage(
        sum((new.exact - old.exact for old, new in more), _NONE),
        sum((new.rounded - old.rounded for old, new in more), _NONE),
    )
    to_make = blocks_to_make(after)
    first = _off_said(off) if hung is None else message("resize.takes", used=hung.used, count=hung.count)
    return Way(
        calls=plan.calls,
        does=plan.said,
        design=after,
        size=size,
        off=off,
        changes=changes,
        cloth=cloth,
        to_make=to_make,
        leaving=sum(count for _, count in leaving(design, after)),
        why=message("resize.why", first=first, cloth=_cloth_said(cloth), work=_work_said(to_make)),
    )


def _off_said(off: tuple[Fraction, Fraction]) -> Message:
    """How far a size is off, both ways."""
    width, height = off
    parts: list[Message] = []
    if width:
        parts.append(message("resize.wider" if width > 0 else "resize.narrower", by=abs(width)))
    if height:
        parts.append(message("resize.longer" if height > 0 else "resize.shorter", by=abs(height)))
    return message("resize.off", parts=tuple(parts)) if parts else message("resize.exact")


def _cloth_said(cloth: Yardage) -> Message:
    return message("resize.more-cloth", cloth=cloth) if cloth.rounded else message("resize.no-cloth")


def _work_said(to_make: int) -> Message:
    return message("resize.to-make", count=to_make) if to_make else message("resize.all-made")


def _off(size: Finished, target: Finished) -> tuple[Fraction, Fraction]:
    return Fraction(size.width) - Fraction(target.width), Fraction(size.height) - Fraction(target.height)


def _miss(size: Finished, target: Finished) -> Fraction:
    return sum(map(abs, _off(size, target)), _NONE)


def _moved(before: Quilt, plan: Plan) -> int:
    """How many columns and rows come or go."""
    old, new = before.lattice, plan.quilt.lattice
    return abs(new.columns - old.columns) + abs(new.rows - old.rows)


def _area(size: Finished) -> Fraction:
    return Fraction(size.width) * Fraction(size.height)
