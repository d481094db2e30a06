"""What a plan leaves of the cloth that is worth keeping: it can go to the stash."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.job import Keep
from piecewright.cutting.placed import Rectangle, placed_sheets
from piecewright.cutting.plans import CuttingPlan, Laid, Strip


@dataclass(frozen=True, slots=True)
class LeftOver:
    """`count` rectangles, `width` inches from selvage to selvage and `height` along the selvage."""

    width: Fraction
    height: Fraction
    count: int


def left_overs(plan: CuttingPlan) -> tuple[LeftOver, ...]:
    """The left-overs that the job keeps, largest first."""
    counts: Counter[tuple[Fraction, Fraction]] = Counter()
    for sheet in placed_sheets(plan):
        rests: list[Rectangle] = [
            *sheet.left_over,
            *(rest for strip in sheet.strips for rest in strip.left_over),
        ]
        for rest in rests:
            if plan.job.keep.keeps(rest.width, rest.height):
                counts[rest.width, rest.height] += sheet.count
    kept = [LeftOver(width, height, count) for (width, height), count in counts.items()]
    return tuple(sorted(kept, key=lambda each: (-each.width * each.height, -each.width)))


def stays_whole(keep: Keep, laid: Laid, strip: Strip) -> bool:
    """Whether a strip is left as long as it is: one piece takes its height, and beside it nothing is worth keeping."""
    (cut, *others) = strip.cuts
    alone = not others and cut.count == 1 and cut.height == strip.height
    return alone and not keep.keeps(laid.strip_length - cut.width, strip.height)
