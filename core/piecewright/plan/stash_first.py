"""What comes from the stash: strips on hand take the place of strips that would be cut."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.plan.cloth import Use, strip_use
from piecewright.plan.keys import Key, StripKey
from piecewright.plan.materials import Materials
from piecewright.plan.packing import NOTHING


class StripOnHand(Key, frozen=True):
    """So many strips of a fabric that are there already, `length` inches from selvage to selvage."""

    fabric: str
    width: Fraction
    length: Fraction
    count: int


@dataclass(frozen=True, slots=True)
class Taken:
    """Strips of the stash that serve as `count` strips for a part, trimmed to `cut` where they are wider."""

    strip: StripOnHand
    part: str
    cut: Fraction
    count: int


@dataclass(frozen=True, slots=True)
class _Wanted:
    fabric: str
    part: str
    width: Fraction
    length: Fraction
    count: int


def taken_from(materials: Materials, stash: tuple[StripOnHand, ...]) -> tuple[Taken, ...]:
    """Which strips on hand serve for what: the longest wants first, each from the narrowest, then shortest, that do.

    A strip is used once, whole, across the cloth. What it is wider is trimmed off and not counted on.
    """
    left = {strip: strip.count for strip in sorted(merged(stash))}
    found: list[Taken] = []
    for want in sorted(
        _wanted(materials), key=lambda want: (-want.length, -want.width, want.fabric, want.part)
    ):
        missing = want.count
        for strip in left:
            used = min(missing, left[strip]) if _serves(strip, want) else 0
            if used:
                left[strip] -= used
                missing -= used
                found.append(Taken(strip, want.part, want.width, used))
    return tuple(found)


def _serves(strip: StripOnHand, want: _Wanted) -> bool:
    return strip.fabric == want.fabric and strip.width >= want.width and strip.length >= want.length


def _wanted(materials: Materials) -> Iterator[_Wanted]:
    """Strips from selvage to selvage, each with the length that it must have."""
    for found in materials.sets:
        for lane in found.lanes:
            if lane.grain == "crosswise":
                for cuts in found.cuts:
                    run = found.usable - cuts.to_spare
                    yield _Wanted(lane.fabric, "piecing", lane.width, run, cuts.sets)
    for number, border in enumerate(materials.borders, 1):
        yield _Wanted(border.fabric, f"border {number}", border.width, border.usable, border.strips)
    binding = materials.binding
    if binding.fabric is not None:
        yield _Wanted(binding.fabric, "binding", binding.width, binding.usable, binding.strips)


def uses_left(
    uses: tuple[Use, ...], fabric: str, usable: Fraction, taken: tuple[Taken, ...]
) -> tuple[Use, ...]:
    """The uses of a fabric once what is taken from the stash is left out; those left empty are gone."""
    return tuple(_left(uses, fabric, usable, taken))


def _left(uses: tuple[Use, ...], fabric: str, usable: Fraction, taken: tuple[Taken, ...]) -> Iterator[Use]:
    for use in uses:
        saved = 0
        if use.grain == "crosswise":
            served = (each for each in taken if each.strip.fabric == fabric and each.part == use.part)
            saved = sum(each.count for each in served if each.cut == use.size)
        if not saved:
            yield use
        elif saved < use.count:
            key = StripKey(fabric, use.size, "crosswise", NOTHING)
            yield strip_use(use.part, key, use.count - saved, usable)


def merged(stash: tuple[StripOnHand, ...]) -> tuple[StripOnHand, ...]:
    """Alike strips told once, with their number."""
    counts: dict[StripOnHand, int] = {}
    for strip in stash:
        one = _one(strip)
        counts[one] = counts.get(one, 0) + strip.count
    return tuple(StripOnHand(one.fabric, one.width, one.length, count) for one, count in counts.items())


def _one(strip: StripOnHand) -> StripOnHand:
    return StripOnHand(strip.fabric, strip.width, strip.length, 1)
