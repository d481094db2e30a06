"""Which way seams are pressed: one decision for each seam as sewn, which every part cut from it inherits."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from piecewright.making.cloth import Seam
from piecewright.making.events import Joined, Pressed
from piecewright.making.steps import Axis
from piecewright.making.table import Outcome

_CLOCKWISE = ("up", "right", "down", "left")
_TOWARD_END: Mapping[Axis, tuple[str, str]] = {"across": ("left", "right"), "down": ("up", "down")}


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
                return _turned(way, seam.quarters)
        return None


def decisions_of(outcomes: Iterable[Outcome]) -> Decisions:
    """All pressing decisions of a making."""
    sewn: dict[str, Joined] = {}
    ways: dict[tuple[str, int], tuple[tuple[str, tuple[int, ...] | None], ...]] = {}
    for outcome in outcomes:
        for event in outcome.events:
            if isinstance(event, Joined):
                sewn[event.piece] = event
            elif isinstance(event, Pressed):
                joined = sewn[event.seam]
                count = len(joined.lines)
                for join in range(1, count + 1) if event.join is None else (event.join,):
                    way = settled(event.toward, join, count, joined.axis)
                    if way is not None:
                        key = (event.seam, join)
                        ways[key] = (*ways.get(key, ()), (way, event.layers))
    return Decisions(ways)


def settled(toward: str, join: int, count: int, axis: Axis) -> str | None:
    """A way as a direction in the sewing step's frame: "in" is toward the middle of the pieces sewn, "out" away.

    None for the middle seam of an odd number, for which "in" and "out" mean nothing.
    """
    if toward not in ("in", "out"):
        return toward
    if 2 * join == count + 1:
        return None
    in_first_half = 2 * join < count + 1
    to_start, to_end = _TOWARD_END[axis]
    return to_end if in_first_half == (toward == "in") else to_start


def _turned(way: str, quarters: int) -> str:
    """A direction after quarter turns clockwise; "open" and "darker" stay what they are."""
    if way not in _CLOCKWISE:
        return way
    return _CLOCKWISE[(_CLOCKWISE.index(way) + quarters) % 4]
