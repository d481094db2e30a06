"""Which side of each seam is the darker, for `press` steps that leave it to the fabrics."""

from collections.abc import Mapping
from functools import lru_cache
from math import hypot

from piecewright.geometry.tolerance import ALIKE
from piecewright.making.cloth import Patch
from piecewright.making.given import Given
from piecewright.making.pressing_plan import Planning, SewnSeam
from piecewright.making.recipe import Recipe
from piecewright.making.run import Making, run
from piecewright.making.verbs.press import Press
from piecewright.sewing.junctions import SeamLine

Lightness = tuple[tuple[str, int, float], ...]
"""How light the fabric of a letter is in a layer of the stack, 0 (black) to 100."""


def leaves_to_fabrics(recipe: Recipe) -> bool:
    """Whether a recipe presses some seam toward the darker fabric."""
    return any(isinstance(step, Press) and step.press.toward == "darker" for step in recipe.steps)


@lru_cache(maxsize=256)
def darker_of(recipe: Recipe, given: Given, lightness: Lightness) -> tuple[tuple[SewnSeam, str], ...]:
    """`darker_ways` of a recipe, in the order of sewing. Raises as `run` does."""
    known = {(letter, layer): value for letter, layer, value in lightness}
    return tuple(darker_ways(run(recipe, given), known).items())


def darker_ways(making: Making, lightness: Mapping[tuple[str, int], float]) -> dict[SewnSeam, str]:
    """The way to the darker side of every seam seen in a block, in the frame of the step that sews it.

    The fabrics on a side count by the length of seam they lie along; fabrics without lightness do not count. Seams
    with equally dark sides are left out.
    """
    planning = Planning(making, {})
    sides = [(_Side(), _Side()) for _ in planning.seams]
    for _, layer, cloth in planning.cloths:
        for seam in cloth.seams:
            line = planning.line(seam, layer)
            for patch in cloth.patches:
                light = lightness.get((patch.letter, (layer + patch.layer) % planning.stack))
                if light is not None:
                    length, is_toward = _beside(line, patch)
                    sides[line.seam][is_toward].add(length, light)
    ways = {}
    for number, (away, toward) in enumerate(sides):
        if away.length and toward.length and abs(away.mean - toward.mean) > ALIKE:
            ways[planning.seams[number]] = planning.way(number, 1 if toward.mean < away.mean else -1)
    return ways


class _Side:
    """How light one side of a seam is."""

    def __init__(self) -> None:
        self.length = 0.0
        self._light = 0.0

    def add(self, length: float, light: float) -> None:
        """So much of the side is so light."""
        self.length += length
        self._light += length * light

    @property
    def mean(self) -> float:
        """Lightness by length."""
        return self._light / self.length


def _beside(line: SeamLine, patch: Patch) -> tuple[float, bool]:
    """How much of a seam a patch lies along, and whether on the side that sign 1 presses it to."""
    (x, y), (end_x, end_y) = line.start, line.end
    length = hypot(end_x - x, end_y - y)
    along_x, along_y = (end_x - x) / length, (end_y - y) / length
    points = [(float(px) - x, float(py) - y) for px, py in patch.seen.points]
    away = [px * along_y - py * along_x for px, py in points]
    along = [px * along_x + py * along_y for px, py in points]
    shared = 0.0
    for index in range(len(points)):
        if abs(away[index]) <= ALIKE and abs(away[index - 1]) <= ALIKE:
            low, high = sorted((along[index], along[index - 1]))
            shared = max(shared, min(high, length) - max(low, 0.0))
    middle_x, middle_y = (sum(values) / len(points) for values in zip(*points, strict=True))
    return max(shared, 0.0), middle_x * line.toward[0] + middle_y * line.toward[1] > 0
