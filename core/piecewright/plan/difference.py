"""What a change costs: the sets, strips and yards by which two plans differ, whatever lies between them."""

from collections import Counter
from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeVar

from piecewright.plan.keys import SetKey
from piecewright.plan.materials import Materials, fabric_name
from piecewright.plan.trade import Package
from piecewright.units.measure import Yardage
from piecewright.words.message import Arg, Message, message

K = TypeVar("K", bound=Hashable)
Part = Literal["sets", "strips", "cloth", "panels", "package", "cost"]
_NO_CLOTH = Yardage(Fraction(0), Fraction(0))
StripCounts = Mapping[tuple[str, Fraction], int]


@dataclass(frozen=True, slots=True)
class Change:
    """One number that is another now.

    Strip sets, strips, panels of the backing or packages of batting (counts), cloth to buy (inches), the price.
    """

    part: Part
    what: Message
    before: int | Fraction
    after: int | Fraction
    cloth: tuple[Yardage, Yardage] | None = None

    @property
    def said(self) -> Message:
        """The change in words."""
        before, after = self.cloth or (self.before, self.after)
        return message(f"plan.change-{self.part}", what=self.what, before=before, after=after)

    @property
    def by(self) -> int | Fraction:
        """How much more there is now; below zero for less."""
        return self.after - self.before


def difference(before: Materials, after: Materials) -> tuple[Change, ...]:
    """The changes from one plan to another.

    Strip sets first, then strips by fabric and width, then cloth, backing, batting and the price of it all.
    """
    return (
        *_sets(before, after),
        *_strips(before, after),
        *_cloth(before, after),
        *_panels(before, after),
        *_packages(before, after),
        *_cost(before, after),
    )


def _sets(before: Materials, after: Materials) -> Iterator[Change]:
    old = {found.key: found.sets for found in before.sets if len(found.lanes) > 1}
    new = {found.key: found.sets for found in after.sets if len(found.lanes) > 1}
    yield from _changes("sets", old, new, lambda key: set_said(key, after, before))


def _strips(before: Materials, after: Materials) -> Iterator[Change]:
    def said(key: tuple[str, Fraction]) -> Message:
        return message("plan.strips-of", fabric=_name(key[0], after, before), width=key[1])

    yield from _changes("strips", _strip_counts(before), _strip_counts(after), said)


def _cloth(before: Materials, after: Materials) -> Iterator[Change]:
    old, new = ({found.fabric: found.yardage for found in plan.cloth} for plan in (before, after))
    for fabric in dict.fromkeys((*old, *new)):
        was, now = old.get(fabric, _NO_CLOTH), new.get(fabric, _NO_CLOTH)
        if was.rounded != now.rounded:
            yield Change("cloth", _name(fabric, after, before), was.rounded, now.rounded, (was, now))


def _panels(before: Materials, after: Materials) -> Iterator[Change]:
    old, new = ({"backing": _panel_count(found)} for found in (before, after))
    yield from _changes("panels", old, new, lambda _: message("plan.heading-backing"))


def _panel_count(found: Materials) -> int:
    panels = found.backing.panels
    return panels.count + bool(panels.pieces)


def _packages(before: Materials, after: Materials) -> Iterator[Change]:
    old, new = ({package: 1 for package in (found.batting.package,) if package} for found in (before, after))

    def said(package: Package) -> Message:
        return message("plan.package-of", package=package.name, width=package.width, height=package.height)

    yield from _changes("package", old, new, said)


def _cost(before: Materials, after: Materials) -> Iterator[Change]:
    if before.cost is not None and after.cost is not None:
        currency = after.settings.currency
        said = message("plan.cost-in", currency=currency) if currency else message("plan.cost-of-all")
        yield from _changes("cost", {"": before.cost}, {"": after.cost}, lambda _: said)


def _changes(
    part: Part,
    before: Mapping[K, int | Fraction],
    after: Mapping[K, int | Fraction],
    said: Callable[[K], Message],
) -> Iterator[Change]:
    for key in dict.fromkeys((*before, *after)):
        old, new = before.get(key, 0), after.get(key, 0)
        if old != new:
            yield Change(part, said(key), old, new)


def _strip_counts(materials: Materials) -> StripCounts:
    counts: Counter[tuple[str, Fraction]] = Counter()
    for cloth in materials.cloth:
        for use in cloth.uses:
            if use.is_strip:
                counts[cloth.fabric, use.size] += use.count
    return counts


def set_said(key: SetKey, *materials: Materials) -> Message:
    """The strips of a set by fabric and cut width, in order."""
    strips: tuple[Arg, ...] = tuple(
        message("plan.strip-of-set", fabric=_name(lane.fabric, *materials), width=lane.width)
        for lane in key.lanes
    )
    return message("plan.set-of", strips=strips)


def _name(fabric: str, *materials: Materials) -> Message:
    """A fabric's name in the first of these plans that has it."""
    known = next(
        (found for found in materials if any(each.id == fabric for each in found.fabrics)), materials[0]
    )
    return fabric_name(known, fabric)
