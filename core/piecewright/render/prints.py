"""The prints that the program draws: each a seamless tile of drawing steps, in inches, at true scale.

Motifs are strewn in sateen order (site n of N at n/N across and n*k/N down, k prime to N): the classic way to
spread the motifs of a repeat evenly so that no rows show (common practice of textile design, no source).
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil, floor
from operator import itemgetter
from random import Random

from piecewright.geometry.motion import Motion
from piecewright.model.fabric import Print, PrintKind
from piecewright.render.motifs import BUD, LEAF, RIB, STEM, flower, stamens, star
from piecewright.render.path import Path, Spot, circle, mapped, placed, ring, spots_of, strokes
from piecewright.render.pen import ClothFill, Flat, Stroke
from piecewright.render.recording_pen import Drawn
from piecewright.render.tint import mix


@dataclass(frozen=True, slots=True)
class Tile:
    """One square repeat of a print, `size` inches wide and high, upright; `ground` lies under the motifs.

    Motifs reach over the sides of the repeat; `repeated` gives what is seen of a field of repeats.
    """

    size: float
    ground: str
    motifs: tuple[Drawn, ...]

    def repeated(self, count: int = 1) -> tuple[Drawn, ...]:
        """What to draw, from 0, 0, for `count` x `count` repeats whose sides join without a break.

        All copies of a motif are one path, so that thin color is not laid twice where copies meet; and so are
        motifs of one opaque color that follow each other.
        """
        drawn: list[Drawn] = []
        for motif in self.motifs:
            copy = self._copies(motif, count)
            if drawn and _opaque(copy) and (copy.fill, copy.stroke) == (drawn[-1].fill, drawn[-1].stroke):
                drawn[-1] = replace(copy, path=drawn[-1].path + copy.path)
            else:
                drawn.append(copy)
        return tuple(drawn)

    def _copies(self, motif: Drawn, count: int) -> Drawn:
        reach = motif.stroke.width / 2 if motif.stroke else 0.0
        spots = list(spots_of(motif.path))
        across = self._shifts([x for x, _ in spots], reach, count)
        down = self._shifts([y for _, y in spots], reach, count)
        return replace(
            motif, path=tuple(s for dx in across for dy in down for s in placed(motif.path, dx, dy))
        )

    def _shifts(self, values: list[float], reach: float, count: int) -> list[float]:
        low, high = min(values) - reach, max(values) + reach
        first, last = floor(-high / self.size) + 1, ceil((count * self.size - low) / self.size) - 1
        return [n * self.size for n in range(first, last + 1)]


def _opaque(motif: Drawn) -> bool:
    """Whether what lies under a motif does not show through."""
    return all(paint.opacity == 1 for paint in (motif.fill, motif.stroke) if isinstance(paint, Flat | Stroke))


@lru_cache(maxsize=1024)
def tile_of(color: str, printed: Print) -> Tile:
    """The tile of a print on a ground color."""
    canvas = _Repeat(color, printed)
    _PRINTS[printed.kind](canvas)
    size = float(printed.scale)
    return Tile(size, color, tuple(_enlarged(step, size) for step in canvas.motifs))


def tile_motion(fill: ClothFill) -> Motion:
    """What carries the upright tile, its corner at 0, 0, to where the cloth lies."""
    turn = fill.fabric.print.turn if fill.fabric.print else 0
    quarters, degrees = divmod(turn, 90)
    return Motion(quarters=quarters % 4, degrees=float(degrees)).then(fill.came)


def _enlarged(step: Drawn, size: float) -> Drawn:
    stroke = step.stroke
    if stroke is not None:
        stroke = Stroke(stroke.color, stroke.width * size, stroke.dash, stroke.opacity, stroke.square)
    return Drawn(placed(step.path, 0, 0, 0, size), step.fill, stroke)


class _Repeat:
    """One repeat as a 1 x 1 square that wraps round at its sides."""

    def __init__(self, ground: str, printed: Print) -> None:
        self.ground = ground
        self.one_way = printed.one_way
        self.motifs: list[Drawn] = []
        self._inks = printed.inks

    def ink(self, number: int) -> str:
        """An ink by number; where there are fewer, the first one thinned with ground."""
        return self._inks[number] if number < len(self._inks) else mix(self._inks[0], self.ground, 0.45)

    def cycled(self, number: int) -> str:
        """An ink by number, beginning again after the last."""
        return self._inks[number % len(self._inks)]

    def fill(self, path: Path, color: str, opacity: float = 1.0) -> None:
        """Fill a path."""
        self.motifs.append(Drawn(path, Flat(color, opacity)))

    def draw(self, path: Path, color: str, width: float, opacity: float = 1.0, through: bool = False) -> None:
        """Stroke a path; one that runs `through` from side to side has no ends of its own."""
        self.motifs.append(Drawn(path, None, Stroke(color, width, (), opacity, square=through)))

    def band(
        self, center: float, width: float, color: str, opacity: float = 1.0, across: bool = False
    ) -> None:
        """A straight band from edge to edge, running down or across."""
        a, b = center - width / 2, center + width / 2
        corners = (
            [(0.0, a), (1.0, a), (1.0, b), (0.0, b)] if across else [(a, 0.0), (b, 0.0), (b, 1.0), (a, 1.0)]
        )
        self.fill(ring(corners), color, opacity)

    def tilt(self, number: int) -> float:
        """How far the motif of a site leans: any way round, or in a one-way print a little to either side."""
        return (-14, 9, 18, -6, 12, -19, 4)[number % 7] if self.one_way else (number * 137.508) % 360


_BETWEEN: Spot = (-0.1, 0.3)  # from a site of five to the middle of the square it makes with its neighbors


def _sites(
    count: int, step: int, jitter: float = 0.0, shift: Spot = (0.0, 0.0)
) -> Iterator[tuple[int, Spot]]:
    chance = Random(count * 31 + step)  # noqa: S311 (a fixed scatter, no secret)
    for n in range(count):
        dx, dy = (chance.random() - 0.5) * jitter, (chance.random() - 0.5) * jitter
        yield n, ((n + 0.5) / count + dx + shift[0], (n * step % count + 0.5) / count + dy + shift[1])


def _dots(repeat: _Repeat) -> None:
    for n in range(8):
        row, column = divmod(n, 2)
        x, y = (column + (0.25 if row % 2 == 0 else 0.75)) / 2, (row + 0.5) / 4
        repeat.fill(circle(x, y, 0.062), repeat.cycled(n if row % 2 == 0 else n + 1))


def _stripes(repeat: _Repeat) -> None:
    repeat.band(0.25, 0.30, repeat.ink(0))
    for x in (0.055, 0.445):
        repeat.band(x, 0.025, repeat.ink(1))
    repeat.band(0.75, 0.10, repeat.ink(2))
    for x in (0.66, 0.84):
        repeat.band(x, 0.025, repeat.ink(0))


def _checks(repeat: _Repeat) -> None:
    for across in (False, True):
        for n in range(2):
            repeat.band(n / 2 + 0.25, 0.25, repeat.ink(0), 0.5, across)
    for x in (0.25, 0.75):
        for y in (0.25, 0.75):
            corners = [
                (x - 0.125, y - 0.125),
                (x + 0.125, y - 0.125),
                (x + 0.125, y + 0.125),
                (x - 0.125, y + 0.125),
            ]
            repeat.fill(ring(corners), repeat.ink(0), 0.75)


def _plaid(repeat: _Repeat) -> None:
    for across in (False, True):
        repeat.band(0.30, 0.34, repeat.ink(0), 0.42, across)
        repeat.band(0.30, 0.10, repeat.ink(0), 0.40, across)
        for center in (0.66, 0.86):
            repeat.band(center, 0.05, repeat.ink(1), 0.60, across)
        repeat.band(0.76, 0.02, repeat.ink(2), 0.85, across)
        repeat.band(0.30, 0.018, repeat.ground, 0.85, across)


def _florals(repeat: _Repeat) -> None:
    petals, leaf, heart = repeat.ink(0), repeat.ink(1), repeat.ink(2)
    rib = mix(leaf, repeat.ground, 0.45)
    for n, (x, y) in _sites(5, 2, 0.05):
        tilt = repeat.tilt(n)
        for side in (-128, 112):
            repeat.fill(placed(LEAF, x, y, tilt + side, 0.24), leaf)
            repeat.draw(placed(RIB, x, y, tilt + side, 0.24), rib, 0.008)
        repeat.fill(placed(flower(5, 1), x, y, tilt, 0.145), petals)
        repeat.fill(placed(flower(5, 0.55), x, y, tilt + 36, 0.145), mix(petals, heart, 0.35))
        repeat.fill(circle(x, y, 0.034), heart)
        repeat.fill(placed(stamens(5, 0.46, 0.05), x, y, tilt + 18, 0.145), heart)
    for n, (x, y) in _sites(5, 2, 0.05, _BETWEEN):
        tilt = repeat.tilt(n + 3)
        repeat.fill(placed(LEAF, x, y, tilt + 150, 0.155), leaf)
        repeat.fill(placed(flower(5, 1), x, y, tilt, 0.088), mix(petals, repeat.ground, 0.18))
        repeat.fill(circle(x, y, 0.022), heart)
        repeat.fill(circle(x + 0.15, y - 0.10, 0.013), petals)
        repeat.fill(circle(x - 0.13, y + 0.11, 0.013), heart)


def _leaves(repeat: _Repeat) -> None:
    leaves = [
        (repeat.cycled(n), (x, y), repeat.tilt(n), 0.25 if n % 3 else 0.19)
        for n, (x, y) in _sites(13, 5, 0.03)
    ]
    leaves.sort(key=itemgetter(0))  # one ink after the other, as they are printed
    for color, at, tilt, size in leaves:
        repeat.draw(placed(placed(_STALK, 0, 0.5), *at, tilt, size), color, 0.012)
    for color, at, tilt, size in leaves:
        repeat.fill(placed(placed(LEAF, 0, 0.5), *at, tilt, size), color)
    for color, at, tilt, size in leaves:
        repeat.draw(placed(placed(_VEINS, 0, 0.5), *at, tilt, size), mix(color, repeat.ground, 0.5), 0.007)


def _sprigs(repeat: _Repeat) -> None:
    for n, (x, y) in _sites(5, 2):
        lean = repeat.tilt(n) if repeat.one_way else (-24, 162, 28, 200, 6)[n]
        for path, ink in _SPRIG:
            repeat.fill(placed(placed(path, 0, 0.46), x, y, lean, 0.33), repeat.ink(ink))
        repeat.draw(placed(placed(STEM, 0, 0.46), x, y, lean, 0.33), repeat.ink(1), 0.011)
    for n, (x, y) in _sites(5, 2, 0.0, _BETWEEN):
        repeat.fill(circle(x, y, 0.016), repeat.ink(2 if n % 2 else 0))


def _crosshatch(repeat: _Repeat) -> None:
    chance = Random(7)  # noqa: S311 (a fixed scatter, no secret)
    count = 9
    for across in (False, True):
        for n in range(count):
            nodes = [(n + 0.5 + (chance.random() - 0.5) * 0.45) / count for _ in range(4)]
            path = _wandering(nodes)
            if across:
                path = mapped(path, lambda p: (p[1], p[0]))
            width = 0.007 + 0.010 * chance.random()
            repeat.draw(path, repeat.cycled(n), width, 0.65 + 0.3 * chance.random(), through=True)


def _wandering(nodes: list[float]) -> Path:
    """A line down the repeat through the nodes, ending as it began."""
    steps: list[tuple[Spot, ...]] = []
    count = len(nodes)
    for n in range(count):
        a, b = nodes[n], nodes[(n + 1) % count]
        y0, y1 = n / count, (n + 1) / count
        third = (y1 - y0) * 0.4
        steps.append(((a, y0 + third), (b, y1 - third), (b, y1)))
    return (("M", ((nodes[0], 0.0),)), *(("C", step) for step in steps))


def _waves(repeat: _Repeat) -> None:
    for row in range(6):
        y, width = (row + 0.5) / 6, 0.034 if row % 2 == 0 else 0.014
        swell = 0.045
        curves: list[tuple[Spot, ...]] = []
        for half in range(4):
            x, lift = half / 4, swell * (2 if half % 2 == 0 else -2)
            curves.append(((x + 0.09, y - lift), (x + 0.16, y - lift), (x + 0.25, y)))
        repeat.draw(
            (("M", ((0.0, y),)), *(("C", curve) for curve in curves)),
            repeat.cycled(row % 2),
            width,
            through=True,
        )


def _stars(repeat: _Repeat) -> None:
    for n, (x, y) in _sites(8, 3, 0.03):
        size = 0.115 if n % 2 == 0 else 0.07
        tilt = repeat.tilt(n) if repeat.one_way else (n * 137.508) % 72
        repeat.fill(placed(star(5, 0.42), x, y, tilt, size), repeat.cycled(n // 2))
    for n, (x, y) in _sites(8, 3):
        repeat.fill(circle((x + 0.18) % 1, (y + 0.07) % 1, 0.013), repeat.cycled(n))


def _rings(repeat: _Repeat) -> None:
    for n, (x, y) in _sites(5, 2):
        color = repeat.cycled(n)
        repeat.draw(circle(x, y, 0.150), color, 0.030)
        repeat.draw(circle(x, y, 0.085), repeat.ink(1), 0.016)
        repeat.fill(circle(x, y, 0.028), color)
    for n, (x, y) in _sites(5, 2):
        repeat.fill(circle((x + 0.3) % 1, (y + 0.1) % 1, 0.022), repeat.cycled(n + 1))


def _texture(repeat: _Repeat) -> None:
    chance = Random(11)  # noqa: S311 (a fixed scatter, no secret)
    for ink, (count, longest, width, opacity) in enumerate(_SLUBS):
        for across in (False, True):
            threads: list[tuple[Spot, Spot]] = []
            for _ in range(count):
                x, y, length = chance.random(), chance.random(), longest * (0.3 + 0.7 * chance.random())
                threads.append(((x, y), (x + length, y) if across else (x, y + length)))
            repeat.draw(strokes(threads), repeat.cycled(ink), width, opacity)


_STALK = strokes([[(0, 0.2), (0, 0)]])
_VEINS = (
    *RIB,
    *strokes([[(0, -h), (side * 0.15, -h - 0.14)] for h in (0.25, 0.42, 0.58) for side in (-1, 1)]),
)
_SLUBS = ((22, 0.55, 0.060, 0.13), (26, 0.45, 0.030, 0.16), (60, 0.40, 0.011, 0.30), (90, 0.22, 0.006, 0.40))
_SPRIG: tuple[tuple[Path, int], ...] = (
    *(
        (placed(LEAF, sway, -up, 58, size), 1)
        for up, sway, size in ((0.20, 0.07, 0.40), (0.40, 0.08, 0.36), (0.60, 0.06, 0.3))
    ),
    *(
        (placed(LEAF, sway, -up, -56, size), 1)
        for up, sway, size in ((0.26, 0.07, 0.40), (0.46, 0.08, 0.36), (0.66, 0.06, 0.3))
    ),
    (placed(BUD, -0.03, -0.88, -6, 0.26), 0),
    (circle(0.15, -0.90, 0.055), 2),
    (circle(-0.19, -0.88, 0.055), 2),
)

_PRINTS: dict[PrintKind, Callable[[_Repeat], None]] = {
    "dots": _dots,
    "stripes": _stripes,
    "checks": _checks,
    "florals": _florals,
    "leaves": _leaves,
    "crosshatch": _crosshatch,
    "plaid": _plaid,
    "waves": _waves,
    "stars": _stars,
    "sprigs": _sprigs,
    "rings": _rings,
    "texture": _texture,
}
