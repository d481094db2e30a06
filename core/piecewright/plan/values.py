"""Value in a quilt: how light each cloth is, how much of it there is, and which neighbors will read as one."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import atan2, cos, pi, sin

from piecewright.colour.value import Value, difference, lightness, values_by_terciles
from piecewright.edit.footprint import all_laid
from piecewright.errors import PiecewrightError
from piecewright.geometry.shapes import Ring
from piecewright.making.facts import SeenPatch
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Row
from piecewright.plan.edges import Edges, edges_of, meetings
from piecewright.plan.keys import UNCHOSEN, RoleKey
from piecewright.plan.roles import role
from piecewright.plan.stage import stage
from piecewright.plan.workroom import Workroom, workroom_of

READS_AS_ONE = 10.0
"""Cloths no farther apart than this (CIEDE2000) read as one from across a room (common practice, no source)."""
_ROUND = 6
VALUES: tuple[Value, ...] = ("light", "medium", "dark")

_Pair = tuple[str, str]


@dataclass(frozen=True, slots=True)
class FabricValue:
    """A fabric of the quilt: its CIE L*, what it counts as, whether by hand, and the square inches seen of it."""

    fabric: str
    lightness: float
    value: Value
    by_hand: bool
    area: float


@dataclass(frozen=True, slots=True)
class Neighbors:
    """Two fabrics that meet along so many inches of the quilt: how far apart they are, by color and by L* alone."""

    first: str
    second: str
    inches: float
    difference: float
    steps: float

    @property
    def reads_as_one(self) -> bool:
        """Whether their border will not be seen."""
        return self.difference <= READS_AS_ONE


@dataclass(frozen=True, slots=True)
class ValueReport:
    """`fabrics` in the design's order, as far as blocks show them; `neighbors` the nearest alike first.

    Neighbors are those that meet in a seam inside a block, or where blocks lie beside each other.
    """

    fabrics: tuple[FabricValue, ...]
    neighbors: tuple[Neighbors, ...]

    @property
    def shares(self) -> Mapping[Value, float]:
        """How much of the blocks is light, medium and dark; all 0 where none hangs."""
        whole = sum(each.area for each in self.fabrics) or 1.0
        return {
            value: sum(each.area for each in self.fabrics if each.value == value) / whole for value in VALUES
        }

    @property
    def as_one(self) -> tuple[Neighbors, ...]:
        """The neighbors that will read as one."""
        return tuple(pair for pair in self.neighbors if pair.reads_as_one)


def value_report(design: Design) -> ValueReport:
    """The values of the arrangement in view; blocks that can not be made and letters without fabric are left out."""
    areas, inside = seen(workroom_of(design), design.quilt.rows)
    beside = between_blocks(design)
    all_meetings = {
        pair: inside.get(pair, 0.0) + beside.get(pair, 0.0) for pair in inside.keys() | beside.keys()
    }
    shown = [fabric for fabric in design.fabrics if areas.get(fabric.id)]
    by_id = {fabric.id: fabric for fabric in shown}
    values = fabric_values(shown)
    return ValueReport(
        tuple(
            FabricValue(
                each.id, lightness(each.color), values[each.id], each.value is not None, areas[each.id]
            )
            for each in shown
        ),
        tuple(
            sorted(
                (
                    _neighbors(by_id[one], by_id[other], inches)
                    for (one, other), inches in all_meetings.items()
                    if one in by_id and other in by_id
                ),
                key=lambda pair: (pair.difference, -pair.inches, pair.first, pair.second),
            )
        ),
    )


def fabric_values(fabrics: Iterable[Fabric]) -> dict[str, Value]:
    """What each of these fabrics counts as: as set by hand, or by its place among them all."""
    among = tuple(fabrics)
    measured = values_by_terciles([fabric.color for fabric in among])
    return {fabric.id: fabric.value or value for fabric, value in zip(among, measured, strict=True)}


@stage(keep=4)
def seen(room: Workroom, rows: tuple[Row, ...]) -> tuple[Mapping[str, float], Mapping[_Pair, float]]:
    """Square inches seen of each fabric, and the inches along which each two meet in seams of the blocks."""
    counts: Counter[RoleKey] = Counter()
    for row in rows:
        for one in row.placements:
            found = role(room, one.block, one.kind, one.layer, one.fabrics)
            if found.batch is not None:
                counts[found.key] += 1
    areas: dict[str, float] = defaultdict(float)
    meetings: dict[_Pair, float] = defaultdict(float)
    for key, count in counts.items():
        one_area, one_meetings = _of_role(room, key)
        for fabric, area in one_area.items():
            areas[fabric] += count * area
        for pair, inches in one_meetings.items():
            meetings[pair] += count * inches
    return areas, meetings


@stage(keep=4)
def between_blocks(design: Design) -> Mapping[_Pair, float]:
    """The inches along which each two unlike fabrics meet where blocks lie beside each other."""
    room, names = workroom_of(design), [fabric.id for fabric in design.fabrics]
    numbers = {name: number for number, name in enumerate(names)}
    found: dict[_Pair, float] = defaultdict(float)
    hung = []
    for laid in all_laid(design, design.quilt):
        placement = laid.placement
        here = role(room, placement.block, placement.kind, placement.layer, placement.fabrics)
        if here.batch is not None:
            hung.append((laid, placement.turn, _edges(room, here.key, tuple(numbers.items()))))
    for one, other, inches in meetings(design.quilt, hung):
        if one != other and min(one, other) >= 0:
            first, second = sorted((names[one], names[other]))
            found[first, second] += inches
    return found


@stage(keep=4096)
def _edges(room: Workroom, key: RoleKey, numbers: tuple[tuple[str, int], ...]) -> Edges:
    """What a block's edges show, by the numbers of the fabrics; -1 where a letter has none."""
    letters, known = dict(key.fabrics), dict(numbers)
    facts = room.work(key.block).facts
    return edges_of(facts, key.kind, lambda patch: known.get(_fabric(letters, patch, key.layer), -1))


