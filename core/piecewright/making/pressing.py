"""Which way seams are pressed: one decision for each seam as sewn, which every part cut from it inherits."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from piecewright.geometry.half import right_hand
from piecewright.geometry.motion import Motion
from piecewright.geometry.shapes import Segment
from piecewright.geometry.tolerance import ALIKE, TOUCH
from piecewright.making.cloth import Seam
from piecewright.making.events import Pressed
from piecewright.making.steps import Axis
from piecewright.making.table import Outcome, Sewn

_CLOCKWISE = ("up", "right", "down", "left")
WAYS: Mapping[str, tuple[int, int]] = {"up": (0, -1), "right": (1, 0), "down": (0, 1), "left": (-1, 0)}
_MIRRORED = {"left": "right", "right": "left"}
TOWARD_END: Mapping[Axis, tuple[str, str]] = {"across": ("left", "right"), "down": ("up", "down")}


@dataclass(frozen=True, slots=True)
class Decisions:
    """What was decided by (step, join): the way in the sewing step's frame, and the layers it holds for (None: all).

    A later decision replaces an earlier one.
    """

    ways: Mapping[tuple[str, int], tuple[tuple[str, tuple[int, ...] | None], ...]]

    @property
    def by_layer(self) -> bool:
        """Whether some decision holds for some layers only."""
        return any(layers is not None for decisions in self.ways.values() for _, layers in decisions)

    def pressed(self, seam: Seam, layer: int, stack: int) -> str | None:
        """The way a seam seen in a layer's block is pressed, in the block's frame; None where nothing was said."""
        sewn_in = (layer + seam.layer) % stack
        for way, layers in reversed(self.ways.get((seam.step, seam.join), ())):
            if layers is None or sewn_in in layers:
                return _turned(way, seam)
        return None


def decisions_of(outcomes: Iterable[Outcome]) -> Decisions:
    """All pressing decisions of a making."""
    sewn: dict[str, Sewn] = {}
    ways: dict[tuple[str, int], tuple[tuple[str, tuple[int, ...] | None], ...]] = {}
    for outcome in outcomes:
        sewn |= outcome.sewn
        for event in outcome.events:
            if isinstance(event, Pressed):
                seams = sewn[event.seam]
                for join in range(1, len(seams.lines) + 1) if event.join is None else (event.join,):
                    way = settled(event.toward, join, seams)
                    if way is not None:
                        key = (event.seam, join)
                        ways[key] = (*ways.get(key, ()), (way, event.layers))
    return Decisions(ways)


def settled(toward: str, join: int, sewn: Sewn) -> str | None:
    """A way as a direction in the sewing step's frame: "in" is toward the middle of the pieces sewn, "out" away.

    None for the middle seam of an odd number, for which "in" and "out" mean nothing.
    """
    if toward not in ("in", "out"):
        return toward
    if sewn.out is not None:
        return sewn.out if toward == "out" else _CLOCKWISE[_CLOCKWISE.index(sewn.out) - 2]
    count = len(sewn.lines)
    if sewn.axis is None or 2 * join == count + 1:
        return None
    in_first_half = 2 * join < count + 1
    to_start, to_end = TOWARD_END[sewn.axis]
    return to_end if in_first_half == (toward == "in") else to_start


def runs_along(way: str, axis: Axis | None, line: Segment) -> bool:
    """Whether a direction is that of a seam, so that it can not be pressed that way."""
    if way not in _CLOCKWISE:
        return False
    if axis is not None:
        return way not in TOWARD_END[axis]
    x, y = WAYS[way]
    run, rise = line.end[0] - line.start[0], line.end[1] - line.start[1]
    return abs(x * rise - y * run) <= ALIKE


def _turned(way: str, seam: Seam) -> str:
    """A direction turned as the seam was; "open" and "darker" stay what they are.

    After a turn by other than quarters it is the nearest direction to the side of the seam that it meant, of two
    equally near ones the level one.
    """
    if way not in _CLOCKWISE:
        return way
    if not seam.degrees:
        faced = _MIRRORED.get(way, way) if seam.faced else way
        return _CLOCKWISE[(_CLOCKWISE.index(faced) + seam.quarters) % 4]
    meant = Motion(seam.quarters, seam.degrees, seam.faced).direction(WAYS[way])
    line = right_hand(seam.line.start, seam.line.end)
    sign = 1 if line.x_part * meant[0] + line.y_part * meant[1] > 0 else -1
    return nearest_way(sign * float(line.x_part), sign * float(line.y_part))


def nearest_way(x: float, y: float) -> str:
    """The direction nearest to a vector, of two equally near ones the level one."""
    if abs(x) + TOUCH >= abs(y):
        return "right" if x > 0 else "left"
    return "down" if y > 0 else "up"