@stage(keep=4096)
def _of_role(room: Workroom, key: RoleKey) -> tuple[Mapping[str, float], Mapping[_Pair, float]]:
    """The same of one block."""
    letters = dict(key.fabrics)
    areas: dict[str, float] = defaultdict(float)
    meetings: dict[_Pair, float] = defaultdict(float)
    try:
        kind = room.work(key.block).facts.kinds[key.kind]
    except PiecewrightError:
        return areas, meetings
    for patch in kind.patches:
        fabric = _fabric(letters, patch, key.layer)
        if not fabric.startswith(UNCHOSEN):
            areas[fabric] += Ring(tuple((float(x), float(y)) for x, y in patch.points)).area
    for one, other, inches in meeting(kind.patches):
        first, second = sorted((_fabric(letters, one, key.layer), _fabric(letters, other, key.layer)))
        if first != second and not (first.startswith(UNCHOSEN) or second.startswith(UNCHOSEN)):
            meetings[first, second] += inches
    return areas, meetings


def meeting(patches: tuple[SeenPatch, ...]) -> Iterator[tuple[SeenPatch, SeenPatch, float]]:
    """Every two patches that share a border, with the inches of it."""
    lines: dict[tuple[float, float], list[tuple[float, float, int, bool]]] = defaultdict(list)
    for number, patch in enumerate(patches):
        for start, end in zip(patch.points, (*patch.points[1:], patch.points[0]), strict=True):
            line, low, high, forward = _on_line(
                float(start[0]), float(start[1]), float(end[0]), float(end[1])
            )
            if high - low > 10**-_ROUND:
                lines[line].append((low, high, number, forward))
    for edges in lines.values():
        ahead = [edge for edge in edges if edge[3]]
        back = [edge for edge in edges if not edge[3]]
        for low, high, number, _ in ahead:
            for other_low, other_high, other, _ in back:
                shared = min(high, other_high) - max(low, other_low)
                if shared > 10**-_ROUND:
                    yield patches[number], patches[other], shared


def _on_line(x0: float, y0: float, x1: float, y1: float) -> tuple[tuple[float, float], float, float, bool]:
    """The line an edge lies on (its direction, 0 to 180 degrees, and offset), from and to along it, and which way."""
    angle = atan2(y1 - y0, x1 - x0)
    forward = -1e-9 <= angle < pi - 1e-9
    turn = angle % pi if abs(angle % pi - pi) > 1e-9 else 0.0
    ux, uy = cos(turn), sin(turn)
    offset = y0 * ux - x0 * uy
    low, high = sorted((x0 * ux + y0 * uy, x1 * ux + y1 * uy))
    return (round(turn, _ROUND), round(offset, 5) + 0.0), low, high, forward


def _fabric(letters: Mapping[str, tuple[str, ...]], patch: SeenPatch, layer: int) -> str:
    ids = letters[patch.fabric]
    return ids[(layer + patch.layer) % len(ids)]


def _neighbors(first: Fabric, second: Fabric, inches: float) -> Neighbors:
    steps = abs(lightness(first.color) - lightness(second.color))
    return Neighbors(first.id, second.id, inches, difference(first.color, second.color), steps)
